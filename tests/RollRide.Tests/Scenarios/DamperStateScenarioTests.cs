using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Studies;
using RollRide.Tests.Cli;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Scenarios;

/// <summary>States of dampers in a scenario, and what the commands make of them.</summary>
public class DamperStateScenarioTests
{
    private const string Hot = """{ "hot": { "forceScale": 0.8, "temperature_degC": 100 } }""";

    private static JsonObject WithStates(JsonObject scenario, string states = Hot) => scenario.With("dampers.plain.temperature_degC", 20).With("dampers.plain.states", JsonNode.Parse(states));

    private static DataFileFault Fault(JsonObject scenario) => Assert.Throws<DataFileException>(() => scenario.Read()).Faults[0];

    [Fact]
    public void Every_load_is_looked_at_with_the_dampers_in_each_state()
    {
        var alone = WithStates(ShortScenario.Pair()).Read().Study;
        Assert.Equal(["as written", "hot"], alone.InEachLoad.Select(state => state.Load!.Name));
        Assert.Equal(["as built", "laden", "as built, hot", "laden, hot"], WithStates(LoadedShort.Pair()).Read().Study.InEachLoad.Select(state => state.Load!.Name));
        Assert.Equal([3000, 2400], alone.InEachLoad.Select(state => state.Assemble(state.Layouts[0]).Layout.Damper.Force(1)));
    }

    [Fact] // A state that a file could write as a damper of its own must give the same run.
    public void Run_in_a_state_is_that_of_a_scenario_with_the_dampers_curve_in_that_state()
    {
        var hot = Comparison.RunInEachLoad(WithStates(ShortScenario.Pair()).Read().Study, cancellation: TestContext.Current.CancellationToken)[1];
        var alone = ShortScenario.Pair().With("dampers.plain.forceScale", 0.8).Run();

        foreach (var (one, other) in hot.Layouts.Zip(alone.Layouts))
        {
            // The curves have the same points but for a rounding of their forces, and the integrator's steps go with it.
            Assert.Equal(other.Metrics.Whole.BodyAccelerationRms, one.Metrics.Whole.BodyAccelerationRms, 1e-6 * other.Metrics.Whole.BodyAccelerationRms);
            Assert.Equal(other.ReferenceModes.Roll.DampingRatio, one.ReferenceModes.Roll.DampingRatio, 1e-12);
        }
    }

    [Fact]
    public void State_with_a_temperature_alone_lies_between_the_curves()
    {
        var damper = WithStates(ShortScenario.Pair(), """{ "hot": { "forceScale": 0.8, "temperature_degC": 100 }, "warm": { "temperature_degC": 40 } }""").Read().Study.Layouts[0].Damper;

        Assert.Equal(0.95 * 3000, damper.In("warm").Force(1), 1e-9); // a quarter of the way from 1 to 0.8
        Assert.Equal(40, damper.In("warm").Temperature);
    }

    [Fact]
    public void Side_may_have_a_state_of_its_own_whatever_that_of_the_others()
    {
        var scenario = WithStates(ShortScenario.Of(("Both", 0.8)), """{ "hot": { "forceScale": 0.8 }, "worn": { "forceScale": 0.5 } }""");
        scenario["layouts"]![0]!["right"] = JsonNode.Parse("""{ "damperState": "worn" }""");

        var study = scenario.Read().Study;

        double[][] forces = [.. study.InEachLoad.Select(state => state.Assemble(state.Layouts[0]).Layout).Select(layout => new[] { layout.Damper.Force(1), layout.On(Side.Right).Damper.Force(1) })];
        Assert.Equal([[3000, 1500], [2400, 1500], [1500, 1500]], forces);
        Assert.Equal("plain left, plain, worn right", study.Layouts[0].DamperName);
    }

    [Theory]
    [InlineData("""{ "warm": { "temperature_degC": 40 } }""", "dampers.plain.states.warm.temperature_degC", "between two curves whose temperatures are known, and there is one")]
    [InlineData("""{ "hot": { "forceScale": 0.8, "temperature_degC": 100 }, "frost": { "temperature_degC": -10 } }""", "dampers.plain.states.frost.temperature_degC", "the curves cover 20 to 100 °C")]
    [InlineData("""{ "hot": {} }""", "dampers.plain.states.hot", "this state changes nothing")]
    [InlineData("""{ "hot": { "forceScale": 0.8, "temperature_degC": 100 }, "worn": { "forceScale": 0.6, "temperature_degC": 100 }, "warm": { "temperature_degC": 60 } }""", "dampers.plain.states.warm.temperature_degC", "for 100 °C there are two curves, “hot” and “worn”")]
    [InlineData("""{ "as written": { "forceScale": 0.8 } }""", "dampers.plain.states[\"as written\"]", "this is the name of the damper without a state")]
    [InlineData("""{ "hot": { "forceScale": 0.8, "dyno": "none.csv" } }""", "dampers.plain.states.hot.dyno", "there is no such file")]
    [InlineData("""{ "hot": { "curve": { "velocity_m_per_s": [-1, 0, 1], "force_N": [-3000, 0, -1] } } }""", "dampers.plain.states.hot.curve.force_N[2]", "pushes the way the damper moves")]
    [InlineData("""{ "hot": { "curve": { "velocity_m_per_s": [-1, -0.5, 0, 1], "force_N": [-3000, 0, 0, 1000] } } }""", "dampers.plain.states.hot", "both must resist the motion")]
    public void Bad_state_is_refused_at_its_key(string states, string key, string reason)
    {
        var fault = Fault(WithStates(ShortScenario.Pair(), states));
        Assert.Equal(key, fault.Key);
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void State_that_the_damper_does_not_have_is_refused_with_those_that_it_has()
    {
        var scenario = WithStates(ShortScenario.Pair());
        scenario["layouts"]![1]!["damperState"] = "wet";
        var fault = Fault(scenario);
        Assert.Equal("layouts[1].damperState", fault.Key);
        Assert.Contains("has no such state; known: hot", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Load_state_with_the_name_of_a_joined_one_is_refused() => Assert.Contains(
        "would have the same name",
        Fault(WithStates(ShortScenario.Pair()).With("loadStates", JsonNode.Parse("""{ "full": {}, "full, hot": {} }"""))).Reason,
        StringComparison.Ordinal);

    [Fact]
    public void Hot_damper_stiffer_than_cold_is_warned_of()
    {
        var warning = Assert.Single(WithStates(ShortScenario.Pair(), """{ "hot": { "forceScale": 1.2, "temperature_degC": 100 } }""").Read().Warnings);
        Assert.Contains("gives 20 % more force at 100 °C (“hot”) than at 20 °C (“as written”)", warning, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("worn", 1.1, "gives 10 % more force in this state than as written")]
    [InlineData("new, cold", 0.8, "gives 20 % less force in this state than as written")]
    [InlineData("worn", 0.8, null)]
    [InlineData("new", 1.2, null)]
    [InlineData("firm", 1.2, null)]
    [InlineData("renewed", 0.8, null)]
    public void Worn_damper_stiffer_than_new_is_warned_of(string name, double scale, string? said)
    {
        var warnings = ShortScenario.Pair().With("dampers.plain.states", new JsonObject { [name] = new JsonObject { ["forceScale"] = scale } }).Read().Warnings;
        if (said is null)
            Assert.Empty(warnings);
        else
            Assert.Contains(said, Assert.Single(warnings), StringComparison.Ordinal);
    }

    [Fact] // The intersection computed apart: each state's window in a scenario of its own, as scales on the curve as written.
    public void Common_window_of_states_is_where_their_own_windows_overlap()
    {
        JsonObject Scenario() => SettingWindowStudyTests.WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.25, 0.18, 0.4);
        var both = CommonWindow.Of([.. WithStates(Scenario()).Read().Study.InEachLoad.Select(study => SettingWindowStudy.Run(study, TestContext.Current.CancellationToken))]);
        var (cold, hot) = (Alone(1), Alone(0.8));

        var common = Assert.Single(both);
        Assert.Equal(0.8 * hot.UpperScale, 0.8 * cold.UpperScale * 1.25, 1e-9 * hot.UpperScale); // the window is that of the vehicle; the hot curve reaches it at more
        Assert.Equal(hot.LowerScale, common.Verdict.LowerScale, 1e-9 * hot.LowerScale);
        Assert.Equal(cold.UpperScale, common.Verdict.UpperScale, 1e-9 * cold.UpperScale);
        Assert.Equal(("hot", "as written"), (common.LowerLoad, common.UpperLoad));

        WindowVerdict Alone(double scale) => SettingWindowStudy.Run(Scenario().With("dampers.plain.forceScale", scale).Read().Study, TestContext.Current.CancellationToken).Layouts[0].Verdict;
    }

    [Fact]
    public void Two_curves_of_one_temperature_are_not_told_as_hotter_and_cooler() => Assert.Empty(
        WithStates(ShortScenario.Pair(), """{ "worn": { "forceScale": 0.7, "temperature_degC": 20 } }""").Read().Warnings);

    [Theory] // What is recommended must be possible in every state: the scale lies in the window that the states share, and the layout run with it passes.
    [InlineData(0.8)]
    [InlineData(0.6)]
    public void Scale_that_the_comparison_names_meets_the_targets_in_every_state(double hot)
    {
        JsonObject Scenario(double scale) => WithStates(SettingWindowStudyTests.WithTargets(ShortScenario.Of(("Outer", 0.8)), 0.12, 0.1, 0.4).With("dampers.plain.forceScale", scale), $$"""{ "hot": { "forceScale": {{hot}} } }""");
        Verdict Of(JsonObject scenario) => Verdict.Of([.. Comparison.RunInEachLoad(scenario.Read().Study, cancellation: TestContext.Current.CancellationToken).Select(state => new ComparisonFindings(state))], TestContext.Current.CancellationToken);
        const double tooSoft = 0.2;

        var remedy = Of(Scenario(tooSoft)).Remedy!;
        Assert.Null(remedy.Kind);
        var common = CommonWindow.Of([.. Scenario(tooSoft).Read().Study.InEachLoad.Select(study => SettingWindowStudy.Run(study, TestContext.Current.CancellationToken))])[0].Verdict;
        Assert.InRange(remedy.CurveScale, common.LowerScale, common.UpperScale);
        Assert.NotNull(Of(Scenario(tooSoft * remedy.CurveScale)).Choice);
    }

    [Fact] // Each state alone has a window; a damper that loses 70 % of its force cannot stay in both.
    public void Where_states_share_no_setting_none_is_recommended_and_a_place_that_is_named_opens_the_window_that_they_share()
    {
        JsonObject Scenario(double rollRatio) => WithStates(SettingWindowStudyTests.WithTargets(ShortScenario.Of(("Outer", rollRatio)), 0.18, 0.15, 0.4), """{ "worn": { "forceScale": 0.45 } }""");
        SettingWindowResult[] Windows(JsonObject scenario) => [.. scenario.Read().Study.InEachLoad.Select(study => SettingWindowStudy.Run(study, TestContext.Current.CancellationToken))];

        var closed = Windows(Scenario(0.6));
        Assert.All(closed, state => Assert.True(state.Layouts[0].Verdict.Window.IsOpen));
        Assert.False(CommonWindow.Of(closed)[0].Verdict.Window.IsOpen);
        var place = closed[0].Layouts[0].Remedies.Single(remedy => remedy.Kind == RemedyKind.DamperPosition);
        if (place.RollRatio is var (_, then))
            Assert.True(CommonWindow.Of(Windows(Scenario(then + 1e-3)))[0].Verdict.Window.IsOpen);
        var verdict = Verdict.Of([.. Comparison.RunInEachLoad(Scenario(0.6).Read().Study, cancellation: TestContext.Current.CancellationToken).Select(state => new ComparisonFindings(state))], TestContext.Current.CancellationToken);
        Assert.False(verdict.Remedy is { Kind: null });
    }

    [Fact]
    public async Task Check_tells_once_for_each_load_where_the_vehicle_stands()
    {
        using var folder = new TemporaryFolder();

        var run = await Invocation.Of("check", WithStates(LoadedShort.Pair()).WriteTo(folder));

        Assert.Equal(2, run.Output.Split("at rest; height changes").Length - 1);
        Assert.Contains("Load state laden, hot", run.Output, StringComparison.Ordinal);
        Assert.Equal(4, run.Output.Split("Compared with usual values").Length - 1);
    }

    [Fact] // Mean power by hand from the energy of the run: W/2t, over 1.5 W/K, on 20 °C.
    public void Comparison_says_how_warm_the_damper_gets_and_which_curve_is_nearest()
    {
        var result = WithStates(ShortScenario.Of(("Outer", 0.8)), """{ "hot": { "forceScale": 0.8, "temperature_degC": 40 } }""").With("dampers.plain.thermalConductance_W_per_K", 0.5).Run();
        var layout = result.Layouts[0];
        var temperature = 20 + (layout.Metrics.Whole.DamperEnergy / (2 * 2) / 0.5);

        var said = Assert.Single(HeatConclusions.Of(result));
        Assert.Contains(FormattableString.Invariant($"its oil would settle at {temperature:F0} °C (20 °C air, 0.5 W/K)"), said, StringComparison.Ordinal);
        Assert.Contains(temperature > 30 ? "“hot”, 40 °C" : "“as written”, 20 °C", said, StringComparison.Ordinal);
        Assert.Empty(HeatConclusions.Of(ShortScenario.Pair().Run()));

        var states = Comparison.RunInEachLoad(WithStates(ShortScenario.Of(("Outer", 0.8))).Read().Study, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal([1, 0], states.Select(state => HeatConclusions.Of(state).Count())); // of the dampers as written alone
    }

    [Fact]
    public async Task Tuned_scenario_keeps_the_states_and_means_what_was_reported()
    {
        using var folder = new TemporaryFolder();
        var scenario = WithStates(ShortScenario.Of(("Outer", 0.8))).With("tuning", JsonNode.Parse(
            """{ "heave": { "ratio": 0.3, "tolerance": 0.05, "damperVelocity_m_per_s": 0.26 }, "roll": { "ratio": 0.25, "tolerance": 0.05, "damperVelocity_m_per_s": 0.05 }, "limits": { "force_N": 6000 } }"""));

        var run = await Invocation.Of("tune", scenario.WriteTo(folder), "--no-front", "--no-plots", "--out", folder["out"]);

        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        var back = RollRide.Scenarios.ScenarioReader.Read(Path.Combine(folder["out"], "tuned.json"));
        var tuned = back.Study.Layouts[1].Damper;
        Assert.Equal(100, Assert.Single(tuned.States).Temperature);
        var states = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "tuning.json")))!["loadStates"]!.AsArray();
        Assert.Equal(["as written", "hot"], states.Select(state => (string)state!["name"]!));
        Assert.Equal((double)states[1]!["layouts"]![0]!["heave"]!["coefficient_N_s_per_m"]!, tuned.In("hot").EquivalentCoefficient(0.26), 0.01);
        Assert.Equal(0.8 * tuned.EquivalentCoefficient(0.26), tuned.In("hot").EquivalentCoefficient(0.26), 0.01); // eight digits of forces are written
    }

    [Fact] // The tuned damper is as drawn on the left and worn on the right; what is read back is what was reported, from the eigenvalues.
    public async Task Tuned_damper_stands_on_either_side_in_the_state_in_which_the_layout_keeps_it()
    {
        using var folder = new TemporaryFolder();
        var scenario = WithStates(ShortScenario.Of(("One worn", 0.8)), """{ "worn": { "forceScale": 0.7 } }""").With("tuning", JsonNode.Parse(
            """{ "heave": { "ratio": 0.3, "tolerance": 0.05, "damperVelocity_m_per_s": 0.26 }, "roll": { "ratio": 0.25, "tolerance": 0.05, "damperVelocity_m_per_s": 0.05 }, "limits": { "force_N": 6000 } }"""));
        scenario["layouts"]![0]!["left"] = JsonNode.Parse("""{ "damperState": "worn" }""");
        scenario["layouts"]![0]!["right"] = JsonNode.Parse("{}");

        var run = await Invocation.Of("tune", scenario.WriteTo(folder), "--no-front", "--no-plots", "--out", folder["out"]);

        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        var tuned = RollRide.Scenarios.ScenarioReader.Read(Path.Combine(folder["out"], "tuned.json")).Study;
        var layout = tuned.Layouts[1];
        Assert.Equal(("worn", null), (layout.Damper.State, layout.On(Side.Right).Damper.State));
        Assert.Equal(0.7 * layout.On(Side.Right).Damper.Force(0.3), layout.Damper.Force(0.3), 0.01); // eight digits of forces are written
        var reached = JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "tuning.json")))!["loadStates"]![0]!["layouts"]![0]!["heave"]!;
        var modes = ModeFollower.Solve(LinearHalfCar.AtRest(tuned.Assemble(layout)), layout, 0.26, includeFriction: false);
        Assert.Equal(modes.Heave.DampingRatio, (double)reached["ratioReached"]!, 1e-6);
        Assert.InRange(modes.Heave.DampingRatio, 0.25, 0.35);
    }

    [Fact]
    public async Task Tuned_scenario_in_another_folder_runs_with_copies_of_every_file_that_the_first_names()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder["loop.csv"], "deflection_mm,force_N\n-20,-1000\n-10,-350\n10,650\n20,1200\n10,350\n-10,-650\n-20,-1000\n");
        File.WriteAllText(folder["road.csv"], "distance_m,left_mm,right_mm\n" + string.Concat(Enumerable.Range(0, 500).Select(i => FormattableString.Invariant($"{0.2 * i:F1},{5 * Math.Sin(0.1 * i):F3},{4 * Math.Sin(0.1 * i):F3}\n"))));
        var scenario = ShortScenario.Of(("Outer", 0.8))
            .With("vehicle.springs.friction", JsonNode.Parse("""{ "loop": "loop.csv" }"""))
            .With("manoeuvre.road.measured", JsonNode.Parse("""{ "file": "road.csv" }"""))
            .With("tuning", JsonNode.Parse(
                """{ "heave": { "ratio": 0.3, "damperVelocity_m_per_s": 0.26 }, "roll": { "ratio": 0.25, "damperVelocity_m_per_s": 0.05 }, "limits": { "force_N": 6000 }, "tradeOff": { "ridePhase": "measured road" } }"""));

        var run = await Invocation.Of("tune", scenario.WriteTo(folder), "--no-front", "--no-plots", "--out", folder["out"]);
        Assert.Equal(0, run.ExitCode);
        File.Delete(folder["loop.csv"]);
        File.Delete(folder["road.csv"]);
        var compared = await Invocation.Of("compare", folder["out/tuned.json"], "--no-plots", "--out", folder["compared"]);

        Assert.Equal(0, compared.ExitCode);
    }

    [Fact] // Otherwise a scenario written anew would miss the file.
    public void Every_key_that_names_a_file_is_known_as_such()
    {
        var keys = RecordContract.Of(typeof(RollRide.Scenarios.ScenarioFile)).WithNested().SelectMany(record => record.Keys).ToArray();
        Assert.Equal(
            keys.Where(key => key.Description.Contains("CSV file", StringComparison.Ordinal) || key.Name == "dyno").Select(key => key.Description).Order(),
            keys.Where(key => key.IsFileName).Select(key => key.Description).Order());
    }
}
