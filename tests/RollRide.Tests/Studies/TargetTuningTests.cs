using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Tests.Studies;

public class TargetTuningTests
{
    private static readonly TuningTask Linear = TuningCases.Task with
    {
        // A share of 1 and equal directions make every valving one straight line through the origin.
        Limits = TuningCases.Task.Limits with { HighSpeedShare = new ValueRange(1, 1), Force = 30_000, KneeForce = new ValueRange(1, 20_000), ReboundToCompression = new ValueRange(1, 1) },
    };

    [Theory]
    [InlineData(0.2)]
    [InlineData(0.45)]
    public void Tune_LinearVehicleForHeave_FindsTheCoefficientOfTheClosedForm(double ratio)
    {
        var car = TuningCases.OnRigidTyres;
        const double Rh = 0.9;
        var task = Linear with { Heave = new TuningTarget(ratio, 0.02, 0.1), Roll = Linear.Roll with { Weight = 0 } };
        var tuned = TargetTuning.Tune(car, TuningCases.Layout(0.6, heaveRatio: Rh), task);

        // One mass on two springs and two dampers: ζ = c Rh²/√(kh ms), kh = 2 k (axle A, derived).
        double kh = 2 * 55_000;
        double expected = ratio * Math.Sqrt(kh * car.Body.Mass) / (Rh * Rh);
        Assert.Equal(expected, tuned.Heave.Coefficient, 1e-3 * expected);
        Assert.Equal(ratio, tuned.Heave.Reached, 1e-3 * ratio);
    }

    [Fact]
    public void Tune_LinearVehicleForRoll_FindsTheCoefficientOfTheClosedForm()
    {
        var car = TuningCases.OnRigidTyres;
        const double Rr = 0.7;
        var task = Linear with { Heave = Linear.Heave with { Weight = 0 }, Roll = new TuningTarget(0.25, 0.02, 0.1) };
        var tuned = TargetTuning.Tune(car, TuningCases.Layout(Rr), task);

        // ζ = c Rr² T²/√(kφ Iφ) with the gravity term: kφ = 2 k Rs² T² + Ka − ms g h, Iφ = Is + ms h² (axle B, derived).
        double kφ = 2 * 55_000 * 0.65 * 0.65 * 0.8 * 0.8 + 20_000 - 1200 * 9.80665 * 0.4;
        double iφ = 450 + 1200 * 0.4 * 0.4;
        double expected = 0.25 * Math.Sqrt(kφ * iφ) / (Rr * Rr * 0.8 * 0.8);
        Assert.Equal(expected, tuned.Roll.Coefficient, 1e-3 * expected);
    }

    [Fact]
    public void Tune_LinearVehicle_DecaysInSimulationWithTheTargetRatio()
    {
        var task = Linear with { Heave = new TuningTarget(0.3, 0.02, 0.1), Roll = Linear.Roll with { Weight = 0 } };
        var tuned = TargetTuning.Tune(TuningCases.Van, TuningCases.Layout(0.6), task);
        var study = TuningCases.Case();
        var manoeuvre = new Manoeuvre { Road = RollRide.Roads.Road.Flat(10), Cornering = RollRide.Cornering.GivenLateralAcceleration.StraightAhead, Duration = 2.5 };
        var simulation = new Simulation(new AssembledHalfCar(TuningCases.Van, tuned.After), manoeuvre, study.Solver with { RelativeTolerance = 1e-9, AbsoluteTolerance = 1e-12 });
        var recorder = new TimeHistoryRecorder(simulation.Equations, manoeuvre.Duration, 2000);
        var start = new double[simulation.Equations.Dimension];
        start[HalfCarState.BodyHeave] = 0.02;
        simulation.Run([recorder], start, TestContext.Current.CancellationToken);
        var heave = recorder.ToHistory()[Channel.BodyHeave].ToArray();

        // Logarithmic decrement over a whole cycle, once hop has died away: δ = ln(x1/x2), ζ = δ/√(4π² + δ²).
        int[] troughs = [.. Enumerable.Range(1, heave.Length - 2).Where(i => heave[i] < 0 && heave[i] <= heave[i - 1] && heave[i] < heave[i + 1])];
        double decrement = Math.Log(heave[troughs[0]] / heave[troughs[1]]);
        double ratio = decrement / Math.Sqrt(4 * Math.PI * Math.PI + decrement * decrement);
        Assert.Equal(0.3, tuned.Heave.Reached, 1e-4);
        Assert.Equal(0.3, ratio, 0.003); // 1 %: sampling of two troughs, and what is left of hop in the first
    }

    [Fact]
    public void Tune_OpenWindow_HitsBothTargetsWithinTheLimits()
    {
        var tuned = TargetTuning.Tune(TuningCases.Van, TuningCases.Layout(0.8), TuningCases.Task);
        Assert.True(tuned.MeetsBoth);

        // Both can be hit exactly, each at its own velocity; the ratios come from the eigenvalues, not from the search's table.
        Assert.Equal(0.30, tuned.Heave.Reached, 3e-4);
        Assert.Equal(0.32, tuned.Roll.Reached, 3e-4);
        AssertWithinLimits(tuned, TuningCases.Task.Limits);
        var curve = tuned.After.Damper.Curve;
        Assert.Equal(tuned.Heave.Coefficient, curve.EquivalentCoefficient(0.26), 1e-9);
        Assert.True(curve.IsStrictlyIncreasing);
    }

    [Fact]
    public void Tune_ClosedWindow_SharesTheMissAccordingToTheWeights()
    {
        // At a roll ratio of 0.6 the roll target needs far more than heave can bear.
        var layout = TuningCases.Layout(0.6);
        var even = TargetTuning.Tune(TuningCases.Van, layout, Linear);
        var forRoll = TargetTuning.Tune(TuningCases.Van, layout, Linear with { Roll = Linear.Roll with { Weight = 20 } });
        Assert.False(even.MeetsBoth);
        Assert.True(even.Heave.Miss > 0 && even.Roll.Miss < 0);
        Assert.True(forRoll.Roll.Reached > even.Roll.Reached);
        Assert.True(forRoll.Heave.Miss > even.Heave.Miss);
        Assert.True(even.Roll.CoefficientWanted > even.Roll.Coefficient);
    }

    [Fact]
    public void Tune_ClosedWindow_IsTheBestOfAllSettings()
    {
        // The same objective over a fine scan of the one parameter that a linear damper has, from the eigenvalues themselves, as far as heave damping rises with it.
        var layout = TuningCases.Layout(0.6);
        var tuned = TargetTuning.Tune(TuningCases.Van, layout, Linear);
        var follower = new ModeFollower(LinearHalfCar.AtRest(new AssembledHalfCar(TuningCases.Van, layout)));
        double Misses(double heave, double roll)
        {
            double One(TuningTarget t, double ratio) => Math.Abs(ratio - t.Ratio) / t.Tolerance is var d && d > 1 ? (d - 1) * (d - 1) + 0.01 * d * d : 0.01 * d * d;
            return One(Linear.Heave, heave) + One(Linear.Roll, roll);
        }

        var modes = Enumerable.Range(0, 300).Select(i => 500 * Math.Pow(1.01, i)).Select(follower.At).ToList();
        var best = modes.Take(modes.IndexOf(modes.MaxBy(m => m.Heave.DampingRatio)!)).MinBy(m => Misses(m.Heave.DampingRatio, m.Roll.DampingRatio))!;
        Assert.Equal(best.Coefficient, tuned.Heave.Coefficient, 0.011 * best.Coefficient); // the scan's step is 1 %
    }

    [Fact]
    public void Tune_RollFirst_HasTheBestHeaveOfAllValvingsWithRollInItsBand()
    {
        var (layout, task) = (TuningCases.Layout(0.6), TuningCases.Task);
        var tuned = TargetTuning.Tune(TuningCases.Van, layout, task, rollFirst: true);
        Assert.True(tuned.Roll.IsMet);

        // A straight damper at the lower edge of the roll band is one of the valvings within the limits, and the search can only do better.
        var straight = TargetTuning.Tune(TuningCases.Van, layout, Linear, rollFirst: true);
        Assert.Equal(task.Roll.Ratio - task.Roll.Tolerance, straight.Roll.Reached, 1e-4);
        Assert.True(Math.Abs(tuned.Heave.Miss) <= Math.Abs(straight.Heave.Miss) + 1e-4);

        // Heave is beyond its target there, so the least at its faster velocity is wanted: the most digressive curve within the limits
        // comes down to the middle of heave's band, or as near to it as the share of 0.05 lets it.
        Assert.True(straight.Heave.Miss > 0);
        Assert.True(Math.Abs(tuned.Heave.Miss) < 1e-3 || tuned.Valving.Compression.HighSpeedSlope < 0.06 * tuned.Valving.Compression.BleedSlope);
    }

    [Fact]
    public void Tune_ShareThatForbidsAProgressiveCurve_NamesTheLimit()
    {
        // Heave at 0.26 m/s wants far more than roll at 0.05 m/s: only a slope that grows with velocity gives both.
        var task = TuningCases.Task with { Roll = new TuningTarget(0.12, 0.02, 0.05) };
        var tuned = TargetTuning.Tune(TuningCases.Van, TuningCases.Layout(0.8), task);
        Assert.False(tuned.MeetsBoth);
        var limit = Assert.Single(tuned.BindingLimits, limit => limit.Key == "highSpeedShare");
        Assert.True(limit is { IsHighest: true, Value: 1, Relaxed: 4 });

        // What is promised with the limit moved is what a tuning with it gives.
        var moved = TargetTuning.Tune(TuningCases.Van, TuningCases.Layout(0.8), task with { Limits = task.Limits with { HighSpeedShare = new ValueRange(0.05, 4) } });
        Assert.Equal(moved.Heave.Reached, limit.Heave);
        Assert.Equal(moved.Roll.Reached, limit.Roll);
        Assert.Empty(TargetTuning.Tune(TuningCases.Van, TuningCases.Layout(0.8), TuningCases.Task).BindingLimits);
    }

    [Fact]
    public void Tune_UnreachableRoll_SaysSoAndStillMeetsHeave()
    {
        var tuned = TargetTuning.Tune(TuningCases.Van, TuningCases.Layout(0.02), TuningCases.Task);
        Assert.Null(tuned.Roll.CoefficientWanted);
        Assert.True(tuned.Heave.IsMet);
        Assert.InRange(tuned.Roll.Reached, 0, 0.05);
    }

    [Fact]
    public void Tune_TightLimits_AreKeptAndCostTheTarget()
    {
        var limits = new TuningLimits
        {
            Force = 700,
            ReboundToCompression = new ValueRange(1, 1.2),
            KneeVelocity = new ValueRange(0.05, 0.1),
            KneeForce = new ValueRange(50, 150),
            HighSpeedShare = new ValueRange(0.1, 0.6),
        };
        var tuned = TargetTuning.Tune(TuningCases.Van, TuningCases.Layout(0.8), TuningCases.Task with { Limits = limits });
        AssertWithinLimits(tuned, limits);
        Assert.False(tuned.Heave.IsMet);
        Assert.Equal(1.2, tuned.ReboundToCompression, 1e-12);
        Assert.InRange(tuned.ReboundToCompressionBefore, 1.9, 2.1); // the present damper is about 2:1
    }

    [Fact]
    public void Tune_LimitsThatContradict_SaySo()
    {
        var limits = new TuningLimits { Force = 100, KneeForce = new ValueRange(500, 900) };
        var e = Assert.Throws<StudyException>(() => TargetTuning.Tune(TuningCases.Van, TuningCases.Layout(0.8), TuningCases.Task with { Limits = limits }));
        Assert.Contains("No valving keeps all limits", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Tune_Friction_CountsOnlyWhereAskedFor()
    {
        var layout = TuningCases.Layout(0.8, TuningCases.Digressive with { Friction = 30 });
        var task = TuningCases.Task with { Limits = TuningCases.Task.Limits with { HighSpeedShare = new ValueRange(0.05, 2) } };
        var without = TargetTuning.Tune(TuningCases.Van, layout, task);
        var with = TargetTuning.Tune(TuningCases.Van, layout, task, includeFriction: true);
        Assert.Equal(0.32, without.Roll.Reached, 3e-4);
        Assert.Equal(0.32, with.Roll.Reached, 3e-4);
        Assert.True(with.After.Damper.Curve.EquivalentCoefficient(0.05) < without.After.Damper.Curve.EquivalentCoefficient(0.05));
    }

    [Fact]
    public void Tune_Twice_GivesTheSameValving()
    {
        var layout = TuningCases.Layout(0.5);
        Assert.Equal(
            TargetTuning.Tune(TuningCases.Van, layout, TuningCases.Task).Valving,
            TargetTuning.Tune(TuningCases.Van, layout, TuningCases.Task).Valving);
    }

    [Fact]
    public void SmallestForce_IsThatOfAValveOfConstantForce()
    {
        // Rigid tyres, lower edge 0.28 at 0.26 m/s: F = π/4 · c V, c = 0.28 √(kh ms).
        double expected = Math.PI / 4 * 0.28 * Math.Sqrt(110_000.0 * 1200) * 0.26;
        Assert.Equal(expected, TargetTuning.SmallestForce(new AssembledHalfCar(TuningCases.OnRigidTyres, TuningCases.Layout(0.8)), ModeName.Heave, TuningCases.Task.Heave, 1)!.Value, 1e-3 * expected);
        Assert.Null(TargetTuning.SmallestForce(new AssembledHalfCar(TuningCases.Van, TuningCases.Layout(0.02)), ModeName.Roll, TuningCases.Task.Roll, 1));
    }

    private static void AssertWithinLimits(TunedLayout tuned, TuningLimits limits)
    {
        const double Rounding = 1e-9;
        foreach (var valve in new[] { tuned.Valving.Compression, tuned.Valving.Rebound })
        {
            Assert.InRange(valve.Force(limits.ForceVelocity), 0, limits.Force * (1 + Rounding));
            Assert.InRange(valve.KneeVelocity, limits.KneeVelocity.Lowest * (1 - Rounding), limits.KneeVelocity.Highest * (1 + Rounding));
            Assert.InRange(valve.KneeForce, limits.KneeForce.Lowest * (1 - Rounding), limits.KneeForce.Highest * (1 + Rounding));
            Assert.InRange(valve.HighSpeedSlope / valve.BleedSlope, limits.HighSpeedShare.Lowest * (1 - Rounding), limits.HighSpeedShare.Highest * (1 + Rounding));
        }

        Assert.Equal(tuned.ReboundToCompression, tuned.Valving.Rebound.KneeForce / tuned.Valving.Compression.KneeForce, 1e-9);
    }
}
