using System.Text.Json.Nodes;

namespace RollRide.Fuzz;

/// <summary>A scenario without a fault, from which cases are made.</summary>
/// <param name="Name">The scenario's file.</param>
/// <param name="Input">The scenario and the tables beside it.</param>
internal sealed record Seed(string Name, CaseInput Input)
{
    // s: long enough for every event of the seeds to begin, short enough to try many.
    private const double LongestRun = 4;

    /// <summary>The shipped scenarios and those of the fuzzer's own, which hold what the shipped ones lack.</summary>
    public static IReadOnlyList<Seed> All(string root)
    {
        string[] folders = [Path.Combine(root, "scenarios"), Path.Combine(root, "tests", "RollRide.Fuzz", "Seeds")];
        string[] tables = [.. folders.SelectMany(folder => Directory.EnumerateFiles(folder, "*.csv"))];
        return
        [
            .. folders.SelectMany(folder => Directory.EnumerateFiles(folder, "*.json")).Order(StringComparer.Ordinal)
                .Select(path => new Seed(Path.GetFileName(path), Shortened(CaseInput.Of(path, tables)))),
        ];
    }

    private static CaseInput Shortened(CaseInput input)
    {
        var named = input.Scenario.ToJsonString();
        foreach (var name in input.Tables.Keys.Where(name => !named.Contains(name, StringComparison.Ordinal)).ToArray())
            input.Tables.Remove(name);
        var manoeuvre = input.Scenario["manoeuvre"]!;
        if (manoeuvre["phases"] is null && manoeuvre["duration_s"]!.GetValue<double>() > LongestRun)
            manoeuvre["duration_s"] = LongestRun;
        input.Scenario["output"] = new JsonObject { ["rate_Hz"] = 100, ["imageWidth_px"] = 640, ["imageHeight_px"] = 360 };
        return input;
    }
}
