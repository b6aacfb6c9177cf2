using System.Text.RegularExpressions;

namespace RollRide.Tests.Docs;

/// <summary>A Markdown document of the repository.</summary>
internal sealed partial class Document
{
    private Document(string path)
    {
        FullPath = path;
        Text = File.ReadAllText(path);
    }

    /// <summary>The folder that holds RollRide.sln.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Paths of all documents from the root: those in the root folder and those in docs.</summary>
    public static IEnumerable<string> Names => Directory.EnumerateFiles(Root, "*.md")
        .Concat(Directory.EnumerateFiles(Path.Combine(Root, "docs"), "*.md", SearchOption.AllDirectories))
        .Select(path => Path.GetRelativePath(Root, path).Replace('\\', '/'))
        .Order(StringComparer.Ordinal);

    public string FullPath { get; }

    public string Text { get; }

    /// <summary>The contents of all code blocks of one language, each as its lines.</summary>
    public IEnumerable<string[]> Blocks(string language) =>
        from Match block in CodeBlock().Matches(Text)
        where block.Groups["language"].Value == language
        let indent = block.Groups["indent"].Length
        select block.Groups["code"].Value.TrimEnd('\n').Split('\n').Select(line => line.Length < indent ? line : line[indent..]).ToArray();

    /// <summary>Every command line shown: the lines of shell blocks, and what stands in the text as `rollride …`.</summary>
    public IEnumerable<string> CommandLines => Blocks("sh").SelectMany(lines => lines)
        .Where(line => line.Length > 0 && line[0] != '#')
        .Concat(from Match inline in InlineCommand().Matches(Text) select inline.Groups[1].Value);

    /// <summary>The targets of all links and pictures that do not lead out of the repository.</summary>
    public IEnumerable<string> RelativeLinks =>
        from Match link in Link().Matches(CodeBlock().Replace(Text, ""))
        let target = link.Groups[1].Value
        where !target.Contains("://", StringComparison.Ordinal)
        select target;

    /// <summary>The anchors of the headings: lower case, spaces as hyphens, other punctuation dropped.</summary>
    public IEnumerable<string> Anchors =>
        from Match heading in Heading().Matches(CodeBlock().Replace(Text, ""))
        select NotInAnchor().Replace(heading.Groups[1].Value.Trim().ToLowerInvariant(), "").Replace(' ', '-');

    public static Document Read(string name) => new(Path.Combine(Root, name));

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "RollRide.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The tests do not lie below the folder of RollRide.sln.");
    }

    [GeneratedRegex(@"^(?<indent> *)```(?<language>\w*)\n(?<code>.*?)^ *```$", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex CodeBlock();

    [GeneratedRegex(@"`(rollride [^`]+)`")]
    private static partial Regex InlineCommand();

    [GeneratedRegex(@"\[[^\]]*\]\(([^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"^#+ +(.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();

    [GeneratedRegex(@"[^\w \-]")]
    private static partial Regex NotInAnchor();
}
