namespace RollRide.Fuzz;

/// <summary>The folder that holds the solution.</summary>
internal static class Repository
{
    /// <summary>Its path: the first folder above the program that has the solution in it.</summary>
    public static string Root { get; } = Find();

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "RollRide.sln")))
            folder = folder.Parent ?? throw new InvalidOperationException("RollRide.sln is in no folder above the program.");
        return folder.FullName;
    }
}
