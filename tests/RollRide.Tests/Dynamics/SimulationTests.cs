using System.Text.Json;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Roads;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

public sealed class SimulationTests
{
    [Fact]
    public void Metrics_AnyOutputRate_AreTheSameToTheLastBit()
    {
        var car = Find("top mount");
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.08, 3);
        string Figures(double? rate)
        {
            var run = new MeasuredRun(car, manoeuvre, new IntegratorOptions())
            {
                Observer = rate is { } hertz ? equations => new TimeHistoryRecorder(equations, manoeuvre.Duration, hertz) : null,
            };
            return JsonSerializer.Serialize(run.Make(TestContext.Current.CancellationToken).Metrics);
        }

        var alone = Figures(null);
        Assert.Equal(alone, Figures(100));
        Assert.Equal(alone, Figures(1234.5));
    }

    [Fact]
    public void Metrics_TighterTolerance_Converge()
    {
        var car = Find("mounts, gas, friction, stops");
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.08, 3, 2.2);
        double[] Figures(double tolerance)
        {
            var metrics = Measure(car, manoeuvre, tolerance);
            return
            [
                metrics.Whole.BodyAccelerationRms, metrics.Whole.BodyAccelerationPeak, metrics.Whole.RollAnglePeak, car.Vehicle.StaticTyreLoad - metrics.Whole.TyreLoadMinimum,
                metrics.Whole.DamperEnergy, metrics.Whole.DynamicLoadCoefficient, metrics.Phases[0].SeatAccelerationPeak, metrics.RollResponse!.PeakAngle!.Value,
                metrics.RollResponse.ResponseTime!.Value, metrics.RollResponse.SettlingTime!.Value, metrics.Whole.DamperCompressionVelocityPeak,
            ];
        }

        var exact = Figures(1e-9);
        double Error(double tolerance) => Figures(tolerance).Zip(exact, (x, y) => Math.Abs(x - y) / Math.Abs(y)).Max();
        var (coarse, fine) = (Error(1e-6), Error(1e-8));

        // At a relative tolerance of 3e-7 every figure holds to 2 in 100 000, at thrice that to 5, and the figures follow the tolerance down.
        Assert.InRange(Error(3e-7), 0, 2e-5);
        Assert.InRange(coarse, 0, 5e-5);
        Assert.InRange(fine, 0, coarse / 10);
    }

    [Fact]
    public void TooTightATurn_RollsOver_AndSaysWhenAndWhat()
    {
        var car = new AssembledHalfCar(LiveAxle, LinearLayout());
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.02, 12, 10);
        var simulation = new Simulation(car, manoeuvre, new IntegratorOptions());
        var history = new TimeHistoryRecorder(simulation.Equations, manoeuvre.Duration, 100);
        var stopped = Assert.Throws<IntegrationException>(() => Run(simulation, null, history));

        Assert.InRange(stopped.Time, 1.2, 10);
        Assert.Contains(FormattableString.Invariant($"At {stopped.Time:F3} s"), stopped.Message, StringComparison.Ordinal);
        Assert.Contains("leans by more than 90 deg: the vehicle has rolled over", stopped.Message, StringComparison.Ordinal);

        // No figures of half a run.
        Assert.Throws<InvalidOperationException>(history.ToHistory);
        var measured = new MeasuredRun(car, manoeuvre, new IntegratorOptions());
        var same = Assert.Throws<IntegrationException>(() => measured.Make(TestContext.Current.CancellationToken));
        Assert.Equal((stopped.Message, stopped.Time, stopped.StateName), (same.Message, same.Time, same.StateName));
        Assert.Throws<InvalidOperationException>(() => measured.Metrics);
    }

    [Theory]
    [InlineData(HalfCarState.BodyHeave, double.NaN, "body heave [m]")]
    [InlineData(HalfCarState.Rates, double.PositiveInfinity, "body heave velocity [m/s]")]
    public void InitialState_ThatIsNoNumber_IsNamed(int index, double value, string name)
    {
        var simulation = new Simulation(new AssembledHalfCar(LiveAxle, LinearLayout()), Free(1), new IntegratorOptions());
        var state = new double[8];
        state[index] = value;
        var stopped = Assert.Throws<IntegrationException>(() => Run(simulation, state));
        Assert.Equal(0, stopped.Time);
        Assert.Contains("t = 0 s", stopped.Message, StringComparison.Ordinal);
        Assert.Contains("not a finite number", stopped.Message, StringComparison.Ordinal);
        Assert.Contains(name, stopped.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void InitialState_OfTheWrongLength_IsRefused()
    {
        var simulation = new Simulation(Find("top mount"), Free(1), new IntegratorOptions());
        Assert.Throws<ArgumentException>(() => Run(simulation, new double[8]));
    }

    [Fact]
    public void RunThatStartsInATurnNobodyCanStandIn_IsRefused()
    {
        var car = new AssembledHalfCar(LiveAxle, LinearLayout());
        var manoeuvre = Free(1) with { Cornering = Steady(15) };
        var simulation = new Simulation(car, manoeuvre, new IntegratorOptions());
        var refused = Assert.Throws<NoEquilibriumException>(() => Run(simulation, null));
        Assert.Equal(15, refused.LateralAcceleration);
        Assert.Contains("15.00 m/s²", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void History_AnyRate_HoldsTheSolutionAtItsTimes()
    {
        var car = Find("duals");
        var manoeuvre = BumpThenTurn(RoadSide.Both, 0.05, 2, 1.55);
        var history = Record(car, manoeuvre, 1e-7, 100);
        var trajectory = Solve(car, manoeuvre, 1e-7);
        Assert.Equal(156, history.Count);
        var state = new double[8];
        for (var i = 0; i < history.Count; i++)
        {
            Assert.Equal(i / 100.0, history.Time(i));
            trajectory.StateAt(history.Time(i), state);
            Assert.Equal(state[HalfCarState.UnsprungRoll], history[Channel.UnsprungRoll][i], 1e-15);
        }

        var (time, value) = history.Slice(Channel.BodyRoll, Unit.Degree, 0.5, 0.7);
        Assert.Equal(21, time.Length);
        Assert.Equal(history[Channel.BodyRoll][50] * 180 / Math.PI, value[0], 1e-12);
    }

    [Theory]
    [InlineData(-0.1, 1)]
    [InlineData(1, 1)]
    [InlineData(double.NaN, 1)]
    [InlineData(0, double.PositiveInfinity)]
    public void Phase_OutOfOrder_IsRefused(double start, double end) =>
        Assert.ThrowsAny<ArgumentException>(() => new Phase("corner", start, end));

    [Fact]
    public void Metrics_OfAPhaseBeyondTheRun_AreRefused()
    {
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.05, 2) with { Phases = [new Phase("corner", 1, 3.5)] };
        var refused = Assert.Throws<ArgumentException>(() => new MeasuredRun(Find("ratios"), manoeuvre, new IntegratorOptions()));
        Assert.Contains("Phase “corner” ends at 3.5 s, after the run, which ends at 3 s", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Breakpoints_OfAManoeuvre_AreEveryKinkWithinTheRunOnce()
    {
        var manoeuvre = new Manoeuvre
        {
            Road = Road.Flat(10).With(RoadEvents.HaversineBump(2, 3, 0.05), RoadSide.Both),
            Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(0.5, 0.3, 2)),
            Duration = 2,
            Phases = [new Phase("all", 0, 2), new Phase("part", 0.2, 1.5)],
        };
        Assert.Equal([0.2, 0.5, 0.8, 1.5], manoeuvre.Breakpoints);
    }
}
