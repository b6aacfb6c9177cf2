using System.Text.Json;
using CsCheck;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Numerics;
using static RollRide.Tests.Dynamics.Series.StraightCars;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics.Series;

public sealed class SeriesSolverTests
{
    [Theory]
    [InlineData(1e-4, 1e-4)]
    [InlineData(1e-6, 1e-5)]
    [InlineData(1e-8, 1e-6)]
    public void Run_OfAnyStraightCar_AgreesWithTheDerivativesIntegratedStepByStep(double tolerance, double admissible) =>
        Any.SampleSame(25, sample => AssertAgrees(sample.Car, sample.Manoeuvre, tolerance, admissible));

    [Theory]
    [InlineData(1e-4, 1e-3)]
    [InlineData(1e-6, 1e-4)]
    [InlineData(1e-8, 1e-5)]
    public void Run_OnAnyRoughRoad_AgreesWithTheDerivativesIntegratedStepByStep(double tolerance, double admissible) =>
        Rough.SampleSame(60, sample => AssertAgrees(sample.Car, sample.Manoeuvre, tolerance, admissible));

    [Theory]
    [InlineData(1e-3)]
    [InlineData(1e-4)]
    [InlineData(1e-6)]
    public void Steps_OfAnyStraightCar_NeverLeaveThePieceTheyRunOn(double tolerance) =>
        Any.SampleSame(25, sample => AssertStaysOnPieces(sample.Car, sample.Manoeuvre, tolerance));

    [Theory]
    [InlineData(1e-3)]
    [InlineData(1e-4)]
    [InlineData(1e-6)]
    public void Steps_OnAnyRoughRoad_NeverLeaveThePieceTheyRunOn(double tolerance) =>
        Rough.SampleSame(60, sample => AssertStaysOnPieces(sample.Car, sample.Manoeuvre, tolerance));

    [Fact]
    public void Run_AtALooseTolerance_TakesFewerStepsThanAtATightOne() => Gen.OneOf(Any, Rough).SampleSame(150, sample =>
    {
        long Steps(double tolerance) => Run(new Simulation(sample.Car, sample.Manoeuvre, Tolerance(tolerance)), null).AcceptedSteps;

        // However loose, a step must not stand still before a kink that it takes for another one.
        Assert.InRange(Steps(1e-3), 1, Steps(1e-7));
    });

    [Fact]
    public void Lifts_BySeriesAndStepByStep_AreAsMany() => Rough.SampleSame(40, sample =>
    {
        var (car, manoeuvre) = sample;
        var equations = new HalfCarEquations(car, manoeuvre.Road, manoeuvre.Cornering);
        var metrics = new MetricsRecorder(equations, manoeuvre);
        Integrator.Run(equations, 0, manoeuvre.Duration, new double[8], manoeuvre.Breakpoints, Tolerance(1e-9), metrics, TestContext.Current.CancellationToken);

        // A graze of less than a tenth of a millisecond may be there for one and not for the other.
        Assert.Equal(
            metrics.ToMetrics().WheelLifts.Count(lift => lift.Duration > 1e-4),
            Measure(car, manoeuvre, 1e-9).WheelLifts.Count(lift => lift.Duration > 1e-4));
        Assert.DoesNotContain(Measure(car, manoeuvre, 1e-6).WheelLifts, lift => lift.Duration < 1e-8);
    });

    [Fact]
    public void SideBySide_ManyRuns_GiveTheVeryDigitsOfEachAlone()
    {
        // More runs than lanes, of different lengths; one rolls over, one has no series.
        List<(AssembledHalfCar Car, Manoeuvre Manoeuvre)> cases = [.. Some(19)];
        cases[3] = (cases[3].Car, BumpThenTurn(RoadSide.Left, 0.02, 12, 10));
        cases[7] = (Find("top mount"), cases[7].Manoeuvre);
        cases[12] = (cases[12].Car, cases[12].Manoeuvre with { Duration = 2 });
        cases[12] = cases[12] with { Manoeuvre = cases[12].Manoeuvre with { Phases = [] } };

        var together = cases.Select(Pending).ToList();
        PendingRun.MakeAll([.. together.Select(run => run.Run)], TestContext.Current.CancellationToken);
        var backwards = cases.Select(Pending).ToList();
        PendingRun.MakeAll([.. backwards.Select(run => run.Run).Reverse()], TestContext.Current.CancellationToken);
        for (var i = 0; i < cases.Count; i++)
        {
            var alone = Pending(cases[i]);
            PendingRun.MakeAll([alone.Run], TestContext.Current.CancellationToken);
            Assert.Equal(Told(alone), Told(together[i]));
            Assert.Equal(Told(alone), Told(backwards[i]));
        }

        Assert.Contains("rolled over", together[3].Run.Failure!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FourLanesAndEight_ManyRuns_GiveTheVeryDigitsOfEachAlone()
    {
        // Whatever the processor, so that a result is the same on any.
        List<(AssembledHalfCar Car, Manoeuvre Manoeuvre)> cases = [.. Some(11)];
        var (four, eight) = (cases.Select(Pending).ToList(), cases.Select(Pending).ToList());
        SeriesRun<FourLanes>.Make([.. four.Select(run => run.Run)], TestContext.Current.CancellationToken);
        SeriesRun<EightLanes>.Make([.. eight.Select(run => run.Run)], TestContext.Current.CancellationToken);
        for (var i = 0; i < cases.Count; i++)
        {
            var alone = Pending(cases[i]);
            PendingRun.MakeAll([alone.Run], TestContext.Current.CancellationToken);
            Assert.Equal(Told(alone), Told(four[i]));
            Assert.Equal(Told(alone), Told(eight[i]));
        }
    }

    [Fact]
    public void Run_TighterTolerance_Converges()
    {
        var (car, manoeuvre) = Some(1)[0];
        var exact = StepByStepHistory(car, manoeuvre, 500);
        double At(double tolerance) => Error(Record(car, manoeuvre, tolerance, 500), exact, Channel.BodyHeave);
        var (coarse, middle, fine) = (At(1e-3), At(1e-6), At(1e-9));
        Assert.InRange(middle, 0, coarse / 30);
        Assert.InRange(fine, 0, middle / 30);
    }

    [Fact]
    public void Run_BeforeTheBump_StaysExactlyAtRest()
    {
        var (car, manoeuvre) = Some(1)[0];
        var history = Record(car, manoeuvre, 1e-6, 100);
        for (var i = 0; i < 20; i++)
        {
            Assert.Equal(0, history[Channel.BodyHeave][i]);
            Assert.Equal(0, history[Channel.UnsprungRoll][i]);
            Assert.Equal(0, history[Channel.BodyAcceleration][i]);
        }
    }

    [Fact]
    public void Run_Mirrored_GivesExactlyTheMirroredMotion() => Any.SampleSame(10, sample =>
    {
        var road = sample.Manoeuvre.Road;
        var mirrored = sample.Manoeuvre with
        {
            Road = new Road(road.Right, road.Left, road.Speed),
            Cornering = new GivenLateralAcceleration(new PiecewiseSignal(Signal(sample.Manoeuvre).Pieces.Select(Opposite))),
        };
        var (one, other) = (Record(sample.Car, sample.Manoeuvre, 1e-6, 200), Record(sample.Car, mirrored, 1e-6, 200));
        for (var i = 0; i < one.Count; i++)
        {
            Assert.Equal(one[Channel.BodyHeave][i], other[Channel.BodyHeave][i]);
            Assert.Equal(one[Channel.BodyRoll][i], -other[Channel.BodyRoll][i]);
            Assert.Equal(one[Channel.DamperForceLeft][i], other[Channel.DamperForceRight][i]);
            Assert.Equal(one[Channel.TyreLoadRight][i], other[Channel.TyreLoadLeft][i]);
        }

        static SignalPiece Opposite(SignalPiece piece) => new(piece.Start, piece.End, piece.Shape switch
        {
            ConstantShape constant => new ConstantShape(-constant.Level),
            LinearShape line => new LinearShape(-line.InitialValue, -line.Slope),
            _ => throw new InvalidOperationException("The manoeuvres of these tests have no other shape."),
        });
    });

    [Fact]
    public void Step_OfFourLanes_AllocatesNothing() => AssertAllocatesNothing<FourLanes>();

    [Fact]
    public void Step_OfEightLanes_AllocatesNothing() => AssertAllocatesNothing<EightLanes>();

    [Fact]
    public void Run_TooManySteps_Stops()
    {
        var (car, manoeuvre) = Some(1)[0];
        var simulation = new Simulation(car, manoeuvre, new IntegratorOptions { MaximumSteps = 50 });
        var stopped = Assert.Throws<IntegrationException>(() => Run(simulation, null));
        Assert.Contains("50 steps were not enough", stopped.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_LimitsOfTheStep_AreKept()
    {
        var (car, manoeuvre) = Some(1)[0];
        var lengths = new Lengths();
        Run(new Simulation(car, manoeuvre, new IntegratorOptions { MaximumStep = 0.003, InitialStep = 0.0007 }), null, lengths);
        Assert.Equal(0.0007, lengths.First, 1e-15);
        Assert.InRange(lengths.Longest, 0.0029, 0.003 + 1e-12);
    }

    [Fact]
    public void Run_Cancelled_Stops()
    {
        var (car, manoeuvre) = Some(1)[0];
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => new Simulation(car, manoeuvre, new IntegratorOptions()).Run([], cancellation: stop.Token));
    }

    private static (PendingRun Run, MetricsRecorder Metrics) Pending((AssembledHalfCar Car, Manoeuvre Manoeuvre) sample)
    {
        var simulation = new Simulation(sample.Car, sample.Manoeuvre, Tolerance(1e-6));
        var metrics = new MetricsRecorder(simulation.Equations, sample.Manoeuvre);
        return (new PendingRun(simulation, [metrics]), metrics);
    }

    private static string Told((PendingRun Run, MetricsRecorder Metrics) run) => run.Run.Failure is { } failure
        ? failure.Message
        : JsonSerializer.Serialize(run.Metrics.ToMetrics()) + JsonSerializer.Serialize(run.Run.Statistics);

    private static void AssertAllocatesNothing<T>()
        where T : struct, ILanes<T>
    {
        var (car, manoeuvre) = Some(1)[0];
        var (solver, model) = (new SeriesSolver<T>(), SeriesCar.TryCreate(car, manoeuvre)!);
        var step = new SeriesStep(solver, 0);
        var (rest, rows) = (new double[8], new double[ChannelTable.Count * GaussLobatto.Lanes]);
        var options = Tolerance(1e-6);
        Assert.Equal(0, Allocation.Of(() =>
        {
            for (var lane = 0; lane < T.Count; lane++)
                solver.Load(lane, model, rest, options);
            for (var running = (1 << T.Count) - 1; running != 0;)
            {
                solver.Step();
                if ((running & 1) != 0)
                    step.WriteChannels(Octet.All(step.End), rows);
                running &= ~solver.Advance();
            }
        }));
    }

    private static TimeHistory StepByStepHistory(AssembledHalfCar car, Manoeuvre manoeuvre, double rate)
    {
        var equations = new HalfCarEquations(car, manoeuvre.Road, manoeuvre.Cornering);
        var recorder = new TimeHistoryRecorder(equations, manoeuvre.Duration, rate);
        Integrator.Run(equations, 0, manoeuvre.Duration, new double[8], manoeuvre.Breakpoints, Tolerance(1e-12), recorder, TestContext.Current.CancellationToken);
        return recorder.ToHistory();
    }

    private static void AssertAgrees(AssembledHalfCar car, Manoeuvre manoeuvre, double tolerance, double admissible)
    {
        Assert.True(new Simulation(car, manoeuvre, Tolerance(tolerance)).RunsSideBySide);
        var exact = StepByStep(car, manoeuvre, 1e-11);
        var series = Solve(car, manoeuvre, tolerance);
        var (expected, found) = (new double[8], new double[8]);
        var (error, peak) = (new double[8], new double[8]);
        for (var t = 0.0; t <= manoeuvre.Duration; t += 0.003)
        {
            exact.StateAt(t, expected);
            series.StateAt(t, found);
            for (var i = 0; i < 8; i++)
            {
                error[i] = Math.Max(error[i], Math.Abs(found[i] - expected[i]));
                peak[i] = Math.Max(peak[i], Math.Abs(expected[i]));
            }
        }

        // Errors of a step gather over some hundred steps, and a stop's blow or a landing magnifies them; so do those that the
        // absolute tolerance admits of a state near zero.
        for (var i = 0; i < 8; i++)
            Assert.InRange(error[i], 0, (admissible * peak[i]) + (10 * Tolerance(tolerance).AbsoluteTolerance));
    }

    private static void AssertStaysOnPieces(AssembledHalfCar car, Manoeuvre manoeuvre, double tolerance)
    {
        var solver = new SeriesSolver<OneLane>();
        solver.Load(0, SeriesCar.TryCreate(car, manoeuvre)!, new double[8], Tolerance(tolerance));
        var step = new SeriesStep(solver, 0);
        var (lane, state, rows) = (solver.Lanes[0], new double[8], new double[ChannelTable.Count * GaussLobatto.Lanes]);
        var run = lane.Car!;
        do
        {
            solver.Step();
            for (var part = 0; part <= 20; part++)
            {
                var time = Math.Min(step.End, step.Start + ((step.End - step.Start) * part / 20));
                step.StateAt(time, state);
                var (q, r, qRate, rRate) = (state[2] - state[0], state[3] - state[1], state[6] - state[4], state[7] - state[5]);
                for (var side = 0; side < 2; side++)
                {
                    var sign = 1 - (2 * side);

                    // What a velocity, or a travel, can change by in the shortest step, 1e-9 s, and rounding.
                    Within(run.Damper, lane.Pieces[SeriesGuard.Damper + side], (run.DamperRatio * qRate) + (sign * run.DamperArm * rRate), 1e-5);
                    Within(run.Spring, lane.Pieces[SeriesGuard.Spring + side], (run.SpringRatio * q) + (sign * run.SpringArm * r), 1e-8);
                }

                step.WriteChannels(Octet.All(time), rows);
                for (var i = 0; i < SeriesCar.Slots; i++)
                {
                    if (run.Stops[i] is { } stop)
                        Assert.InRange(((stop.Ratio * q) + (stop.Arm * r) - stop.Stop.Clearance) * (lane.Closed[i] ? 1 : -1), -1e-8, double.PositiveInfinity);
                    if (run.Contacts[i] is not null)
                        Assert.InRange(rows[((int)Channel.TyreContactLeftOuter + i) * GaussLobatto.Lanes] * (lane.Lifted[i] ? -1 : 1), -1, double.PositiveInfinity);
                }
            }
        }
        while (solver.Advance() == 0);

        static void Within(StraightPieces law, int piece, double value, double slack) => Assert.InRange(value, law.Low(piece) - slack, law.High(piece) + slack);
    }

    private static double Error(TimeHistory found, TimeHistory exact, Channel channel)
    {
        var (error, peak) = (0.0, 0.0);
        for (var i = 0; i < exact.Count; i++)
        {
            error = Math.Max(error, Math.Abs(found[channel][i] - exact[channel][i]));
            peak = Math.Max(peak, Math.Abs(exact[channel][i]));
        }

        return error / peak;
    }

    private sealed class Lengths : IStepObserver
    {
        public double First { get; private set; } = double.NaN;

        public double Longest { get; private set; }

        public void Observe(IDenseStep step)
        {
            First = double.IsNaN(First) ? step.End - step.Start : First;
            Longest = Math.Max(Longest, step.End - step.Start);
        }
    }
}
