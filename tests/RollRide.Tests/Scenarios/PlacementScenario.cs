using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Scenarios;

/// <summary>The shipped scenario with packaging, to be changed.</summary>
internal static class PlacementScenario
{
    private static readonly System.Text.Json.JsonDocumentOptions Options = new() { CommentHandling = System.Text.Json.JsonCommentHandling.Skip, AllowTrailingCommas = true };

    /// <summary>As it is shipped; its data file is found from any folder.</summary>
    public static JsonObject Shipped()
    {
        var scenario = JsonNode.Parse(File.ReadAllText(Scenarios.Shipped.PathOf("scenarios", "placement.json")), null, Options)!.AsObject();
        scenario["dampers"]!["valley"]!["dyno"] = Scenarios.Shipped.PathOf("scenarios", "valley-damper-dyno.csv");
        return scenario;
    }

    /// <summary>With layouts whose axle ends stand at these lateral positions, mm, leaning in by 20 mm at the top as the placed ones do.</summary>
    public static JsonObject WithMountsAt(params double[] positions)
    {
        var scenario = Shipped();
        scenario["layouts"] = new JsonArray([.. positions.Select(y => (JsonNode)new JsonObject
        {
            ["name"] = string.Create(CultureInfo.InvariantCulture, $"At {y}"),
            ["placement"] = JsonNode.Parse(string.Create(CultureInfo.InvariantCulture, $$"""{ "mounts": { "axleEnd_mm": [-120, {{y}}, 300], "bodyEnd_mm": [-120, {{y - 20}}, 770] } }""")),
            ["damper"] = "valley",
        })]);
        return scenario;
    }

    /// <summary>Reads a changed scenario.</summary>
    public static Scenario Understood(this JsonObject scenario)
    {
        using var folder = new TemporaryFolder();
        return ScenarioReader.Read(scenario.WriteTo(folder));
    }
}
