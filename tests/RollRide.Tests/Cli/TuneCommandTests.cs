using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.Findings;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public class TuneCommandTests
{
    private static JsonObject Scenario() => ShortScenario.Pair().With("tuning", JsonNode.Parse(
        """
        {
          "heave": { "ratio": 0.3, "damperVelocity_m_per_s": 0.26 },
          "roll": { "ratio": 0.38, "damperVelocity_m_per_s": 0.05 },
          "limits": { "force_N": 6000, "highSpeedShare": [0.5, 1] }
        }
        """));

    [Fact]
    public async Task Json_is_the_summary_file_and_a_figure_comes_in_the_format_asked_for()
    {
        using var folder = new TemporaryFolder();

        var run = await Invocation.Of("tune", Scenario().WriteTo(folder), "--no-front", "--json", "--format", "pdf", "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Equal(File.ReadAllText(Path.Combine(folder["out"], "tuning.json")), run.Output);
        Assert.True(File.Exists(Path.Combine(folder["out"], "figures.pdf")));
        Assert.Empty(Directory.GetFiles(folder["out"], "*.png"));
    }

    [Fact]
    public async Task Tune_writes_curves_and_a_scenario_that_can_be_fed_straight_back()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario().WriteTo(folder);

        var tuned = await Invocation.Of("tune", path, "--no-front", "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (tuned.ExitCode, tuned.Error));
        Assert.Equal(
            [
                "curve-after-Inner.csv", "curve-after-Outer.csv", "curve-before-Inner.csv", "curve-before-Outer.csv",
                "sheet-after-Inner.csv", "sheet-after-Outer.csv",
                "tuned-curves.png", "tuned-histories.png", "tuned-ratios.png", "tuned-tolerance.png", "tuned.json", "tuning.json",
            ],
            Directory.EnumerateFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Contains("“Outer” meets both targets", tuned.Output, StringComparison.Ordinal);
        Assert.All(Cautions.All, caution => Assert.Contains($"\n{caution}\n", tuned.Output, StringComparison.Ordinal));

        // Read back, the tuned scenario has exactly the damping that was reported, beside the layouts as they were.
        var back = ScenarioReader.Read(Path.Combine(folder["out"], "tuned.json"));
        Assert.Equal(["Outer", "Inner", "Outer, tuned", "Inner, tuned"], back.Study.Layouts.Select(layout => layout.Name));
        Assert.Equal(["plain", "plain", "plain, tuned for Outer", "plain, tuned for Inner"], back.Study.Layouts.Select(layout => layout.Damper.Name));
        var sheet = DynoReader.Read([Path.Combine(folder["out"], "sheet-after-Outer.csv")], cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(back.Study.Layouts[2].Damper.EquivalentCoefficient(0.26), sheet.Curve.EquivalentCoefficient(0.26), 0.01); // both have eight digits
        var report = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "tuning.json")))!["layouts"]![0]!["heave"]!;
        Assert.Equal((double)report["coefficient_N_s_per_m"]!, back.Study.Layouts[2].Damper.EquivalentCoefficient(0.26), 0.01);
        Assert.Equal(0.3, (double)report["ratioReached"]!, 1e-3);
    }

    [Fact] // Its dampers come from files, two of one name among them, and one damper stands in no layout.
    public async Task Tuned_scenario_runs_where_it_lies_and_gives_what_tune_said()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder["one"]);
        Directory.CreateDirectory(folder["two"]);
        foreach (var (place, scale) in new[] { ("one", 1), ("two", 2) })
            File.WriteAllText(folder[$"{place}/damper.csv"], FormattableString.Invariant($"velocity_m_per_s,force_N\n-1,{-2000 * scale}\n0,0\n1,{1500 * scale}\n"));
        var path = Scenario().With("dampers", JsonNode.Parse("""{ "plain": { "dyno": "one/damper.csv" }, "other": { "dyno": "two/damper.csv" } }""")).WriteTo(folder);

        var tuned = await Invocation.Of("tune", path, "--no-front", "--no-plots", "--json", "--out", folder["out"]);
        Directory.Delete(folder["one"], recursive: true);
        Directory.Delete(folder["two"], recursive: true);
        var compared = await Invocation.Of("compare", folder["out/tuned.json"], "--no-plots", "--json", "--out", folder["again"]);

        Assert.Equal((ExitCode.Done, ExitCode.Done), (tuned.ExitCode, compared.ExitCode));
        var (said, ran) = (JsonNode.Parse(tuned.Output)!["layouts"]!.AsArray(), JsonNode.Parse(compared.Output)!["layouts"]!.AsArray());
        Assert.Equal(["Outer", "Inner", "Outer, tuned", "Inner, tuned"], ran.Select(layout => (string?)layout!["name"]));
        for (var i = 0; i < 2; i++)
        {
            Assert.Equal((double)said[i]!["before"]!["overshoot_percent"]!, (double)ran[i]!["metrics"]!["rollOvershoot_percent"]!, 1e-9);
            Assert.Equal((double)said[i]!["after"]!["overshoot_percent"]!, (double)ran[i + 2]!["metrics"]!["rollOvershoot_percent"]!, 0.01);
        }
    }

    [Fact]
    public async Task Knee_of_the_front_is_written_as_a_curve_and_a_layout()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario()
            .With("tuning.tradeOff", JsonNode.Parse("""{ "points": 30 }"""))
            .With("solver", JsonNode.Parse("""{ "relativeTolerance": 1e-3, "absoluteTolerance": 1e-4 }"""))
            .WriteTo(folder);

        var tuned = await Invocation.Of("tune", path, "--layouts", "Outer", "--no-plots", "--json", "--out", folder["out"]);

        var best = JsonNode.Parse(tuned.Output)!["layouts"]![0]!["tradeOff"]!;
        var back = ScenarioReader.Read(Path.Combine(folder["out"], "tuned.json")).Study.Layouts.Single(layout => layout.Name == "Outer, compromise");
        Assert.Equal((double)best["compromiseHeave"]!["coefficient_N_s_per_m"]!, back.Damper.EquivalentCoefficient(0.26), 0.01);
        Assert.Equal((double)best["compromiseRoll"]!["coefficient_N_s_per_m"]!, back.Damper.EquivalentCoefficient(0.05), 0.01);
        Assert.True(File.Exists(folder["out/curve-compromise-Outer.csv"]));
        Assert.Contains(JsonNode.Parse(tuned.Output)!["conclusions"]!.AsArray(), sentence => ((string)sentence!).Contains("It m", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Load_states_are_tuned_for_together_told_apart_and_chosen()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario().With("loadStates", JsonNode.Parse("""{ "kerb": { "mass_kg": 1000 }, "two up": { "payload": [ { "mass_kg": 150, "height_mm": 900 } ] } }""")).WriteTo(folder);

        var tuned = await Invocation.Of("tune", path, "--no-front", "--layouts", "Outer", "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (tuned.ExitCode, tuned.Error));
        Assert.Contains("Load state kerb (1000 kg)\n", tuned.Output, StringComparison.Ordinal);
        Assert.Contains("Load state two up (1350 kg)\n", tuned.Output, StringComparison.Ordinal);
        Assert.Contains("Simulated before and after in load state “two up”: ", tuned.Output, StringComparison.Ordinal);
        Assert.True(File.Exists(folder["out/two-up-tuned-ratios.png"]));
        var states = JsonNode.Parse(File.ReadAllText(folder["out/tuning.json"]))!["loadStates"]!.AsArray();
        Assert.Equal(["kerb", "two up"], states.Select(state => (string?)state!["name"]));

        // The tuned scenario has the load states too, and in one of them gives what was said of it.
        var back = ScenarioReader.Read(folder["out/tuned.json"]).Study;
        Assert.Equal(["kerb", "two up"], back.Loads.Select(load => load.Name));
        var run = Comparison.RunLayout(back.InEachLoad[1], back.Layouts.Single(layout => layout.Name == "Outer, tuned"), TestContext.Current.CancellationToken);
        Assert.Equal((double)states[1]!["layouts"]![0]!["after"]!["overshoot_percent"]!, 100 * run.Metrics.RollResponse!.Overshoot!.Value, 0.01);

        var kerb = await Invocation.Of("tune", path, "--no-front", "--no-plots", "--layouts", "Outer", "--load", "kerb", "--json", "--out", folder["kerb"]);
        Assert.Equal("kerb", (string?)Assert.Single(JsonNode.Parse(kerb.Output)!["loadStates"]!.AsArray())!["name"]);
        (await Invocation.Of("tune", path, "--load", "curb", "--out", folder["no"])).Refused(ExitCode.BadInput, "no load state “curb”", "“kerb”");
    }

    [Fact]
    public async Task Tune_twice_writes_the_same_bytes()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario().WriteTo(folder);
        await Invocation.Of("tune", path, "--no-front", "--no-plots", "--layouts", "Inner", "--out", folder["first"]);
        await Invocation.Of("tune", path, "--no-front", "--no-plots", "--layouts", "Inner", "--out", folder["second"]);
        var names = Directory.EnumerateFiles(folder["first"]).Select(file => Path.GetFileName(file)).ToArray();
        Assert.NotEmpty(names);
        Assert.All(names, name => Assert.Equal(File.ReadAllBytes(Path.Combine(folder["first"], name)), File.ReadAllBytes(Path.Combine(folder["second"], name))));
    }

    [Fact]
    public async Task Scenario_without_tuning_is_refused()
    {
        using var folder = new TemporaryFolder();
        (await Invocation.Of("tune", ShortScenario.Pair().WriteTo(folder), "--out", folder["out"])).Refused(ExitCode.BadInput, "tuning", "missing");
        Assert.False(Directory.Exists(folder["out"]));
    }

    [Fact]
    public async Task Targets_beyond_the_force_limit_are_refused()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario().With("tuning.limits.force_N", 300).WriteTo(folder);
        (await Invocation.Of("tune", path, "--out", folder["out"])).Refused(ExitCode.BadInput, "tuning.heave.ratio", "beyond the force limit");
    }
}
