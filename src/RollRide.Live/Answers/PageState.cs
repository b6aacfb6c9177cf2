using System.Collections.Immutable;
using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Scenarios;

namespace RollRide.Live.Answers;

/// <summary>All that a page has changed: edits of the scenario's text, and curves that are to become files beside it.</summary>
/// <param name="Key">The state as one text, by which the same one is known again.</param>
/// <param name="Edits">The edits, in their order.</param>
/// <param name="Curves">The curves by the names of their files, each with the file that it was read from.</param>
internal sealed record PageState(string Key, ImmutableArray<JsonEdit> Edits, ImmutableArray<(string Name, string? From, ImmutableArray<(double Velocity, double Force)> Points)> Curves)
{
    // Far more than a session of one page makes, and few enough to answer for.
    private const int MostEdits = 2000;
    private const int MostFiles = 50;
    private const int MostPoints = 10_000;

    /// <summary>The file as it stands on disk.</summary>
    public static PageState None { get; } = new("", [], []);

    /// <summary>Reads the state of a request.</summary>
    /// <param name="node">The state; null for that of the file.</param>
    /// <exception cref="RequestFault">It is not of the form that the page sends.</exception>
    public static PageState Of(JsonNode? node)
    {
        if (node is null)
            return None;
        var state = Asked.Object(node, "state");
        ImmutableArray<JsonEdit> edits = [.. Asked.List(Asked.Member(state, "edits"), "state.edits", MostEdits).Select(EditOf)];
        ImmutableArray<(string, string?, ImmutableArray<(double, double)>)> curves = [.. Asked.List(Asked.Member(state, "files"), "state.files", MostFiles).Select(CurveOf)];
        return new PageState(TextOf(state), edits, curves);
    }

    /// <summary>The curves as files beside a scenario.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="DataFileException">A curve is beyond what a file may hold, or a file of its name is there and holds something else.</exception>
    public ImmutableArray<AddedCurve> FilesBeside(ScenarioText scenario, CancellationToken cancellation)
    {
        var folder = Path.GetDirectoryName(scenario.Path) ?? "";
        var files = ImmutableArray.CreateBuilder<AddedCurve>(Curves.Length);
        foreach (var (name, from, points) in Curves)
        {
            var path = Path.Combine(folder, name);
            var file = scenario.Curve(name, from, points, cancellation);
            if (PlainFileName.IsTaken(path) && !IsSame(path, file.Utf8))
                throw new DataFileException(new DataFileFault(path, null, null, null, "a file of this name is there already; a changed curve needs a name of its own"));
            files.Add(file);
        }

        return files.ToImmutable();
    }

    // A curve that was saved before stands there as it is here.
    private static bool IsSame(string path, byte[] content) =>
        InputFile.KindOtherThanRegular(path) is null && InputFile.Target(path) is { Exists: true } file && file.Length == content.Length && InputFile.ReadAllBytes(path).AsSpan().SequenceEqual(content);

    private static JsonEdit EditOf(JsonNode? node)
    {
        var edit = Asked.Object(node, "state.edits[]");
        var path = Asked.Text(Asked.Member(edit, "path"), "state.edits[].path");
        if (Asked.Flag(Asked.Member(edit, "remove"), "state.edits[].remove"))
            return JsonEdit.Remove(path);
        return edit.ContainsKey("value") ? JsonEdit.Set(path, edit["value"]) : throw Asked.Expected("state.edits[].value", "given, or “remove” true");
    }

    private static (string Name, string? From, ImmutableArray<(double, double)> Points) CurveOf(JsonNode? node)
    {
        var file = Asked.Object(node, "state.files[]");
        var name = Asked.Text(Asked.Member(file, "name"), "state.files[].name");
        if (PlainFileName.WhyNot(name, ".csv") is { } reason)
            throw new RequestFault($"“state.files[].name”: {reason}");
        var rows = Asked.List(Asked.Member(file, "rows"), "state.files[].rows", MostPoints);
        return rows.Count >= 2
            ? (name, Asked.TextOrNone(Asked.Member(file, "from"), "state.files[].from"), [.. rows.Select(PointOf)])
            : throw Asked.Expected("state.files[].rows", "a list of at least 2 rows");
    }

    private static (double, double) PointOf(JsonNode? node) => node is JsonArray { Count: 2 } row
        ? (Asked.Number(row[0], "state.files[].rows[][0]"), Asked.Number(row[1], "state.files[].rows[][1]"))
        : throw Asked.Expected("state.files[].rows[]", "a list of velocity and force");

    private static string TextOf(JsonObject state)
    {
        try
        {
            return state.ToJsonString();
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException)
        {
            throw new RequestFault("“state” holds half of an escaped character, or a key twice");
        }
    }
}
