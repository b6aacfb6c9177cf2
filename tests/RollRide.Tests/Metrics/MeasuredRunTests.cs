using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Mounting;
using RollRide.Tests.Numerics;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Metrics;

public sealed class MeasuredRunTests
{
    [Theory]
    [InlineData("ratios")]
    [InlineData("mounts, gas, friction, stops")]
    [InlineData("top mount")]
    [InlineData("duals")]
    [InlineData("arm")]
    public void Make_AnyStep_AllocatesNothing(string name)
    {
        // After 10 s all is as good as at rest, so that hardly a peak or crossing is left to be searched.
        AssertAllocatesNothing(Find(name), duration => BumpThenTurn(RoadSide.Left, 0.05, 3, duration), 10, 400);
    }

    [Fact]
    public void Make_LinkageAndStopsOfAnyPower_AllocatesNothing()
    {
        var vehicle = Independent with
        {
            Track = 2 * ReferenceLinkages.HalfTrack,
            Spring = new Spring(new LinearSpring(60e3), ReferenceLinkages.Fittings[0]),
            BumpStop = new TravelStop { Clearance = 0.01, Stiffness = 3e6, Exponent = 1.7, Fitting = ReferenceLinkages.Fittings[3] },
        };
        AssertAllocatesNothing(new(vehicle, Layout(ReferenceLinkages.Fittings[4], RealDamper)), duration => BumpThenTurn(RoadSide.Left, 0.05, 3, duration), 10, 400);
    }

    [Fact]
    public void Make_OnARandomRoad_AllocatesNothing()
    {
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.A), Coherence = TrackCoherence.Isotropic(1.5), Seed = 1 };
        AssertAllocatesNothing(Find("duals"), duration => Free(duration) with { Road = Road.Flat(20) with { Unevenness = road } }, 6, 400, ofRoad: 30_000);
    }

    private static void AssertAllocatesNothing(AssembledHalfCar car, Func<double, Manoeuvre> manoeuvre, double duration, long atLeast, long ofRoad = 0)
    {
        var (shortRun, longRun) = (manoeuvre(duration), manoeuvre(duration + 10));
        var steps = Steps(longRun) - Steps(shortRun);
        Assert.True(steps > atLeast);

        // An object takes 24 bytes at least: were there one a step, or one in four, it would show. A search now and then may leave its own.
        // A block of random road, one in some hundred metres, takes memory for its transform.
        Assert.InRange(Allocation.Of(() => Measured(longRun)) - Allocation.Of(() => Measured(shortRun)), long.MinValue, (6 * steps) + ofRoad);

        long Steps(Manoeuvre manoeuvre) => Measured(manoeuvre).Statistics!.AcceptedSteps;

        MeasuredRun Measured(Manoeuvre manoeuvre) => new MeasuredRun(car, manoeuvre, new IntegratorOptions { RelativeTolerance = 1e-6, AbsoluteTolerance = 1e-8 }, withCorner: false).Make(TestContext.Current.CancellationToken);
    }
}
