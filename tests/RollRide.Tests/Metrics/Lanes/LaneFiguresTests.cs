using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Dynamics.Series;
using RollRide.Tests.Numerics;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Metrics.Lanes;

/// <summary>What is gathered from the series of all lanes at once, against what is gathered from the same steps one by one.</summary>
public sealed class LaneFiguresTests
{
    [Fact]
    public void Figures_OfAnyStraightCar_AgreeWithThoseTakenStepByStep() =>
        StraightCars.Any.SampleSame(30, sample => AssertAgree(sample.Car, sample.Manoeuvre, 1e-7, 1e-5));

    [Fact]
    public void Figures_OnAnyRoughRoad_AgreeWithThoseTakenStepByStep() =>
        StraightCars.Rough.SampleSame(40, sample => AssertAgree(sample.Car, sample.Manoeuvre, 1e-7, 1e-5));

    [Fact]
    public void Figures_AtALooseTolerance_ErrNoMoreThanTheMotion() =>
        StraightCars.Any.SampleSame(20, sample => AssertAgree(sample.Car, sample.Manoeuvre, 1e-4, 1e-3));

    [Fact]
    public void Figures_OfARunThatBeginsInItsCorner_AgreeWithThoseTakenStepByStep()
    {
        var (car, manoeuvre) = StraightCars.Some(1)[0];
        AssertAgree(car, manoeuvre with { Cornering = Steady(3), Phases = [new Phase("first", 0, 1), new Phase("both", 0.5, 1.5)] }, 1e-7, 1e-5);
    }

    [Fact]
    public void Figures_OfDualTyresThatLiftAlmostTogether_ShowNoLoadBelowZero()
    {
        foreach (var (car, manoeuvre) in StraightCars.Any.Samples(60))
        {
            var duals = car.Vehicle with { Tyre = car.Vehicle.Tyre with { Stiffness = 120e3, Damping = 300, DualSpacing = 0.28 } };
            var jump = manoeuvre with { Road = Road.Flat(20).With(RoadEvents.HaversineBump(3, 1, 0.09), RoadSide.Both), Cornering = Steady(1e-6) };
            Assert.Equal(0, Measure(new AssembledHalfCar(duals, car.Layout), jump, 1e-3).Whole.TyreLoadMinimum);
        }
    }

    [Fact]
    public void Gather_AnyStep_AllocatesNothing()
    {
        var (car, manoeuvre) = StraightCars.Some(1)[0];
        var simulation = new Simulation(car, manoeuvre with { Cornering = GivenLateralAcceleration.StraightAhead }, Tolerance(1e-6));
        var recorders = Enumerable.Range(0, EightLanes.Count).Select(_ => (ISeriesObserver)new MetricsRecorder(simulation.Equations, manoeuvre, false)).ToArray();
        var solver = new SeriesSolver<EightLanes>();
        var gatherer = recorders[0].NewGatherer(solver);
        var rest = new double[HalfCarState.Count];
        for (var lane = 0; lane < EightLanes.Count; lane++)
        {
            solver.Load(lane, simulation.Series!, rest, simulation.Options);
            recorders[lane].Enter(gatherer, lane);
        }

        // Until shortly before the end, so that nothing is handed over.
        Assert.Equal(0, Allocation.Of(() =>
        {
            while (solver.Start(0) < 0.9 * manoeuvre.Phases[0].End)
            {
                solver.Step();
                gatherer.Gather(255);
                solver.Advance();
            }
        }));
    }

    private static void AssertAgree(AssembledHalfCar car, Manoeuvre manoeuvre, double tolerance, double admissible)
    {
        var (found, expected) = (Measure(asLanes: true), Measure(asLanes: false));
        AssertPhase(expected.Whole, found.Whole);
        foreach (var (one, other) in expected.Phases.Zip(found.Phases))
            AssertPhase(one, other);
        Assert.Equal(expected.WheelLifts.Length, found.WheelLifts.Length);
        foreach (var (one, other) in expected.WheelLifts.Zip(found.WheelLifts))
        {
            Assert.Equal(one.Side, other.Side);
            Assert.Equal(one.Start, other.Start, 1e-7);
            Assert.Equal(one.Duration, other.Duration, 1e-7);
        }

        Assert.Equal(expected.RollResponse is null, found.RollResponse is null);
        if (expected.RollResponse is not { } response)
            return;
        var answer = found.RollResponse!;
        Assert.Equal(response.SteadyAngle, answer.SteadyAngle);
        Close(response.PeakAngle, answer.PeakAngle, Math.Abs(response.PeakAngle));
        Assert.Equal(response.ResponseTime ?? -1, answer.ResponseTime ?? -1, 1e-6);
        Assert.Equal(response.SettlingTime ?? -1, answer.SettlingTime ?? -1, 1e-6);

        // A flat top is as high over a long time.
        Assert.Equal(response.PeakTime ?? -1, answer.PeakTime ?? -1, 0.02);

        RunMetrics Measure(bool asLanes)
        {
            var simulation = new Simulation(car, manoeuvre, Tolerance(tolerance));
            Assert.True(simulation.RunsSideBySide);
            var recorder = new RunRecorder(simulation.Equations, manoeuvre);
            simulation.Run([asLanes ? recorder : new Relay(recorder)], cancellation: TestContext.Current.CancellationToken);
            return recorder.ToMetrics();
        }

        void AssertPhase(PhaseMetrics one, PhaseMetrics other)
        {
            Assert.Equal(one.Name, other.Name);
            Close(one.BodyAccelerationRms, other.BodyAccelerationRms, one.BodyAccelerationPeak);
            Close(one.BodyAccelerationPeak, other.BodyAccelerationPeak, one.BodyAccelerationPeak);
            Close(one.RollAccelerationRms, other.RollAccelerationRms, one.RollAccelerationPeak);
            Close(one.RollAccelerationPeak, other.RollAccelerationPeak, one.RollAccelerationPeak);
            Close(one.SeatAccelerationRms, other.SeatAccelerationRms, one.SeatAccelerationPeak);
            Close(one.SeatAccelerationPeak, other.SeatAccelerationPeak, one.SeatAccelerationPeak);
            foreach (var (comfort, same) in new[] { (one.BodyComfort, other.BodyComfort), (one.SeatComfort, other.SeatComfort) })
            {
                Close(comfort.WeightedRms, same.WeightedRms, comfort.WeightedRms);
                Close(comfort.VibrationDoseValue, same.VibrationDoseValue, comfort.VibrationDoseValue);
                Close(comfort.CrestFactor ?? 0, same.CrestFactor ?? 0, 10);
            }

            Close(one.RollAnglePeak, other.RollAnglePeak, Math.Abs(one.RollAnglePeak));
            Close(one.BumpTravelPeak, other.BumpTravelPeak, one.BumpTravelPeak + one.ReboundTravelPeak);
            Close(one.ReboundTravelPeak, other.ReboundTravelPeak, one.BumpTravelPeak + one.ReboundTravelPeak);
            Assert.Equal(one.BumpStopContacts, other.BumpStopContacts);
            Assert.Equal(one.ReboundStopContacts, other.ReboundStopContacts);
            Close(one.TyreLoadMinimum, other.TyreLoadMinimum, car.Vehicle.StaticTyreLoad);
            Close(one.DynamicLoadCoefficient, other.DynamicLoadCoefficient, one.DynamicLoadCoefficient);
            Close(one.LoadTransferPeak, other.LoadTransferPeak, car.Vehicle.StaticTyreLoad);
            Assert.All(one.TyreLiftOffTimes.Zip(other.TyreLiftOffTimes), pair => Assert.Equal(pair.First, pair.Second, 1e-6));
            Close(one.DamperCompressionVelocityPeak, other.DamperCompressionVelocityPeak, one.DamperCompressionVelocityPeak);
            Close(one.DamperReboundVelocityPeak, other.DamperReboundVelocityPeak, one.DamperReboundVelocityPeak);
            Close(one.DamperEnergy, other.DamperEnergy, one.DamperEnergy);
            Close(one.RideHeightShift, other.RideHeightShift, one.BumpTravelPeak + one.ReboundTravelPeak);
            Close(one.DamperCompressionPeak, other.DamperCompressionPeak, one.BumpTravelPeak + one.ReboundTravelPeak);
            Close(one.DamperExtensionPeak, other.DamperExtensionPeak, one.BumpTravelPeak + one.ReboundTravelPeak);
            Assert.Equal(2 * (one.End - one.Start), other.DamperVelocities!.Seconds.Sum(), 1e-9);
            Close(other.DamperEnergy, other.DamperVelocities.Energy.Sum(), other.DamperEnergy);
        }

        void Close(double one, double other, double scale) => Assert.InRange(Math.Abs(one - other), 0, (admissible * scale) + 1e-9);
    }

    /// <summary>Shows a recorder the steps one by one.</summary>
    private sealed class Relay(IStepObserver recorder) : IStepObserver
    {
        public void Observe(IDenseStep step) => recorder.Observe(step);
    }
}
