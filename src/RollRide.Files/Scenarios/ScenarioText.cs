using System.Security.Cryptography;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>The text of a scenario file as it was read, from which edited scenarios are made; the files that it names are read once.</summary>
/// <remarks>Immutable and thread-safe, but for the files: each is read when first asked for.</remarks>
internal sealed class ScenarioText
{
    private readonly ReadDataFiles _files = new(keepsContents: true);
    private readonly Lazy<LocatedNode> _root;

    private ScenarioText(string path, ReadOnlyMemory<byte> utf8)
    {
        (Path, Utf8) = (path, utf8);
        Revision = Convert.ToHexStringLower(SHA256.HashData(utf8.Span));
        _root = new(() => LocatedNode.Parse(Utf8, Path));
    }

    /// <summary>The file's path, as given.</summary>
    public string Path { get; }

    /// <summary>The text, in UTF-8.</summary>
    public ReadOnlyMemory<byte> Utf8 { get; }

    /// <summary>SHA-256 of the text, in hexadecimal digits.</summary>
    public string Revision { get; }

    /// <summary>The scenario file and each file that it was found to name, there or not.</summary>
    public IReadOnlyList<string> Files => [Path, .. _files.Asked.Order(StringComparer.Ordinal)];

    /// <summary>Reads a file's text; whether it is a scenario shows later.</summary>
    /// <param name="path">The file.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The file cannot be read.</exception>
    public static ScenarioText Read(string path, CancellationToken cancellation = default) => new(path, InputFile.ReadAllBytes(path, cancellation));

    /// <summary>The text with edits.</summary>
    /// <param name="edits">The edits, in their order.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="DataFileException">The text is not JSON, or there is no place for an edit.</exception>
    public ReadOnlyMemory<byte> Edited(IReadOnlyCollection<JsonEdit> edits, CancellationToken cancellation = default) =>
        edits.Count == 0 ? Utf8 : EditedJson.Apply(Utf8, Path, edits, cancellation);

    /// <summary>Reads the scenario that the text becomes with edits, by the scenario's own reader.</summary>
    /// <param name="utf8">The text with edits.</param>
    /// <param name="added">Files that the edited text may name and that stand in memory alone.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">Something is wrong; all faults found.</exception>
    public EditedScenario ReadEdited(ReadOnlyMemory<byte> utf8, IEnumerable<AddedCurve> added, CancellationToken cancellation = default)
    {
        var document = BoundDocument.Parse<ScenarioFile>(utf8, Path, cancellation);
        var files = _files.With(new EditedFiles(Path, _root.Value, added));
        return new EditedScenario(utf8, document.Root, ScenarioReader.Read(new ReadingContext(document, files) { Cancellation = cancellation }));
    }
}

/// <summary>A scenario as its edited text has it.</summary>
/// <param name="Utf8">The text, in UTF-8.</param>
/// <param name="Root">The values of the text, each with its place.</param>
/// <param name="Scenario">What was understood.</param>
internal sealed record EditedScenario(ReadOnlyMemory<byte> Utf8, LocatedNode Root, Scenario Scenario);
