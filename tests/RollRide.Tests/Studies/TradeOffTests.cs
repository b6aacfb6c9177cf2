using RollRide.Damping;
using RollRide.Findings;
using RollRide.Studies;

namespace RollRide.Tests.Studies;

public class TradeOffTests
{
    private static readonly TuningTask Task = TuningCases.Task with
    {
        TradeOff = new TradeOffSettings { Points = 3, Samples = 8, TriesPerPoint = 2 },
    };

    // A linear damper has one parameter, so few tries lead to its optima.
    private static readonly TuningTask LinearOnly = TuningCases.Task with
    {
        Floors = new DampingFloors { Heave = 0, Roll = 0, Hop = 0, Tramp = 0 },
        TradeOff = new TradeOffSettings { Points = 12, Samples = 12, TriesPerPoint = 4 },
        Limits = new TuningLimits
        {
            Force = 12_000,
            HighSpeedShare = new ValueRange(1, 1),
            KneeVelocity = new ValueRange(0.1, 0.1),
            KneeForce = new ValueRange(20, 5000),
            ReboundToCompression = new ValueRange(1, 1),
        },
    };

    private static TradeOffFront Search(TuningTask task, IProgress<double>? progress = null) =>
        new TradeOff(TuningCases.Case(), TuningCases.Layout(0.8), task, TestContext.Current.CancellationToken).Search(out _, progress)!;

    [Fact]
    public void Search_LinearDamper_GivesAFrontBetweenBothOptima()
    {
        var front = Search(LinearOnly);
        Assert.InRange(front.Points.Length, 10, 12);
        Assert.All(front.Points, p => Assert.DoesNotContain(front.Points, other => Dominates(other, p)));
        Assert.Equal(0, front.Failures);

        // The ends: scan the one parameter in steps of 5 % over all that the limits allow, 20 N at the knee of 0.1 m/s to 12 kN at 1 m/s.
        var tradeOff = new TradeOff(TuningCases.Case(), TuningCases.Layout(0.8), LinearOnly, TestContext.Current.CancellationToken);
        var scan = Enumerable.Range(0, 84).Select(i => 200 * Math.Pow(1.05, i)).Append(12_000)
            .Select(c => tradeOff.Simulate(TuningCases.Layout(0.8, new Damper("linear", ForceVelocityCurve.Linear(c))), TuningCases.Case().Solver))
            .ToList();

        // Within 2.5 % of the best coefficient a smooth minimum differs by about a thousandth; the search may be better, not worse.
        Assert.InRange(front.Points[0].WeightedAcceleration, 0.998 * scan.Min(r => r.WeightedAcceleration), 1.0005 * scan.Min(r => r.WeightedAcceleration));
        Assert.InRange(front.Points[^1].Overshoot, scan.Min(r => r.Overshoot) - 2e-3, scan.Min(r => r.Overshoot) + 5e-4);

        // The best compromise lies below the chord, and holds when simulated anew at a tenth of the tolerances: of 1e-5 a step about 1e-4 is left.
        var (easiest, calmest) = (front.Points[0], front.Points[^1]);
        double chord = easiest.Overshoot + (front.Compromise.WeightedAcceleration - easiest.WeightedAcceleration)
            / (calmest.WeightedAcceleration - easiest.WeightedAcceleration) * (calmest.Overshoot - easiest.Overshoot);
        Assert.True(front.Compromise.Overshoot < chord);
        Assert.InRange(front.CompromiseVerification, 0, 1e-3);
    }

    [Fact]
    public void Search_Twice_GivesTheSameFrontWhateverTheThreadsDo()
    {
        var (one, other) = (Search(Task), Search(Task));
        Assert.Equal(one.Points.AsEnumerable(), other.Points.AsEnumerable());
        Assert.Equal(one.CompromiseIndex, other.CompromiseIndex);
    }

    [Fact]
    public void Search_Progress_RisesToOne()
    {
        var progress = new Recorded();
        Search(Task, progress);
        Assert.Equal(progress.Values.Order(), progress.Values);
        Assert.Equal(1, progress.Values[^1]);
    }

    [Fact]
    public void Search_PhaseThatDoesNotExist_IsRefused()
    {
        var task = Task with { TradeOff = new TradeOffSettings { RidePhase = "jump" } };
        var e = Assert.Throws<ArgumentException>(() => Search(task));
        Assert.Contains("bump, corner", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Search_Cancelled_Stops()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var tradeOff = new TradeOff(TuningCases.Case(), TuningCases.Layout(0.8), Task, source.Token);
        Assert.ThrowsAny<OperationCanceledException>(() => tradeOff.Search(out _));
    }

    // Without floors the easiest ride of the same search is next to undamped.
    [Fact]
    public void Search_KeepsTheFloorsOfDamping_AndSaysWhatTheKneeMakesOfTheTargets()
    {
        var floors = new DampingFloors { Heave = 0.15, Roll = 0.2, Hop = 0.1, Tramp = 0.1 };
        var front = Search(Task with { Floors = floors });
        var study = TuningCases.Case();

        foreach (var point in front.Points)
        {
            var (modesOfHeave, modesOfRoll, modesOfAxle) = (At(point, 0.26), At(point, 0.05), At(point, study.Analysis.ReferenceVelocity));
            Assert.True(modesOfHeave.Heave.DampingRatio >= floors.Heave - 1e-4);
            Assert.True(modesOfRoll.Roll.DampingRatio >= floors.Roll - 1e-4);
            Assert.True(modesOfAxle.Hop.DampingRatio >= floors.Hop - 1e-4);
            Assert.True(modesOfAxle.Tramp.DampingRatio >= floors.Tramp - 1e-4);
        }

        Assert.Equal(At(front.Compromise, 0.26).Heave.DampingRatio, front.CompromiseHeave.Reached, 1e-12);
        Assert.Equal(At(front.Compromise, 0.05).Roll.DampingRatio, front.CompromiseRoll.Reached, 1e-12);
        var loose = Search(Task with { Floors = new DampingFloors { Heave = 0, Roll = 0, Hop = 0, Tramp = 0 } });
        Assert.Contains(loose.Points, point => At(point, 0.05).Roll.DampingRatio < floors.Roll);

        // The mean curve's equivalent coefficient, and the modes solved with it.
        RollRide.Modes.ModeSet At(TradeOffPoint point, double velocity) => RollRide.Modes.ModeFollower.Solve(
            RollRide.Dynamics.LinearHalfCar.AtRest(new RollRide.Dynamics.AssembledHalfCar(TuningCases.Van, TuningCases.Layout(0.8))),
            point.Valving.ToCurve(2, 2).EquivalentCoefficient(velocity));
    }

    [Fact]
    public void Search_FloorOutOfReach_IsToldWithWhatIsReached()
    {
        var task = Task with { Floors = new DampingFloors { Roll = 0.1 } };
        var front = new TradeOff(TuningCases.Case(), TuningCases.Layout(0.05), task, TestContext.Current.CancellationToken).Search(out var reason);

        Assert.Null(front);
        Assert.Matches("^roll comes to at most 0.0[0-9] at 0.05 m/s, where at least 0.1 is asked for", TuningConclusions.WhyNoFront(reason!));
    }

    [Fact]
    public void Simulate_DamperTooSlowForTheRun_EarnsNothingBelowNoOvershoot()
    {
        // 40 kN·s/m at both ends creeps towards the steady angle and never goes beyond it.
        var tradeOff = new TradeOff(TuningCases.Case(), TuningCases.Layout(0.8), Task, TestContext.Current.CancellationToken);
        var slow = TuningCases.Layout(0.8, new Damper("slow", ForceVelocityCurve.Linear(40_000)));
        var run = Comparison.RunLayout(TuningCases.Case(slow), slow, TestContext.Current.CancellationToken);
        Assert.True(run.Metrics.RollResponse!.Overshoot <= 0);
        Assert.Equal(0, tradeOff.Simulate(slow, TuningCases.Case().Solver).Overshoot);
    }

    [Fact]
    public void NonDominated_KeepsTheLowerLeftEdge()
    {
        var valving = new Valving(new ValveCharacteristic(1, 1, 1), new ValveCharacteristic(1, 1, 1));
        TradeOffPoint P(double a, double o) => new(valving, a, o);
        var front = TradeOffFront.NonDominated([P(3, 1), P(1, 3), P(2, 2), P(2.5, 2), P(2, 2.5), P(1, 4), P(4, 1)]);
        Assert.Equal([P(1, 3), P(2, 2), P(3, 1)], front.AsEnumerable());
    }

    [Fact]
    public void FindKnee_OfACircularArc_IsItsMiddle()
    {
        // A quarter circle bulging towards the origin between (0, 1) and (1, 0): farthest from the chord at 45 degrees.
        var valving = new Valving(new ValveCharacteristic(1, 1, 1), new ValveCharacteristic(1, 1, 1));
        var arc = Enumerable.Range(0, 91).Select(deg => new TradeOffPoint(valving, 1 - Math.Cos(deg * Math.PI / 180), 1 - Math.Sin(deg * Math.PI / 180))).ToList();
        Assert.Equal(45, TradeOffFront.FindCompromise(arc));
    }

    private sealed class Recorded : IProgress<double>
    {
        public List<double> Values { get; } = [];

        public void Report(double value) => Values.Add(value);
    }

    /// <summary>At least as good in both and better in one.</summary>
    private static bool Dominates(TradeOffPoint one, TradeOffPoint other) =>
        one.WeightedAcceleration <= other.WeightedAcceleration && one.Overshoot <= other.Overshoot
        && (one.WeightedAcceleration < other.WeightedAcceleration || one.Overshoot < other.Overshoot);
}
