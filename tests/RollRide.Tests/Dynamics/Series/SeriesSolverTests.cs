using System.Text.Json;
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
    [Fact]
    public void Run_OfAnyStraightCar_AgreesWithTheDerivativesIntegratedStepByStep() => Any.SampleSame(25, sample =>
    {
        Assert.True(new Simulation(sample.Car, sample.Manoeuvre, Tolerance(1e-8)).RunsSideBySide);
        var exact = StepByStep(sample.Car, sample.Manoeuvre, 1e-11);
        var series = Solve(sample.Car, sample.Manoeuvre, 1e-8);
        var (expected, found) = (new double[8], new double[8]);
        var (error, peak) = (new double[8], new double[8]);
        for (var t = 0.0; t <= sample.Manoeuvre.Duration; t += 0.003)
        {
            exact.StateAt(t, expected);
            series.StateAt(t, found);
            for (var i = 0; i < 8; i++)
            {
                error[i] = Math.Max(error[i], Math.Abs(found[i] - expected[i]));
                peak[i] = Math.Max(peak[i], Math.Abs(expected[i]));
            }
        }

        // Errors of a step at 1e-8 gather over some hundred steps, and a stop's blow magnifies them; where there is no motion, rounding.
        for (var i = 0; i < 8; i++)
            Assert.InRange(error[i], 0, (1e-6 * peak[i]) + 1e-14);
    });

    [Fact]
    public void Run_AtADefaultTolerance_MeetsTheErrorsOfTheYardstick() => Any.SampleSame(10, sample =>
    {
        var exact = Record(sample.Car, sample.Manoeuvre, 1e-11, 1000);
        var found = Record(sample.Car, sample.Manoeuvre, 1e-6, 1000);
        Assert.InRange(Error(found, exact, Channel.BodyRoll), 0, 1e-5);
        Assert.InRange(Error(found, exact, Channel.BodyAcceleration), 0, 1e-4);
    });

    [Fact]
    public void Steps_OfAnyStraightCar_NeverLeaveThePieceTheyRunOn() => Any.SampleSame(25, sample =>
    {
        var solver = new SeriesSolver<OneLane>();
        solver.Load(0, SeriesCar.TryCreate(sample.Car, sample.Manoeuvre)!, new double[8], Tolerance(1e-6));
        var step = new SeriesStep(solver, 0);
        var (lane, state) = (solver.Lanes[0], new double[8]);
        var damper = lane.Car!.Damper;
        do
        {
            solver.Step();
            for (var part = 0; part <= 20; part++)
            {
                step.StateAt(Math.Min(step.End, step.Start + ((step.End - step.Start) * part / 20)), state);
                var (q, r) = (state[6] - state[4], state[7] - state[5]);
                for (var side = 0; side < 2; side++)
                {
                    var velocity = (lane.Car.DamperRatio * q) + ((1 - (2 * side)) * lane.Car.DamperArm * r);
                    var piece = lane.Pieces[SeriesGuard.Damper + side];

                    // What a velocity can change by in the shortest step, 1e-9 s, and rounding.
                    Assert.InRange(velocity, damper.Low(piece) - 1e-6, damper.High(piece) + 1e-6);
                }
            }
        }
        while (solver.Advance() == 0);
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

        static (PendingRun Run, MetricsRecorder Metrics) Pending((AssembledHalfCar Car, Manoeuvre Manoeuvre) sample)
        {
            var simulation = new Simulation(sample.Car, sample.Manoeuvre, Tolerance(1e-6));
            var metrics = new MetricsRecorder(simulation.Equations, sample.Manoeuvre);
            return (new PendingRun(simulation, [metrics]), metrics);
        }

        static string Told((PendingRun Run, MetricsRecorder Metrics) run) => run.Run.Failure is { } failure
            ? failure.Message
            : JsonSerializer.Serialize(run.Metrics.ToMetrics()) + JsonSerializer.Serialize(run.Run.Statistics);
    }

    [Fact]
    public void Run_TighterTolerance_Converges()
    {
        var (car, manoeuvre) = Some(1)[0];
        var exact = Record(car, manoeuvre, 1e-12, 500);
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
    public void Step_AllocatesNothing()
    {
        var (car, manoeuvre) = Some(1)[0];
        var (solver, model) = (new SeriesSolver<EightLanes>(), SeriesCar.TryCreate(car, manoeuvre)!);
        var step = new SeriesStep(solver, 0);
        var (rest, rows) = (new double[8], new double[ChannelTable.Count * GaussLobatto.Lanes]);
        var options = Tolerance(1e-6);
        Assert.Equal(0, Allocation.Of(() =>
        {
            for (var lane = 0; lane < 8; lane++)
                solver.Load(lane, model, rest, options);
            for (var running = 255; running != 0;)
            {
                solver.Step();
                if ((running & 1) != 0)
                    step.WriteChannels(System.Runtime.Intrinsics.Vector512.Create(step.End), rows);
                running &= ~solver.Advance();
            }
        }));
    }

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
