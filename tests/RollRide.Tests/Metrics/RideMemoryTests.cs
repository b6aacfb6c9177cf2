using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Modes;

namespace RollRide.Tests.Metrics;

/// <summary>Runs alone: what other tests allocate meanwhile would count.</summary>
[CollectionDefinition(nameof(RideMemoryTests), DisableParallelization = true)]
[Collection(nameof(RideMemoryTests))]
public class RideMemoryTests
{
    [Fact]
    public void Memory_DoesNotGrowWithTheLengthOfTheRun()
    {
        // What is held after a run of twice the length is the same but for small change; a minute of history would hold 13 MB.
        Held(20); // what the runtime itself allocates once

        // The whole process is measured, so what the test host allocates or frees meanwhile counts too: a run that grew would do so every time.
        var growth = Enumerable.Range(0, 3).Select(_ => Held(120) - Held(60)).MinBy(Math.Abs);
        Assert.InRange(growth, -500_000, 500_000);
    }

    private static long Held(double duration)
    {
        var car = LinearVehicles.Independent(750, 300, 0.70, 75, 35e3, 193e3, 2000, 12_000);
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.4), Seed = 1 };
        var manoeuvre = new Manoeuvre
        {
            Road = Road.Flat(20) with { Unevenness = road },
            Cornering = GivenLateralAcceleration.StraightAhead,
            Duration = duration,
        };
        var run = new MeasuredRun(car, manoeuvre, new IntegratorOptions { RelativeTolerance = 1e-3, AbsoluteTolerance = 1e-5 });
        var before = GC.GetTotalMemory(true);
        run.Make(TestContext.Current.CancellationToken);
        var after = GC.GetTotalMemory(true);
        GC.KeepAlive(run);
        return after - before;
    }
}
