using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;

namespace RollRide.Tests.Report;

/// <summary>A browser without a window, if one stands on this machine.</summary>
internal static partial class Browser
{
    private static readonly string[] Names = ["chromium", "chromium-browser", "google-chrome"];

    /// <summary>The program, or null where there is none.</summary>
    public static string? Path { get; } = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(System.IO.Path.PathSeparator)
        .SelectMany(folder => Names.Select(name => System.IO.Path.Combine(folder, name)))
        .FirstOrDefault(File.Exists);

    /// <summary>Opens a page, lets its scripts run, and gives back what a script of the test left in the element <c>test-result</c>.</summary>
    /// <param name="page">The page's file.</param>
    /// <param name="profile">A folder for the browser's own files.</param>
    /// <param name="cancellation">Stops the browser.</param>
    public static async Task<string> ResultAsync(string page, string profile, CancellationToken cancellation)
    {
        var document = await OutputAsync(page, profile, ["--dump-dom", "--virtual-time-budget=2000"], cancellation);
        var result = Result().Match(document);
        Assert.True(result.Success, $"The page's script did not come to its end: {document[^Math.Min(500, document.Length)..]}");
        return WebUtility.HtmlDecode(result.Groups[1].Value);
    }

    /// <summary>Prints a page as PDF.</summary>
    public static Task PrintAsync(string page, string profile, string target, CancellationToken cancellation) =>
        OutputAsync(page, profile, [$"--print-to-pdf={target}", "--no-pdf-header-footer"], cancellation);

    private static async Task<string> OutputAsync(string page, string profile, string[] task, CancellationToken cancellation)
    {
        var start = new ProcessStartInfo(Path!)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var argument in (string[])
        [
            "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
            "--disable-component-update", "--disable-sync", "--window-size=1280,900", $"--user-data-dir={profile}", .. task, new Uri(page).AbsoluteUri,
        ])
        {
            start.ArgumentList.Add(argument);
        }

        using var browser = Process.Start(start)!;
        var error = browser.StandardError.ReadToEndAsync(cancellation);
        var output = await browser.StandardOutput.ReadToEndAsync(cancellation);
        await error;
        await browser.WaitForExitAsync(cancellation);
        return output;
    }

    [GeneratedRegex("<pre id=\"test-result\">(.*?)</pre>", RegexOptions.Singleline)]
    private static partial Regex Result();
}
