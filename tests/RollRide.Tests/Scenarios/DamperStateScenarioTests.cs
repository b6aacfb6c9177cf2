using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Findings;
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
    [InlineData("""{ "hot": {} }""", "dampers.plain.states.hot", "this state says nothing")]
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
}
