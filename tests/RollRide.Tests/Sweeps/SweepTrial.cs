using System.Text.Json.Nodes;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Sweeps;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Sweeps;

/// <summary>A short scenario with a sweep in it, and its tables in a folder.</summary>
internal sealed class SweepTrial : IDisposable
{
    public const string Rate = "vehicle.springs.rate_N_per_mm";
    public const string Scale = "dampers.plain.forceScale";

    private readonly TemporaryFolder _folder = new();

    public SweepTrial(string sweep, Func<JsonObject, JsonObject>? change = null, string? loadStates = null)
    {
        var scenario = ShortScenario.Pair();
        scenario["manoeuvre"]!["duration_s"] = 1.2;
        if (loadStates is not null)
            scenario["loadStates"] = JsonNode.Parse(loadStates);
        scenario["sweep"] = JsonNode.Parse(sweep);
        try
        {
            ScenarioPath = (change?.Invoke(scenario) ?? scenario).WriteTo(_folder);
            Template = ScenarioTemplate.Read(ScenarioPath);
            Plan = SweepPlanReader.Read(Template, Template.Sweep!);
        }
        catch
        {
            // Nobody can dispose of what was not made.
            _folder.Dispose();
            throw;
        }
    }

    /// <summary>Twelve variants: four spring rates and three damper scales.</summary>
    public static SweepTrial Twelve() => new(
        $$"""
        { "parameters": [ { "path": "{{Rate}}", "linear": { "from": 40, "to": 60, "count": 4 } }, { "path": "{{Scale}}", "values": [0.5, 1, 2] } ],
          "targets": [ { "metric": "bodyAccelerationRms_m_per_s2", "atMost": 0.5 } ] }
        """);

    public string ScenarioPath { get; }

    public ScenarioTemplate Template { get; }

    public SweepPlan Plan { get; }

    public string this[string name] => _folder[name];

    /// <summary>Runs a share from where its table ends; gives the table's text.</summary>
    public string Run(string folder, SweepShare? share = null, int threads = 2, bool resume = false, bool overwrite = false)
    {
        var table = new SweepTable(_folder[folder], Plan, share ?? SweepShare.Whole);
        table.Fill(table.Prepare(resume, overwrite), threads, cancellation: TestContext.Current.CancellationToken);
        return File.ReadAllText(table.FullPath);
    }

    /// <summary>Runs the whole and reads what it found.</summary>
    public SweepAnalysis Analyse()
    {
        Run("out");
        return new SweepTable(_folder["out"], Plan, SweepShare.Whole).Analyse(TestContext.Current.CancellationToken);
    }

    public void Dispose() => _folder.Dispose();
}
