using System.Text;
using RollRide.DataFiles;
using RollRide.Packaging;

namespace RollRide.Scenarios;

/// <summary>The text of a scenario file as it was read, from which edited scenarios are made; the files that it names are read once.</summary>
/// <remarks>Immutable and thread-safe, but for the files: each is read when first asked for.</remarks>
internal sealed class ScenarioText
{
    private readonly ReadDataFiles _files = new(keepsContents: true);
    private readonly Lazy<LocatedNode> _root;

    // A page asks for one state after the other, and two pages for two.
    private readonly Kept<PlacementBands> _bands = new(8);

    private ScenarioText(string path, ReadOnlyMemory<byte> utf8)
    {
        (Path, Utf8) = (path, utf8);
        _root = new(() => LocatedNode.Parse(Utf8, Path));
    }

    /// <summary>The file's path, as given.</summary>
    public string Path { get; }

    /// <summary>The text, in UTF-8.</summary>
    public ReadOnlyMemory<byte> Utf8 { get; }

    /// <summary>Its values.</summary>
    /// <exception cref="DataFileException">The text is not JSON.</exception>
    public LocatedNode Root => _root.Value;

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

    /// <summary>A changed curve that is to become a file beside the scenario.</summary>
    /// <param name="name">The file's name, without a folder.</param>
    /// <param name="from">The file that the curve was read from, as the scenario names it; null where it was read from none.</param>
    /// <param name="points">Velocity, m/s, and force, N, positive in compression, by ascending velocity; at least one, all finite.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">A number is beyond what such a file may hold, or two points contradict each other.</exception>
    public AddedCurve Curve(string name, string? from, IReadOnlyList<(double Velocity, double Force)> points, CancellationToken cancellation = default)
    {
        var folder = System.IO.Path.GetDirectoryName(Path) ?? "";
        var path = System.IO.Path.Combine(folder, name);
        return (from is null ? null : Changed(System.IO.Path.Combine(folder, from))) ?? new AddedCurve(name, path, points);

        // Of a file that the scenario does not name, or not any more, nothing is taken.
        AddedCurve? Changed(string old) => new EditedFiles(Path, Root, []).Names("dyno", from) && CurveOrNone(old, cancellation) is { } curve
            ? ChangedCurveText.Of(name, path, curve, _files.Content(old, cancellation), points)
            : null;
    }

    /// <summary>Reads the scenario that the text becomes with edits, by the scenario's own reader; what only the command that tunes looks at is left out.</summary>
    /// <param name="utf8">The text with edits.</param>
    /// <param name="added">Files that the edited text may name and that stand in memory alone.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">Something is wrong; all faults found.</exception>
    public EditedScenario ReadEdited(ReadOnlyMemory<byte> utf8, IEnumerable<AddedCurve> added, CancellationToken cancellation = default)
    {
        var document = BoundDocument.Parse<ScenarioFile>(utf8, Path, cancellation);
        var files = _files.With(new EditedFiles(Path, Root, added));
        var edited = new EditedScenario(utf8, document.Root);
        var context = new ReadingContext(document, files) { ReadsTuning = false, Kept = (_bands, edited.RoomKey()), Cancellation = cancellation };
        return edited with { Scenario = ScenarioReader.Read(context) };
    }

    private CurveFileTable? CurveOrNone(string path, CancellationToken cancellation)
    {
        try
        {
            return _files.Curve(path, cancellation);
        }
        catch (DataFileException)
        {
            return null;
        }
    }
}

/// <summary>A scenario as its edited text has it.</summary>
/// <param name="Utf8">The text, in UTF-8.</param>
/// <param name="Root">The values of the text, each with its place.</param>
internal sealed record EditedScenario(ReadOnlyMemory<byte> Utf8, LocatedNode Root)
{
    // The vehicle as it stands without the layouts' dampers.
    private static readonly string[] OfVehicle = ["vehicle", "wholeVehicle", "loadStates", "designLoad"];

    // What the valves do at rest is nothing: no place depends on it.
    private static readonly string[] OfValves = ["curve", "dyno", "interpolation", "forceScale", "forceTolerance_percent"];

    /// <summary>What was understood.</summary>
    public Scenario Scenario { get; init; } = null!;

    /// <summary>All of the text on which the vehicle depends as it stands without the layouts' dampers.</summary>
    public string VehicleKey() => TextOf(OfVehicle.Select(Root.Find));

    /// <summary>All of the text on which it depends where the damper to be placed fits.</summary>
    public string RoomKey() => $"{VehicleKey()}\n{TextOf([Root.Find("packaging"), .. Root.Find("dampers")?.Children.SelectMany(damper => damper.Children.Where(child => !OfValves.Contains(child.Key))) ?? []])}";

    /// <summary>The text of some values, one after the other.</summary>
    /// <param name="nodes">The values; null for one that is left out.</param>
    public string TextOf(IEnumerable<LocatedNode?> nodes) =>
        string.Join('\n', nodes.Select(node => node is null ? "" : $"{node.Path}: {Encoding.UTF8.GetString(Utf8.Span[node.Span.Start..node.Span.End])}"));
}
