using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Studies;
using RollRide.Sweeps;
using RollRide.Tests.Dynamics;

namespace RollRide.Tests.Studies;

public class TuningStudyTests
{
    private static readonly TuningTask Task = TuningCases.Task with
    {
        Limits = TuningCases.Task.Limits with { HighSpeedShare = new ValueRange(0.5, 1) },
        TradeOff = new TradeOffSettings { Points = 4, Samples = 8, TriesPerPoint = 2 },
    };

    private static readonly Lazy<TuningResult> Result = new(() =>
        TuningStudy.Run(TuningCases.Case(TuningCases.Layout(0.8), TuningCases.Layout(0.62)), Task));

    [Fact]
    public void Run_TwoLayouts_TunesAndSimulatesBoth()
    {
        var result = Result.Value;
        var (outer, inner) = (result.Layouts[0], result.Layouts[1]);
        Assert.True(outer.Tuned.MeetsBoth);
        Assert.Null(outer.RollFirst);
        Assert.False(inner.Tuned.Roll.IsMet);
        Assert.True(inner.RollFirst!.Roll.IsMet);
        Assert.True(inner.RollFirst.Heave.Reached > inner.Tuned.Heave.Reached);
        Assert.All(result.Layouts, layout =>
        {
            // More damping than before, so calmer in the corner: the run confirms what the eigenvalues promise.
            var run = Assert.Single(layout.InLoads);
            Assert.True(run.After.Metrics.RollResponse!.Overshoot < run.Before.Metrics.RollResponse!.Overshoot);
            Assert.Equal(layout.Tuned.After, run.After.Car.Layout);
            Assert.NotNull(layout.Front);
        });
    }

    [Fact]
    public void Run_DampingOverVelocity_PassesThroughWhatWasReached()
    {
        var layout = Result.Value.Layouts[0];
        var around = layout.InLoads[0].DampingAfter.Where(at => Math.Abs(at.Velocity / Task.Heave.DamperVelocity - 1) < 0.07).ToList();
        Assert.NotEmpty(around);
        Assert.InRange(layout.Tuned.Heave.Reached, around.Min(at => at.Heave) - 0.01, around.Max(at => at.Heave) + 0.01);
    }

    [Fact]
    public void Conclusions_SayWhatIsMetAndByHowMuchTheRestIsMissed()
    {
        var text = string.Join('\n', TuningConclusions.Of(Result.Value));
        Assert.Contains("“roll ratio 0.8” meets both targets: heave 0.30 at 0.26 m/s and roll 0.32 at 0.05 m/s.", text, StringComparison.Ordinal);
        var inner = Result.Value.Layouts[1].Tuned.Roll;
        Assert.Contains(
            FormattableString.Invariant($"roll damping ratio {inner.Reached:F2} at 0.05 m/s, {Math.Abs(inner.Miss) - 0.02:F2} below the band wanted, 0.32 ± 0.02"),
            text,
            StringComparison.Ordinal);
        Assert.Contains("With roll put first, the valving gives 0.30 in roll", text, StringComparison.Ordinal);
        Assert.Contains("Best compromise with “roll ratio 0.8”", text, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
    }

    [Fact]
    public void InShort_TellsThePriceAndTheNarrowToleranceOfWhatMeetsBoth()
    {
        var result = Result.Value;
        var phase = result.Task.TradeOff.RidePhase;
        var run = result.Layouts[0].InLoads[0];
        double Ride(RecordedLayout of) => of.Metrics.Phases.Single(part => part.Name == phase).BodyWeightedRms;
        var robust = RobustTuning.Run(result, null, cancellation: TestContext.Current.CancellationToken);
        var kept = robust.Layouts[0].Nominal.Tolerance;
        Assert.InRange(kept, 0.01, 0.099); // a target of 0.32 ± 0.02 leaves about 6 %

        var text = TuningConclusions.InShort(result, robust);

        Assert.Equal(Ride(run.After) > 1.05 * Ride(run.Before), text.Contains(FormattableString.Invariant($"; price: weighted body acceleration over the {phase} {Ride(run.After):F2} instead of {Ride(run.Before):F2} m/s²"), StringComparison.Ordinal));
        Assert.Contains(FormattableString.Invariant($"; risk: it keeps them only within ±{100 * kept:F0} % of force, less than the usual ±10 %."), text, StringComparison.Ordinal);
        Assert.DoesNotContain("risk", TuningConclusions.InShort(result), StringComparison.Ordinal);
        Assert.DoesNotContain(TuningConclusions.Named(result), sentence => sentence.StartsWith(' '));
    }

    [Fact]
    public void Conclusions_BothWorseThanBefore_SaySoAndNameTheCompromiseThatIsBetter()
    {
        var layout = Result.Value.Layouts[0];
        var (best, run) = (layout.Front!.Compromise, layout.InLoads[0]);
        var after = run.After.Metrics;
        RecordedLayout With(double ride, double overshoot) => run.After with
        {
            Metrics = after with
            {
                RollResponse = after.RollResponse! with { Overshoot = overshoot },
                Phases = [.. after.Phases.Select(phase => phase.With(PhaseMetric.BodyWeightedRms, ride))],
            },
        };
        string Text(RecordedLayout was, RecordedLayout now) =>
            string.Join('\n', TuningConclusions.Of(Result.Value with { Layouts = [layout with { InLoads = [run with { Before = was, After = now }] }] }));
        var (good, better, bad) = (
            With(best.WeightedAcceleration * 1.1, best.Overshoot + 0.01),
            With(best.WeightedAcceleration * 0.9, best.Overshoot + 0.01),
            With(best.WeightedAcceleration * 1.3, best.Overshoot + 0.1));
        Assert.Contains("Both got worse in the simulation, so these targets do not serve this manoeuvre; the best compromise of its front is better in both", Text(good, bad), StringComparison.Ordinal);
        Assert.Contains("do not serve this manoeuvre.", Text(better, bad), StringComparison.Ordinal);
        Assert.DoesNotContain("got worse", Text(bad, good), StringComparison.Ordinal);

        // A run that ends before roll is steady has a negative overshoot; nobody reads that as −5 %.
        Assert.Contains("roll overshoot from rest 0 %", Text(With(1, -0.05), bad), StringComparison.Ordinal);
    }

    [Fact]
    public void Figures_AreDrawnAllFour()
    {
        var study = Result.Value.Study with { Provenance = Result.Value.Study.Provenance with { Sha256 = new string('0', 64) } };
        var figures = TuningFigures.All(Result.Value with { Study = study }, new PlotSize(640, 360));
        Assert.Equal(["tuned-curves.png", "tuned-ratios.png", "tuned-histories.png", "trade-off.png"], figures.Select(figure => figure.FileName));
        Assert.Contains("→", figures[0].Title, StringComparison.Ordinal);
        Assert.Contains("meets both targets", figures[1].Title, StringComparison.Ordinal);
        Assert.Contains("\u00a0%", figures[2].Title, StringComparison.Ordinal); // never a number on one line and its % on the next
        Assert.Contains("in phase “bump”", figures[2].Subtitle, StringComparison.Ordinal);
        Assert.All(figures, figure => Assert.NotEmpty(PngRenderer.Render(figure)));
    }

    [Fact]
    public void Progress_rises_evenly_over_the_layouts_to_one()
    {
        var progress = new ProgressRecorder<double>();

        TuningStudy.Run(TuningCases.Case(TuningCases.Layout(0.8), TuningCases.Layout(0.62)), Task, withFronts: false, progress: progress, cancellation: TestContext.Current.CancellationToken);

        Assert.Equal([0.5, 1.0], progress.Values);
    }

    [Fact]
    public void Long_runs_before_and_after_wait_in_their_spools()
    {
        // 2 s at 50 kHz are more samples than are held in memory.
        var study = TuningCases.Case(TuningCases.Layout(0.8)) with { HistoryRate = 50_000 };
        var spools = new List<MemorySpool>();

        var run = TuningStudy.Run(study, Task, withFronts: false, () => { spools.Add(new MemorySpool()); return spools[^1]; }, cancellation: TestContext.Current.CancellationToken).Layouts[0].InLoads[0];

        Assert.Equal(2, spools.Count);
        Assert.All(spools, spool => Assert.InRange(spool.Values.Count, 200_002, 300_000)); // two channels, in whole blocks
        Assert.NotEqual(run.Before.History[Channel.BodyRoll].ToArray().Max(), run.After.History[Channel.BodyRoll].ToArray().Max());
    }
}
