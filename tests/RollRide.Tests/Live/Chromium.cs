namespace RollRide.Tests.Live;

/// <summary>The browser of the tests, if one stands on this machine.</summary>
internal static class Chromium
{
    /// <summary>Why a test is skipped where there is none.</summary>
    public const string IsMissing = "No Chromium stands on this machine (Debian: apt-get install chromium); continuous integration has one.";

    private static readonly string[] Names = ["chromium", "chromium-browser", "google-chrome"];

    /// <summary>The program, or null where there is none.</summary>
    public static string? Path { get; } = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(System.IO.Path.PathSeparator)
        .SelectMany(folder => Names.Select(name => System.IO.Path.Combine(folder, name)))
        .FirstOrDefault(File.Exists);

    /// <summary>What it is started with: no window, and nothing of its own sent anywhere.</summary>
    /// <param name="profile">A folder for its own files.</param>
    /// <param name="width">Width of the page, pixels.</param>
    /// <param name="height">Height of the page, pixels.</param>
    public static IEnumerable<string> Arguments(string profile, int width, int height) =>
    [
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync", $"--window-size={width},{height}", $"--user-data-dir={profile}",
    ];
}
