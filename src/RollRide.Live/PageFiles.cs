using System.Collections.Frozen;

namespace RollRide.Live;

/// <summary>One file of the page.</summary>
/// <param name="Type">Its media type.</param>
/// <param name="Content">Its bytes.</param>
internal sealed record PageFile(string Type, byte[] Content);

/// <summary>The files of the page, which are part of the program: no file of the machine is served.</summary>
internal static class PageFiles
{
    /// <summary>The page itself.</summary>
    public const string Page = "live.html";

    private static readonly FrozenDictionary<string, string> Types = new Dictionary<string, string>
    {
        [".html"] = "text/html; charset=utf-8",
        [".css"] = "text/css; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".svg"] = "image/svg+xml",
        [".otf"] = "font/otf",
    }.ToFrozenDictionary();

    /// <summary>All of them, by their names.</summary>
    public static FrozenDictionary<string, PageFile> All { get; } = typeof(PageFiles).Assembly.GetManifestResourceNames()
        .ToFrozenDictionary(name => name, name => new PageFile(Types[Path.GetExtension(name)], Read(name)));

    private static byte[] Read(string name)
    {
        using var stream = typeof(PageFiles).Assembly.GetManifestResourceStream(name)!;
        var content = new byte[stream.Length];
        stream.ReadExactly(content);
        return content;
    }
}
