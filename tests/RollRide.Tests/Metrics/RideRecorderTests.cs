using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Modes;

namespace RollRide.Tests.Metrics;

public class RideRecorderTests
{
    // A linear half car with independent wheels.
    private static readonly AssembledHalfCar Car = LinearVehicles.Independent(750, 300, 0.70, 75, 35e3, 193e3, 2000, 12_000);

    private static RandomRoad ClassA(int seed = 1) => new()
    {
        Spectrum = RoughnessSpectrum.Of(RoadClass.A),
        Coherence = TrackCoherence.Isotropic(1.4),
        Seed = seed,
    };

    private static Manoeuvre Straight(RandomRoad road, double duration) => new()
    {
        Road = Road.Flat(20) with { Unevenness = road },
        Cornering = GivenLateralAcceleration.StraightAhead,
        Duration = duration,
    };

    private static (RideMetrics Ride, RunMetrics Metrics) Drive(Manoeuvre manoeuvre, double tolerance = 1e-4)
    {
        var options = new IntegratorOptions { RelativeTolerance = tolerance, AbsoluteTolerance = 1e-2 * tolerance };
        var run = new MeasuredRun(Car, manoeuvre, options).Make(TestContext.Current.CancellationToken);
        return (run.Ride!, run.Metrics);
    }

    [Fact]
    public void ALongSimulation_HasTheMeanSquaresOfTheLinearTheory()
    {
        // The linear theory is itself held against closed forms. Standard error of a mean square: about 1/√(Be T), Be the effective
        // bandwidth of the response: at least half the bandwidth πζf·2 of its lowest mode, 1 Hz, and of travel on long waves 0.5 Hz.
        // 200 s: 7 % in the mean square, 3.5 % in the root; 10 % in travel, 5 %. Three of those are allowed.
        const double Duration = 200;
        var (ride, _) = Drive(Straight(ClassA(), Duration));
        var linear = new RandomResponse(Car, 2000).OnRoad(ClassA(), 20);
        const double Error = 3 * 0.035, TravelError = 3 * 0.05;
        Assert.Equal(1, ride.BodyAccelerationRms / linear.BodyAcceleration, Error);
        Assert.Equal(1, ride.RollAccelerationRms / linear.RollAcceleration, Error);
        Assert.Equal(1, ride.DamperVelocityRms / linear.DamperVelocity, Error);
        Assert.Equal(1, ride.DynamicLoadCoefficient * ride.Loads[0].Static / linear.TyreLoad, Error);
        Assert.Equal(1, ride.WheelTravelRms / linear.WheelTravel, TravelError);

        // A linear damper of coefficient c turns c v² into heat, left and right together; samples of both are the same ones.
        Assert.Equal(2000 * Math.Pow(ride.DamperVelocityRms, 2), ride.DamperPower.Average(), 1e-9 * ride.DamperPower.Average());

        // A Gaussian load: 1 % of the time below −2.326 deviations; a tail of some hundred independent values, 10 % of a deviation.
        var load = ride.Loads[0];
        Assert.Equal(load.Static * (1 - (2.326 * load.DynamicLoadCoefficient)), load.ExceededMostOfTheTime, 0.3 * load.DynamicLoadCoefficient * load.Static);

        // Parseval: the density adds up to the mean square, but for the window's ends.
        var density = ride.BodyAccelerationDensity!;
        Assert.Equal(1, density.Density.Sum() * density.Resolution / Math.Pow(ride.BodyAccelerationRms, 2), 0.05);

        // Time in the histogram is the time of both dampers, energy is their power over that time.
        Assert.Equal(2 * ride.Duration, ride.DamperVelocities.Seconds.Sum(), 1e-6);
        Assert.Equal(ride.DamperPower.Sum() * ride.Duration, ride.DamperVelocities.Energy.Sum(), 1e-6 * ride.DamperPower.Sum() * ride.Duration);
        Assert.Equal(1, ride.WheelTravel.Shares.Sum(), 1e-9);

        // 20 m of lead-in at 20 m/s, then 3 s to settle.
        Assert.Equal(Duration - 4, ride.Duration, 0.01);
        Assert.Equal(20 * ride.Duration, ride.Distance, 1e-9);
    }

    [Fact]
    public void Samples_GiveWhatTheContinuousIntegralsGive()
    {
        var manoeuvre = Straight(ClassA(), 40) with { Phases = [new Phase("ride", 4, 40)] };
        var (ride, metrics) = Drive(manoeuvre);
        var phase = metrics.Phases[0];

        // 640 samples a second against Gauss–Lobatto on every step: both see the same continuous solution, with content below 60 Hz.
        Assert.Equal(phase.BodyAccelerationRms, ride.BodyAccelerationRms, 1e-3 * phase.BodyAccelerationRms);
        Assert.Equal(phase.RollAccelerationRms, ride.RollAccelerationRms, 1e-3 * phase.RollAccelerationRms);
        Assert.Equal(phase.DynamicLoadCoefficient, ride.DynamicLoadCoefficient, 1e-3 * phase.DynamicLoadCoefficient);
        Assert.Equal(phase.DamperEnergy, ride.DamperPower.Sum() * 36, 2e-3 * phase.DamperEnergy);

        // The weighted value, over the same span of time.
        Assert.Equal(phase.BodyWeightedRms, ride.Seats[0].Vertical.Rms, 5e-3 * phase.BodyWeightedRms);
    }

    [Fact]
    public void Tolerance_OfARandomRun_DoesNotShowInItsFigures()
    {
        var (coarse, _) = Drive(Straight(ClassA(), 30), 1e-4);
        var (fine, _) = Drive(Straight(ClassA(), 30), 1e-7);
        Assert.Equal(fine.BodyAccelerationRms, coarse.BodyAccelerationRms, 2e-4 * fine.BodyAccelerationRms);
        Assert.Equal(fine.DynamicLoadCoefficient, coarse.DynamicLoadCoefficient, 2e-4 * fine.DynamicLoadCoefficient);
    }

    private static Manoeuvre IntoACorner(double start, double duration) => Straight(ClassA(), duration) with
    {
        Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(start, 0.3, 4)),
    };

    [Fact]
    public void ACorner_EndsTheRide_WhichIsThatOfAStraightRunUpToIt()
    {
        var (ride, _) = Drive(IntoACorner(13, 20), 1e-6);
        var (straight, _) = Drive(Straight(ClassA(), 13), 1e-6);

        // Both meet the same road; only the solver's steps may differ, by its tolerance over thousands of samples.
        Assert.Equal((4, straight.Duration), (ride.Start, ride.Duration));
        Assert.Equal(straight.DynamicLoadCoefficient, ride.DynamicLoadCoefficient, 1e-4 * straight.DynamicLoadCoefficient);
        Assert.Equal(straight.BodyAccelerationRms, ride.BodyAccelerationRms, 1e-4 * straight.BodyAccelerationRms);
        Assert.Equal(straight.WheelTravelRms, ride.WheelTravelRms, 1e-4 * straight.WheelTravelRms);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2.5)]
    [InlineData(4)]
    public void ACornerBeforeTheRideHasSettled_LeavesNoRide(double start)
    {
        var manoeuvre = IntoACorner(start, 20);
        Assert.Null(RideRecorder.MeasuredSpan(manoeuvre));
        Assert.Throws<ArgumentException>(() => new RideRecorder(Car, manoeuvre));
    }

    [Fact]
    public void ALongLeadIn_IsNotMeasured()
    {
        // 400 m at 20 m/s grow for 20 s. The same seed makes the same road at every place: with a short lead-in and a phase over the
        // same time the other recorder must find the same, but for what is left after 3 s of the different way there.
        var (ride, _) = Drive(Straight(ClassA() with { LeadIn = 400 }, 50));
        var (_, metrics) = Drive(Straight(ClassA(), 50) with { Phases = [new Phase("ride", 23, 50)] });
        Assert.Equal(23, ride.Start);
        Assert.Equal(metrics.Phases[0].BodyAccelerationRms, ride.BodyAccelerationRms, 2e-3 * ride.BodyAccelerationRms);
        Assert.Equal(metrics.Phases[0].DynamicLoadCoefficient, ride.DynamicLoadCoefficient, 2e-3 * ride.DynamicLoadCoefficient);
    }

    [Fact]
    public void ALeadInLongerThanTheRun_LeavesNoRide() =>
        Assert.Null(RideRecorder.MeasuredSpan(Straight(ClassA() with { LeadIn = 400 }, 20)));

    [Fact]
    public void ASeatOffTheMiddle_FeelsRoll()
    {
        var manoeuvre = Straight(ClassA(), 20);
        var run = new MeasuredRun(Car, manoeuvre, new IntegratorOptions { RelativeTolerance = 1e-4, AbsoluteTolerance = 1e-6 })
        {
            Seats = [new("middle", 0, 0), new("left", 0.5, 0.3), new("high", 0, 0.6)],
        };
        var seats = run.Make(TestContext.Current.CancellationToken).Ride!.Seats;
        Assert.True(seats[1].Vertical.Rms > seats[0].Vertical.Rms);
        Assert.Equal(0, seats[0].Lateral.Rms, 1e-12);

        // Lateral acceleration grows in proportion to the height above the roll axis.
        Assert.Equal(2 * seats[1].Lateral.Rms, seats[2].Lateral.Rms, 1e-9);
        Assert.Equal(seats[0].Roll.Rms, seats[2].Roll.Rms, 1e-12);
        Assert.Equal(
            Math.Sqrt(Math.Pow(seats[2].Vertical.Rms, 2) + Math.Pow(seats[2].Lateral.Rms, 2) + Math.Pow(0.63 * seats[2].Roll.Rms, 2)), seats[2].Total, 1e-12);
    }
}
