namespace RollRide.Tests.Docs;

/// <summary>The sources of the product, for rules that hold over all of them.</summary>
internal static class SourceFiles
{
    /// <summary>Full paths of all C# files under src, without what a build writes.</summary>
    public static IEnumerable<string> All => Directory.EnumerateFiles(Path.Combine(Document.Root, "src"), "*.cs", SearchOption.AllDirectories)
        .Where(file => !file.Split(Path.DirectorySeparatorChar).Intersect(["bin", "obj"]).Any());
}
