using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;
using RollRide.Tests.Live;

namespace RollRide.Tests.Report;

/// <summary>What a browser without a window makes of a page.</summary>
internal static partial class Browser
{
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
        var start = new ProcessStartInfo(Chromium.Path!, [.. Chromium.Arguments(profile, 1280, 900), .. task, new Uri(page).AbsoluteUri])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
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
