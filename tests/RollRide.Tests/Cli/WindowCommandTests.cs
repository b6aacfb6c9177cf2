using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.Plots.Figures;
using RollRide.Studies;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public sealed class WindowCommandTests
{
    [Fact]
    public async Task Window_writes_its_files_and_says_what_would_reopen_it()
    {
        using var folder = new TemporaryFolder();
        var path = SettingWindowStudyTests.WithTargets(ShortScenario.Pair(), 0.25, 0.2, 0.4).WriteTo(folder);

        var invocation = await Invocation.Of("window", path, "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        Assert.Equal(["setting-window.png", "window.csv", "window.json"], Directory.EnumerateFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Contains("window closes", invocation.Output, StringComparison.Ordinal);
        Assert.Contains("“Inner”: Moving the dampers from 240 to", invocation.Output, StringComparison.Ordinal);
        var layouts = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "window.json")))!["layouts"]!;
        Assert.True((bool)layouts[0]!["window"]!["open"]!);
        Assert.Equal("closed", (string)layouts[1]!["window"]!["standing"]!);
        Assert.Equal(5, layouts[1]!["remedies"]!.AsArray().Count);
    }

    [Fact]
    public async Task Damper_at_the_centre_has_no_least_setting()
    {
        using var folder = new TemporaryFolder();
        var path = SettingWindowStudyTests.WithTargets(ShortScenario.Of(("Centre", 0)), 0.25, 0.2, 0.4).WriteTo(folder);

        var invocation = await Invocation.Of("window", path, "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, invocation.ExitCode);
        Assert.Contains("no setting short of locking the suspension reaches the roll minimum", invocation.Output, StringComparison.Ordinal);
        Assert.Null(JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "window.json")))!["layouts"]![0]!["window"]!["lower"]!["coefficient_N_s_per_m"]);
    }

    [Fact] // Neither a number nor an axis for a place that does not exist.
    public async Task Independent_suspension_has_no_position_and_is_drawn_by_layout()
    {
        using var folder = new TemporaryFolder();
        var scenario = SettingWindowStudyTests.Independent();

        var invocation = await Invocation.Of("window", scenario.WriteTo(folder), "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        Assert.Matches(@"Equivalent upright position +mm +–", invocation.Output);
        Assert.Null(JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "window.json")))!["layouts"]![0]!["position_mm"]);
        var axes = SettingWindowFigure.Build(SettingWindowStudy.Run(scenario.Read().Study, TestContext.Current.CancellationToken)).Panels[0].Model.Axes;
        Assert.DoesNotContain(axes, axis => axis.Title?.Contains("position", StringComparison.Ordinal) == true);
    }

    [Fact]
    public async Task Contradicting_targets_are_refused_with_both_places()
    {
        using var folder = new TemporaryFolder();
        var path = SettingWindowStudyTests.WithTargets(ShortScenario.Pair(), 0.25, 0.5, 0.4).WriteTo(folder);

        (await Invocation.Of("window", path, "--out", folder["out"])).Refused(
            ExitCode.BadInput, "targets.heaveDampingRatioMinimum", "contradict", "heaveDampingRatioMaximum, 0.4 (line 1)");
    }

    [Fact]
    public async Task Missing_targets_are_asked_for()
    {
        using var folder = new TemporaryFolder();

        (await Invocation.Of("window", ShortScenario.Pair().WriteTo(folder), "--out", folder["out"])).Refused(
            ExitCode.BadInput, "targets", "rollDampingRatioMinimum");
    }

    [Fact]
    public async Task Damper_without_force_is_refused_by_name()
    {
        using var folder = new TemporaryFolder();
        var scenario = SettingWindowStudyTests.WithTargets(ShortScenario.Pair(), 0.25, 0.2, 0.4);
        scenario["dampers"]!["plain"]!["curve"]!["force_N"] = new JsonArray(0, 0, 0);

        (await Invocation.Of("window", scenario.WriteTo(folder), "--out", folder["out"])).Refused(ExitCode.BadInput, "“plain” gives no damping");
        Assert.False(Directory.Exists(folder["out"]));
    }
}
