namespace RollRide.Tests.Scenarios;

/// <summary>The files that come with the program.</summary>
internal static class Shipped
{
    private static readonly string Root = FindRoot();

    /// <summary>The names of the shipped scenarios.</summary>
    public static IEnumerable<string> Scenarios =>
        Directory.EnumerateFiles(PathOf("scenarios"), "*.json").Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal);

    public static string Scenario(string name) => PathOf("scenarios", name);

    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    // Tests run from a folder deep below the one that holds the solution.
    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "RollRide.sln")))
            folder = folder.Parent ?? throw new InvalidOperationException("RollRide.sln is in no folder above the tests.");
        return folder.FullName;
    }
}
