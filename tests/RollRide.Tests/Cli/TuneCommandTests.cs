using System.Text.Json.Nodes;
using RollRide.Cli;
using RollRide.Scenarios;
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
                "tuned-curves.png", "tuned-histories.png", "tuned-ratios.png", "tuned.json", "tuning.json",
            ],
            Directory.EnumerateFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Contains("'Outer' meets both targets", tuned.Output, StringComparison.Ordinal);
        Assert.Contains("Wheel lift means rollover risk", tuned.Output, StringComparison.Ordinal);

        // Read back, the tuned scenario has exactly the damping that was reported: tuning it again changes nothing.
        var back = ScenarioReader.Read(Path.Combine(folder["out"], "tuned.json"));
        Assert.Equal(["plain, tuned for Outer", "plain, tuned for Inner"], back.Study.Layouts.Select(layout => layout.Damper.Name));
        var report = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "tuning.json")))!["layouts"]![0]!["heave"]!;
        Assert.Equal((double)report["coefficient_N_s_per_m"]!, back.Study.Layouts[0].Damper.EquivalentCoefficient(0.26), 0.01);
        Assert.Equal(0.3, (double)report["ratioReached"]!, 1e-3);
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
