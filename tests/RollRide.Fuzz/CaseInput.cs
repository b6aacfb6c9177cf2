using System.Text.Json;
using System.Text.Json.Nodes;

namespace RollRide.Fuzz;

/// <summary>What a command is given: the scenario, the tables beside it, and the words after the command.</summary>
internal sealed class CaseInput
{
    /// <summary>The scenario's name in the folder of the case.</summary>
    public const string ScenarioName = "case.json";

    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    /// <summary>The scenario; ignored where <see cref="Text"/> is set.</summary>
    public required JsonObject Scenario { get; init; }

    /// <summary>The scenario's text where it is no longer JSON.</summary>
    public string? Text { get; set; }

    /// <summary>The tables beside the scenario, by name.</summary>
    public required SortedDictionary<string, string> Tables { get; init; }

    /// <summary>The words of the command line.</summary>
    public required List<string> Words { get; init; }

    /// <summary>Reads a scenario and all tables beside it.</summary>
    public static CaseInput Of(string scenario, IEnumerable<string> tables) => new()
    {
        Scenario = JsonNode.Parse(File.ReadAllText(scenario), null, Lenient)!.AsObject(),
        Tables = new(tables.ToDictionary(path => Path.GetFileName(path), File.ReadAllText), StringComparer.Ordinal),
        Words = [],
    };

    /// <summary>A copy to be changed.</summary>
    public CaseInput Copy() => new()
    {
        Scenario = Scenario.DeepClone().AsObject(),
        Text = Text,
        Tables = new(Tables, StringComparer.Ordinal),
        Words = [.. Words],
    };

    /// <summary>The scenario as it is written to the folder of the case.</summary>
    public string ScenarioText => Text ?? Scenario.ToJsonString(Indented);

    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };
}
