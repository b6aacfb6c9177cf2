using System.Text.Json.Nodes;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Studies;
using RollRide.Sweeps;
using RollRide.Vehicle;

namespace RollRide.Tests.Studies;

/// <summary>One valving for several load states.</summary>
public class TuningForLoadsTests
{
    private static readonly LoadState Kerb = new() { Name = "kerb", BodyMass = 1050, CgHeight = 0.87, RollInertia = 410 };
    private static readonly LoadState Full = new() { Name = "full", BodyMass = 1450, CgHeight = 0.95, RollInertia = 520 };

    private static readonly TuningTask Task = TuningCases.Task with
    {
        Limits = TuningCases.Task.Limits with { HighSpeedShare = new ValueRange(0.5, 1) },
        TradeOff = new TradeOffSettings { Points = 3, Samples = 8, TriesPerPoint = 2 },
    };

    /// <summary>A damper with one parameter, so that the best of all can be found by trying.</summary>
    private static readonly TuningTask LinearOnly = Task with
    {
        Limits = new TuningLimits
        {
            Force = 50_000,
            HighSpeedShare = new ValueRange(1, 1),
            KneeVelocity = new ValueRange(0.1, 0.1),
            KneeForce = new ValueRange(1, 50_000),
            ReboundToCompression = new ValueRange(1, 1),
        },
    };

    private static readonly Lazy<TuningResult> Result = new(() => TuningStudy.Run(CaseOf(Kerb, Full), Task));

    private static StudyCase CaseOf(params LoadState[] loads)
    {
        var study = TuningCases.Case(TuningCases.Layout(0.8));
        return study with { Loads = [.. loads], Provenance = study.Provenance with { Sha256 = new string('0', 64) } };
    }

    [Fact]
    public void Design_load_as_the_only_state_is_tuned_as_without_states()
    {
        var layout = TuningCases.Layout(0.6);
        var without = TargetTuning.Tune(TuningCases.Van, layout, Task);
        var with = TargetTuning.Tune(CaseOf(new LoadState { Name = "design" }), layout, Task);

        Assert.Equal(without.Valving, with.Valving);
        Assert.Equal(without.Heave, with.Heave with { Load = null });
        Assert.Equal(without.BindingLimits.AsEnumerable(), with.BindingLimits.AsEnumerable());
    }

    [Fact] // Heave of a rigid-tyred body: ζ = c/√(kh m), so from 1050 to 1450 kg it falls by √(1050/1450) with one damper.
    public void Each_state_has_the_ratio_of_its_own_mass()
    {
        var study = CaseOf(Kerb, Full) with { Vehicle = TuningCases.OnRigidTyres };
        var tuned = TargetTuning.Tune(study, TuningCases.Layout(0.8), LinearOnly);

        var (kerb, full) = (tuned.HeaveInLoads[0], tuned.HeaveInLoads[1]);
        Assert.Equal(("kerb", "full"), (kerb.Load, full.Load));
        Assert.Equal(kerb.Coefficient, full.Coefficient);
        Assert.Equal(kerb.Coefficient / Math.Sqrt(110_000.0 * 1050), kerb.Reached, 1e-3 * kerb.Reached);
        Assert.Equal(Math.Sqrt(1050.0 / 1450), full.Reached / kerb.Reached, 1e-3);
    }

    [Fact]
    public void Worst_miss_over_all_states_is_the_least_that_any_damper_has()
    {
        // The same objective over a fine scan of the one parameter that a linear damper has, from the eigenvalues of both states.
        var layout = TuningCases.Layout(0.8);
        var tuned = TargetTuning.Tune(CaseOf(Kerb, Full), layout, LinearOnly);
        var cars = CaseOf(Kerb, Full).InEachLoad.Select(study => new ModeFollower(LinearHalfCar.AtRest(study.Assemble(layout)))).ToArray();
        double Miss(double coefficient)
        {
            var modes = cars.Select(car => car.At(coefficient)).ToArray();
            double Worst(TuningTarget t, ModeName mode) => modes.Max(m =>
            {
                var d = Math.Abs(m[mode].DampingRatio - t.Ratio) / t.Tolerance;
                return Math.Pow(Math.Max(0, d - 1), 2) + (0.01 * d * d);
            });
            return Worst(LinearOnly.Heave, ModeName.Heave) + Worst(LinearOnly.Roll, ModeName.Roll);
        }

        var best = Enumerable.Range(0, 250).Select(i => 1000 * Math.Pow(1.01, i)).MinBy(Miss);
        Assert.Equal(best, tuned.Heave.Coefficient, 0.011 * best); // the scan's step is 1 %

        // Between the coefficients that suit either state alone.
        double Alone(LoadState load) => TargetTuning.Tune(CaseOf(load), layout, LinearOnly).Heave.Coefficient;
        Assert.InRange(tuned.Heave.Coefficient, Alone(Kerb), Alone(Full));
    }

    [Fact]
    public void Target_holds_only_where_it_holds_in_every_state()
    {
        var wide = Task with { Heave = Task.Heave with { Tolerance = 0.08 }, Roll = Task.Roll with { Tolerance = 0.08 } };
        var tuned = TargetTuning.Tune(CaseOf(Kerb, Full), TuningCases.Layout(0.8), wide);
        Assert.True(tuned.MeetsBoth);
        Assert.All(tuned.HeaveInLoads, outcome => Assert.InRange(outcome.Reached, 0.22, 0.38));
        Assert.All(tuned.RollInLoads, outcome => Assert.InRange(outcome.Reached, 0.24, 0.40));

        var narrow = TargetTuning.Tune(CaseOf(Kerb, Full), TuningCases.Layout(0.8), Task);
        Assert.False(narrow.MeetsBoth);
        Assert.Equal(narrow.HeaveInLoads.Max(outcome => Math.Abs(outcome.Miss)), Math.Abs(narrow.Heave.Miss));
    }

    [Fact]
    public void Front_counts_each_objective_in_its_worst_state()
    {
        var front = Result.Value.Layouts[0].Front!;
        var damper = front.CompromiseLayout;
        var runs = CaseOf(Kerb, Full).InEachLoad
            .Select(study => (study.Load!.Name, Run: Comparison.RunLayout(study, damper, TestContext.Current.CancellationToken).Metrics))
            .ToArray();

        var ride = runs.MaxBy(run => run.Run.Phases[0].BodyWeightedRms);
        var roll = runs.MaxBy(run => run.Run.RollResponse!.Overshoot!.Value);
        Assert.Equal((ride.Name, roll.Name), (front.Compromise.RideLoad, front.Compromise.RollLoad));
        Assert.Equal(ride.Run.Phases[0].BodyWeightedRms, front.Compromise.WeightedAcceleration, 1e-12);
        Assert.Equal(Math.Max(0, roll.Run.RollResponse!.Overshoot!.Value), front.Compromise.Overshoot, 1e-12);
    }

    [Fact] // Of six loads the front is searched in those that bind; what it says must hold in all of them.
    public void Front_over_many_states_has_the_worst_of_all_of_them()
    {
        LoadState[] loads = [Kerb, .. Enumerable.Range(1, 4).Select(i => Full with { Name = $"between {i}", BodyMass = 1050 + (80 * i) }), Full];
        Assert.True(loads.Length > TradeOff.FewStates);
        var front = new TradeOff(CaseOf(loads), CaseOf(loads).Layouts[0], Task, TestContext.Current.CancellationToken).Search(out _)!;

        foreach (var point in front.Points)
        {
            var layout = CaseOf(loads).Layouts[0].Fitted(point.Valving.In(CaseOf(loads).Layouts[0].Damper, Task.Limits.ForceVelocity));
            var runs = CaseOf(loads).InEachLoad.Select(study => Comparison.RunLayout(study, layout, TestContext.Current.CancellationToken).Metrics).ToArray();
            Assert.Equal(runs.Max(run => run.Phases[0].BodyWeightedRms), point.WeightedAcceleration, 1e-12);
            Assert.Equal(Math.Max(0, runs.Max(run => run.RollResponse!.Overshoot!.Value)), point.Overshoot, 1e-12);
        }
    }

    [Fact]
    public void Floors_hold_in_every_state()
    {
        var floors = new DampingFloors { Heave = 0.2, Roll = 0.2, Hop = 0.1, Tramp = 0.1 };
        var front = new TradeOff(CaseOf(Kerb, Full), TuningCases.Layout(0.8), Task with { Floors = floors }, TestContext.Current.CancellationToken).Search(out _)!;
        foreach (var study in CaseOf(Kerb, Full).InEachLoad)
        {
            var linear = LinearHalfCar.AtRest(study.Assemble(TuningCases.Layout(0.8)));
            Assert.All(front.Points, point => Assert.True(
                ModeFollower.Solve(linear, point.Valving.ToCurve(2, 2).EquivalentCoefficient(0.26)).Heave.DampingRatio >= 0.2 - 1e-4));
        }

        // The heavier the body, the less one damper damps it: the floor out of reach is that of the full state.
        var high = Task with { Floors = floors with { Roll = 0.95 } };
        Assert.Null(new TradeOff(CaseOf(Kerb, Full), TuningCases.Layout(0.1), high, TestContext.Current.CancellationToken).Search(out var reason));
        Assert.Contains("m/s in load state “full”, where at least 0.95 is asked for", TuningConclusions.WhyNoFront(reason!), StringComparison.Ordinal);
    }

    [Fact]
    public void Conclusions_name_the_worst_state_and_what_no_damper_can_do()
    {
        var sentences = TuningConclusions.Of(Result.Value);
        var tuned = Result.Value.Layouts[0].Tuned;
        Assert.Contains(sentences, text => text.Contains(
            FormattableString.Invariant($"heave damping ratio {tuned.Heave.Reached:F2} in load state “{tuned.Heave.Load}” at "), StringComparison.Ordinal));
        Assert.Contains(sentences, text => text.Contains("Simulated before and after in load state “kerb”: ", StringComparison.Ordinal));
        Assert.Contains(sentences, text => text.Contains("Simulated before and after in load state “full”: ", StringComparison.Ordinal));

        // ζ falls by 15 % from kerb to full, and 0.28 to 0.32 spans 14 %: the bands of coefficients do not meet.
        var (least, most) = (tuned.HeaveInLoads[1].LowestCoefficient!.Value, tuned.HeaveInLoads[0].HighestCoefficient!.Value);
        Assert.True(least > most);
        Assert.Contains(RobustConclusions.Of(RobustTuning.Run(Result.Value, null, cancellation: TestContext.Current.CancellationToken)), text => text.Contains(
            FormattableString.Invariant($"at 0.26 m/s “full” asks for at least {least / 1000:F2} kN·s/m of the damper as drawn, “kerb” allows at most {most / 1000:F2} kN·s/m"), StringComparison.Ordinal));
    }

    [Fact]
    public void Summary_holds_each_state_and_the_worst_over_them()
    {
        using var text = new StringWriter();
        TuningSummary.Write(text, Result.Value, RobustTuning.Run(Result.Value, null, cancellation: TestContext.Current.CancellationToken), ["a warning"]);
        var json = JsonNode.Parse(text.ToString())!;

        Assert.Equal(["kerb", "full"], json["loadStates"]!.AsArray().Select(state => state!["name"]!.GetValue<string>()));
        var tuned = Result.Value.Layouts[0].Tuned;
        var worst = json["worstOverLoadStates"]![0]!;
        Assert.Equal(tuned.Heave.Reached, worst["heave"]!["ratioReached"]!.GetValue<double>());
        Assert.Equal(tuned.Heave.Load, worst["heave"]!["loadState"]!.GetValue<string>());
        Assert.NotNull(worst["tradeOff"]!["compromiseRideLoadState"]);
        foreach (var (state, k) in json["loadStates"]!.AsArray().Select((state, k) => (state!, k)))
        {
            Assert.NotNull(state["rest"]!["roll ratio 0.8"]);
            var layout = state["layouts"]![0]!;
            Assert.Equal(tuned.HeaveInLoads[k].Reached, layout["heave"]!["ratioReached"]!.GetValue<double>());
            Assert.True(layout["after"]!["weightedAcceleration_m_per_s2"]!.GetValue<double>() > 0);
        }
    }

    [Fact]
    public void Table_names_the_worst_states()
    {
        using var text = new StringWriter();
        TuningTable.WriteFronts(text, Result.Value);
        var lines = text.ToString().TrimEnd().Split('\n');
        Assert.StartsWith("layout,compromise,rideLoadState,overshootLoadState,weightedAcceleration_m_per_s2,", lines[0], StringComparison.Ordinal);
        Assert.All(lines[1..], line => Assert.Matches("^roll ratio 0.8,(best)?,(kerb|full),(kerb|full),", line));
    }

    [Fact]
    public void Figures_stand_for_one_state_each_and_the_front_for_all()
    {
        var figures = TuningFigures.All(Result.Value, new PlotSize(640, 360));
        Assert.Equal(
            [
                "kerb-tuned-curves.png", "kerb-tuned-ratios.png", "kerb-tuned-histories.png",
                "full-tuned-curves.png", "full-tuned-ratios.png", "full-tuned-histories.png", "trade-off.png",
            ],
            figures.Select(figure => figure.FileName));
        Assert.Contains("load state full", figures[3].Footer, StringComparison.Ordinal);
        Assert.DoesNotContain("load state", figures[^1].Footer, StringComparison.Ordinal);
        Assert.All(figures, figure => Assert.NotEmpty(PngRenderer.Render(figure)));
    }
}
