using System.Text.Json.Nodes;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Studies;

/// <summary>A small invented scenario for tests, as JSON to be varied: a live axle over a bump, then into a corner, in two seconds.</summary>
internal static class ShortScenario
{
    /// <summary>The scenario with the given layouts, each at its share of the half-track.</summary>
    public static JsonObject Of(params (string Name, double RollRatio)[] layouts)
    {
        var scenario = JsonNode.Parse(
            """
            {
              "name": "Short",
              "vehicle": {
                "name": "Test cart",
                "suspension": "liveAxle",
                "track_mm": 1600,
                "rollCentreHeight_mm": 400,
                "body": { "mass_kg": 1200, "rollInertia_kg_m2": 450, "cgHeight_mm": 800 },
                "unsprung": { "mass_kg": 160, "cgHeight_mm": 350, "axleRollInertia_kg_m2": 50 },
                "springs": { "rate_N_per_mm": 50, "placement": { "motionRatios": { "heave": 1, "roll": 0.7 } } },
                "tyres": { "stiffness_N_per_mm": 250, "damping_N_s_per_m": 300 }
              },
              "dampers": {
                "plain": { "curve": { "velocity_m_per_s": [-1, 0, 1], "force_N": [-3000, 0, 3000] } }
              },
              "layouts": [],
              "manoeuvre": {
                "speed_km_per_h": 36,
                "duration_s": 2,
                "road": { "events": [ { "start_m": 1, "side": "left", "bump": { "length_m": 2, "height_mm": 30 } } ] },
                "cornering": { "lateralAcceleration": { "events": [ { "start_s": 0.8, "amplitude_m_per_s2": 3, "rampStep": { "rampDuration_s": 0.2 } } ] } }
              },
              "output": { "imageWidth_px": 640, "imageHeight_px": 360 }
            }
            """)!.AsObject();
        foreach (var (name, ratio) in layouts)
        {
            scenario["layouts"]!.AsArray().Add(new JsonObject
            {
                ["name"] = name,
                ["placement"] = new JsonObject { ["motionRatios"] = new JsonObject { ["heave"] = 1, ["roll"] = ratio } },
                ["damper"] = "plain",
            });
        }

        return scenario;
    }

    /// <summary>Two layouts, <c>Outer</c> and <c>Inner</c>.</summary>
    public static JsonObject Pair() => Of(("Outer", 0.8), ("Inner", 0.3));

    /// <summary>Sets the value at a path of keys.</summary>
    public static JsonObject With(this JsonObject scenario, string path, JsonNode? value)
    {
        var keys = path.Split('.');
        var node = scenario;
        foreach (var key in keys[..^1])
            node = node[key]!.AsObject();
        if (value is null)
            node.Remove(keys[^1]);
        else
            node[keys[^1]] = value;
        return scenario;
    }

    /// <summary>Writes it into a folder.</summary>
    public static string WriteTo(this JsonObject scenario, TemporaryFolder folder) => folder.Write("short.json", scenario.ToJsonString());

    public static Scenario Read(this JsonObject scenario)
    {
        using var folder = new TemporaryFolder();
        return ScenarioReader.Read(scenario.WriteTo(folder));
    }

    public static RecordedComparison Record(this JsonObject scenario) => Comparison.Record(scenario.Read().Study, cancellation: TestContext.Current.CancellationToken);

    public static ComparisonResult Run(this JsonObject scenario) => Comparison.Run(scenario.Read().Study, cancellation: TestContext.Current.CancellationToken);
}
