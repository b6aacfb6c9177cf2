using System.Text.Json.Nodes;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Sweeps;
using RollRide.Tests.Cli;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Sweeps;

public class RobustTuningTests
{
    private const string Limits = """ "limits": { "force_N": 9000, "kneeVelocity_m_per_s": [0.05, 0.3], "highSpeedShare": [0.2, 1] } """;

    /// <summary>Heave alone is asked for: the band of roll holds everything.</summary>
    private static string Heave(string scatter, double ratio = 0.3, double tolerance = 0.03) =>
        $$"""{ "heave": { "ratio": {{ratio}}, "tolerance": {{tolerance}}, "damperVelocity_m_per_s": 0.26 }, "roll": { "ratio": 0.5, "tolerance": 0.5, "damperVelocity_m_per_s": 0.1, "weight": 0.001 }, {{Limits}}, "scatter": {{scatter}} }""";

    private static string Force(int samples, string minimise = "worstCase", double from = 0.8, double to = 1.2) =>
        $$"""{ "parameters": [ { "path": "dampers.plain.forceScale", "uniform": { "from": {{from}}, "to": {{to}} } } ], "samples": {{samples}}, "minimise": "{{minimise}}" }""";

    /// <summary>On tyres so stiff that the axle does not move the closed form of the body alone holds, up to springs over tyres, 1 in 2000.</summary>
    private static JsonObject OnHardTyres(string tuning) => ShortScenario.Of(("Outer", 0.8))
        .With("vehicle.tyres.stiffness_N_per_mm", 100_000)
        .With("tuning", JsonNode.Parse(tuning));

    private static RobustResult Run(JsonObject scenario)
    {
        using var folder = new TemporaryFolder();
        var template = ScenarioTemplate.Read(scenario.WriteTo(folder), TestContext.Current.CancellationToken);
        var read = template.Scenario;
        return RobustTuning.Run(
            TuningStudy.Run(read.Study, read.Tuning!, withFronts: false, cancellation: TestContext.Current.CancellationToken),
            ScatterReader.Read(template), cancellation: TestContext.Current.CancellationToken);
    }

    [Fact] // ζ = c/√(k m) for two dampers and two springs upright: the force may go down by t/ζ and up by t/ζ, in the middle of the band.
    public void Margins_of_force_are_those_of_a_linear_body()
    {
        var robust = Run(OnHardTyres(Heave(Force(8)))).Layouts[0].Nominal;
        var asked = 0.3 * Math.Sqrt(50e3 * 600) * 2 / 1; // c = 2 ζ √(k m) of one side

        Assert.Equal(asked, robust.Heave.Coefficient, 2e-3 * asked); // tyres 1 in 1000, and the search's pull to the middle
        Assert.Equal(0.1, robust.Heave.Softer, 2e-3);
        Assert.Equal(0.1, robust.Heave.Harder, 2e-3);
        Assert.InRange(robust.Tolerance, 0.09, 0.1);
    }

    [Theory] // Of forces spread evenly over ±20 % those within ±10 % pass: half. A Latin hypercube has one vehicle in each of n steps: two may fall otherwise at the ends.
    [InlineData(50)]
    [InlineData(400)]
    public void Share_that_misses_is_that_of_the_closed_form(int samples)
    {
        var robust = Run(OnHardTyres(Heave(Force(samples)))).Layouts[0].Robust;

        Assert.Equal(samples, robust.Samples);
        Assert.Equal(0.5, robust.Missing / (double)samples, (2.0 / samples) + 5e-3); // and the edges of the band to half a per cent
    }

    [Fact] // Softer dampers cover more of an even spread, since a band of ratios is one of relative force: 1 − 0.27/0.33 of 1.2, over 0.4.
    public void Fewest_misses_come_from_the_valving_that_puts_the_hardest_damper_on_the_upper_edge()
    {
        var robust = Run(OnHardTyres(Heave(Force(400, "missShare")))).Layouts[0].Robust;

        var passing = 1.2 * (1 - (0.27 / 0.33)) / 0.4;
        Assert.Equal(1 - passing, robust.Missing / 400.0, (2.0 / 400) + 5e-3); // as above
    }

    [Fact] // Every valving of a grid, every vehicle, every state, each from the eigenvalues themselves: none is better than the one found.
    public void Worst_case_is_no_worse_than_the_best_of_a_grid_tried_by_brute_force()
    {
        using var folder = new TemporaryFolder();
        var scenario = LoadedShort.Of(ShortScenario.Of(("Outer", 0.8)))
            .With("dampers.plain.states", JsonNode.Parse("""{ "hot": { "curve": { "velocity_m_per_s": [-1, -0.1, 0, 0.1, 1], "force_N": [-2700, -200, 0, 240, 2500] } } }"""))
            .With("tuning", JsonNode.Parse(
                $$"""{ "heave": { "ratio": 0.28, "damperVelocity_m_per_s": 0.26 }, "roll": { "ratio": 0.35, "damperVelocity_m_per_s": 0.05 }, {{Limits}}, "scatter": { "parameters": [ { "path": "dampers.plain.forceScale", "uniform": { "from": 0.9, "to": 1.1 } }, { "path": "vehicle.springs.rate_N_per_mm", "normal": { "mean": 62, "deviation": 2 } } ], "samples": 6 } }"""));
        var template = ScenarioTemplate.Read(scenario.WriteTo(folder), TestContext.Current.CancellationToken);
        var (study, task, scatter) = (template.Scenario.Study, template.Scenario.Tuning!, ScatterReader.Read(template)!);
        var layout = study.Layouts[0];

        // Vehicles: the perfect one and the six samples, with the scale that each puts on the damper.
        var vehicles = new List<(LinearHalfCar Linear, string? DamperState, double Scale)>();
        foreach (var load in study.Loads)
            vehicles.Add((LinearHalfCar.AtRest((study with { Load = load }).Assemble(layout)), load.DamperState, 1));
        for (var i = 0; i < 6; i++)
        {
            var values = scatter.Plan.ValuesOf(i);
            foreach (var load in study.Loads)
                vehicles.Add((LinearHalfCar.AtRest(scatter.Plan.Make(values, load).Study is { } made ? made.Assemble(made.Layouts[0]) : throw new InvalidOperationException()), load.DamperState, values[0]));
        }

        double Miss(Valving valving)
        {
            var drawn = layout.Damper with { Curve = valving.ToCurve(1, 1) };
            double Worst(TuningTarget target, Func<ModeSet, Mode> mode) => vehicles.Max(vehicle =>
            {
                var coefficient = vehicle.Scale * drawn.In(vehicle.DamperState).EquivalentCoefficient(target.DamperVelocity);
                var deviation = (mode(ModeFollower.Solve(vehicle.Linear, coefficient)).DampingRatio - target.Ratio) / target.Tolerance;
                var outside = Math.Max(0, Math.Abs(deviation) - 1);
                return (outside * outside) + (0.01 * deviation * deviation);
            });
            return Worst(task.Heave, modes => modes.Heave) + Worst(task.Roll, modes => modes.Roll);
        }

        var result = RobustTuning.Run(TuningStudy.Run(study, task, withFronts: false, cancellation: TestContext.Current.CancellationToken), scatter, cancellation: TestContext.Current.CancellationToken);
        var found = Miss(result.Layouts[0].Robust.Tuned.Valving);
        var best = double.PositiveInfinity;
        for (var knee = 0; knee <= 4; knee++)
        {
            for (var share = 0; share <= 4; share++)
            {
                for (var bleed = 0; bleed <= 30; bleed++)
                {
                    var valve = new ValveCharacteristic(1000 * Math.Pow(10, bleed / 30.0), 0.05 * Math.Pow(6, knee / 4.0), 1);
                    valve = valve with { HighSpeedSlope = (0.2 + (0.2 * share)) * valve.BleedSlope };
                    best = Math.Min(best, Miss(new Valving(valve, valve)));
                }
            }
        }

        Assert.True(found <= best * 1.001, FormattableString.Invariant($"found {found}, but the grid holds {best}")); // the table of ratios is good to 1e-5
        Assert.True(found < Miss(result.Layouts[0].Nominal.Tuned.Valving), "it is better for all of them than the valving for perfect parts");
    }

    [Fact]
    public void Damper_at_the_end_of_the_drawings_tolerance_keeps_both_targets_in_every_state_and_beyond_the_margin_it_does_not()
    {
        var scenario = LoadedShort.Of(ShortScenario.Of(("Outer", 0.8)))
            .With("dampers.plain.states", JsonNode.Parse("""{ "hot": { "forceScale": 0.85 } }"""))
            .With("tuning", JsonNode.Parse($$"""{ "heave": { "ratio": 0.28, "tolerance": 0.1, "damperVelocity_m_per_s": 0.26 }, "roll": { "ratio": 0.35, "tolerance": 0.1, "damperVelocity_m_per_s": 0.05 }, {{Limits}} }"""));
        var result = Run(scenario);
        var (robust, study, task) = (result.Layouts[0].Robust, result.Tuning.Study, result.Tuning.Task);
        Assert.InRange(robust.Tolerance, 0.01, 1);

        bool Keeps(double scale) => study.InEachLoad.All(state =>
        {
            var damper = robust.Tuned.After.Damper;
            var car = state.Assemble(robust.Tuned.After.With(side => side with { Damper = damper with { Curve = damper.Curve.Scaled(scale) } }));
            bool Holds(TuningTarget target, Func<ModeSet, Mode> mode) =>
                Math.Abs(mode(ModeFollower.Solve(LinearHalfCar.AtRest(car), car.Layout, target.DamperVelocity, false)).DampingRatio - target.Ratio) <= target.Tolerance;
            return Holds(task.Heave, modes => modes.Heave) && Holds(task.Roll, modes => modes.Roll);
        });

        Assert.True(Keeps(1 - robust.Tolerance));
        Assert.True(Keeps(1 + robust.Tolerance));
        Assert.True(Keeps(1 - robust.Softer + 1e-3)); // the table of ratios is good to 1e-5
        Assert.False(Keeps(1 - robust.Softer - 1e-3));
        Assert.True(Keeps(1 + robust.Harder - 1e-3));
        Assert.False(Keeps(1 + robust.Harder + 1e-3));
    }

    [Fact]
    public void Where_no_damper_holds_in_every_state_the_binding_states_and_the_tolerance_that_would_are_named_and_it_does()
    {
        JsonObject With(double tolerance) => LoadedShort.Of(ShortScenario.Of(("Outer", 0.8)))
            .With("dampers.plain.states", JsonNode.Parse("""{ "worn": { "forceScale": 0.6 } }"""))
            .With("tuning", JsonNode.Parse($$"""{ "heave": { "ratio": 0.28, "tolerance": {{tolerance}}, "damperVelocity_m_per_s": 0.26 }, "roll": { "ratio": 0.4, "tolerance": 0.39, "damperVelocity_m_per_s": 0.05 }, {{Limits}} }"""));

        var closed = Run(With(0.02));
        var heave = closed.Layouts[0].Robust.Heave;
        Assert.False(heave.IsOpen);
        Assert.Equal(("laden, worn", "as built"), (heave.Lower.State, heave.Upper.State));
        Assert.Contains(RobustConclusions.Of(closed), text => text.Contains("no damper keeps heave within ±0.02 in every state", StringComparison.Ordinal) && text.Contains("“laden, worn” asks for at least", StringComparison.Ordinal));
        Assert.True(Run(With(heave.OpeningTolerance!.Value + 1e-3)).Layouts[0].Robust.Heave.IsOpen);
        Assert.False(Run(With(heave.OpeningTolerance!.Value - 1e-3)).Layouts[0].Robust.Heave.IsOpen);
    }

    [Fact]
    public async Task Answer_is_the_same_on_one_core_as_on_many()
    {
        var scenario = OnHardTyres(Heave(Force(40, "missShare"), 0.25, 0.02)).ToJsonString();
        string Text()
        {
            using var text = new StringWriter();
            var result = Run(JsonNode.Parse(scenario)!.AsObject());
            RollRide.Results.TuningSummary.Write(text, result.Tuning, result, []);
            return text.ToString();
        }

        var alone = await Task.Factory.StartNew(
            Text, TestContext.Current.CancellationToken, TaskCreationOptions.None, new ConcurrentExclusiveSchedulerPair(TaskScheduler.Default, 1).ConcurrentScheduler);
        Assert.Equal(Text(), alone);
    }

    [Fact]
    public async Task Tune_writes_the_robust_damper_and_its_sheet_with_the_tolerance_and_a_scenario_that_has_it()
    {
        using var folder = new TemporaryFolder();
        var path = OnHardTyres(Heave(Force(20))).WriteTo(folder);

        var run = await Invocation.Of("tune", path, "--no-front", "--out", folder["out"]);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("write ±9 % on the drawing", run.Output, StringComparison.Ordinal);
        Assert.EndsWith(",9", (await File.ReadAllLinesAsync(folder["out/sheet-robust-Outer.csv"], TestContext.Current.CancellationToken))[^1], StringComparison.Ordinal);
        Assert.True(File.Exists(folder["out/tuned-tolerance.png"]));
        var back = ScenarioReader.Read(folder["out/tuned.json"], cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(["Outer", "Outer, tuned", "Outer, robust"], back.Study.Layouts.Select(layout => layout.Name));
        var robust = JsonNode.Parse(await File.ReadAllTextAsync(folder["out/tuning.json"], TestContext.Current.CancellationToken))!["robustness"]!["layouts"]![0]!["robust"]!;
        Assert.Equal(20, (int)robust["vehicles"]!);
        Assert.Equal((double)robust["heave"]!["coefficient_N_s_per_m"]!, back.Study.Layouts[2].Damper.EquivalentCoefficient(0.26), 0.01); // eight digits of forces are written
    }

    [Fact] // The band is 0.7 % of the force wide to either side.
    public void Window_narrower_than_a_per_cent_gives_no_tolerance_to_write_down()
    {
        var result = Run(OnHardTyres(Heave(Force(2, from: 0.9999, to: 1.0001), tolerance: 0.002)));

        Assert.Equal(0, result.Layouts[0].Robust.Tolerance);
        Assert.Contains(RobustConclusions.Of(result), text => text.Contains("no tolerance can be given: the window leaves less than 1 % of force", StringComparison.Ordinal));
        Assert.DoesNotContain(RobustConclusions.Of(result), text => text.Contains("±0 %", StringComparison.Ordinal));
    }

    [Fact] // A linear damper far inboard: what roll asks for is too much for heave.
    public void Valving_that_misses_both_targets_is_told_by_how_much_it_misses_each()
    {
        var result = Run(ShortScenario.Of(("Inner", 0.6)).With("tuning", JsonNode.Parse(
            """{ "heave": { "ratio": 0.2, "damperVelocity_m_per_s": 0.1 }, "roll": { "ratio": 0.2, "damperVelocity_m_per_s": 0.1 }, "limits": { "force_N": 20000, "kneeForce_N": [1, 10000], "highSpeedShare": [0.999, 1] } }""")));
        var robust = result.Layouts[0].Robust;

        Assert.True(robust.Softer < 0 && robust.Harder < 0);

        // As the table beside it says it: to a tenth of a per cent.
        Assert.Contains(RobustConclusions.Of(result), text => text.Contains(
            FormattableString.Invariant($"{-100 * robust.Roll.Softer:F1} % of its force too soft for roll and {-100 * robust.Heave.Harder:F1} % too hard for heave"), StringComparison.Ordinal));
    }

    [Fact] // Half of the vehicles miss ±0.03; tuned anew for what is said to do, none does, and with less some do.
    public void Tolerance_of_the_ratio_with_which_no_vehicle_would_miss_is_named_and_holds()
    {
        var result = Run(OnHardTyres(Heave(Force(40))));
        var needed = result.Layouts[0].Robust.ToleranceForAll.Heave;

        Assert.Contains(RobustConclusions.Of(result), text => text.Contains("on the heave damping ratio, now ±0.03, none of them would", StringComparison.Ordinal));
        Assert.Equal(0, Run(OnHardTyres(Heave(Force(40), tolerance: needed + 1e-3))).Layouts[0].Robust.Missing);
        Assert.NotEqual(0, Run(OnHardTyres(Heave(Force(40), tolerance: needed - 2e-3))).Layouts[0].Robust.Missing);
    }

    [Fact] // A roll ratio of 1 is out of reach: harder dampers lock the suspension first.
    public void Upper_edge_that_only_locking_sets_is_told_apart_from_that_of_a_band()
    {
        var robust = Run(ShortScenario.Of(("Outer", 0.8)).With("tuning", JsonNode.Parse(Heave(Force(8))))).Layouts[0].Robust;

        Assert.True(robust.Roll.Upper.Locks);
        Assert.False(robust.Heave.Upper.Locks);
    }

    [Fact]
    public async Task Report_says_of_tolerances_what_tune_says_and_carries_figure_and_sheet()
    {
        using var folder = new TemporaryFolder();
        var path = OnHardTyres(Heave(Force(20))).WriteTo(folder);

        var tune = await Invocation.Of("tune", path, "--no-front", "--no-plots", "--out", folder["tune"]);
        var report = await Invocation.Of("report", path, "--out", folder["report"]);

        Assert.Equal((0, 0), (tune.ExitCode, report.ExitCode));
        var page = System.Net.WebUtility.HtmlDecode(await File.ReadAllTextAsync(folder["report/report.html"], TestContext.Current.CancellationToken)).Replace('\u00a0', ' ');
        Assert.Contains("write ±9 % on the drawing", tune.Output, StringComparison.Ordinal);
        Assert.Contains("write ±9 % on the drawing", page, StringComparison.Ordinal);
        Assert.Contains("Tolerance and wear of the tuned dampers", page, StringComparison.Ordinal);
        Assert.True(File.Exists(folder["report/tuned-tolerance.png"]));
        Assert.Equal(Sheet("tune"), Sheet("report"));

        string[] Sheet(string command) => [.. File.ReadAllLines(folder[$"{command}/sheet-robust-Outer.csv"]).Where(line => !line.StartsWith('#'))];
    }

    [Theory]
    [InlineData("""{ "parameters": [ { "path": "tuning.heave.ratio", "uniform": { "from": 0.2, "to": 0.3 } } ] }""", "tuning.scatter.parameters[0].path", "changes no damping ratio")]
    [InlineData("""{ "parameters": [ { "path": "dampers.plain.forceScal", "uniform": { "from": 0.8, "to": 1.2 } } ] }""", "tuning.scatter.parameters[0].path", "has no number")]
    [InlineData("""{ "parameters": [ { "path": "dampers.plain.forceScale", "uniform": { "from": 1.2, "to": 0.8 } } ] }""", "tuning.scatter.parameters[0]", "the range from 1.2 to 0.8 is empty")]
    [InlineData("""{ "parameters": [ { "path": "dampers.plain.curve.force_N[2]", "uniform": { "from": -500, "to": -100 } } ] }""", "tuning.scatter", "pushes the way the damper moves")]
    [InlineData("""{ "parameters": [] }""", "tuning.scatter.parameters", "1")]
    public async Task Scatter_that_makes_no_sense_is_refused_and_nothing_is_written(string scatter, string key, string reason)
    {
        using var folder = new TemporaryFolder();
        var path = OnHardTyres(Heave(scatter)).WriteTo(folder);

        (await Invocation.Of("tune", path, "--no-front", "--no-plots", "--out", folder["out"])).Refused(2, key, reason);
        Assert.False(Directory.Exists(folder["out"]));
    }
}
