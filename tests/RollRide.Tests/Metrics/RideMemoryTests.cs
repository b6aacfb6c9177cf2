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
        // What is held after a run of twice the length is the same but for small change; the history of half of it would hold 5 MB.
        Held(5); // what the runtime itself allocates once

        // The whole process is measured, so what the test host allocates or frees meanwhile counts too: a run that grew would do so every time.
        var growth = Enumerable.Range(0, 3).Select(_ => Held(50) - Held(25)).MinBy(Math.Abs);
        Assert.InRange(growth, -500_000, 500_000);
    }

    [Fact]
    public void Memory_of_a_recorded_run_that_has_a_spool_does_not_grow_with_its_length()
    {
        long Recorded(double duration)
        {
            TimeHistory? history = null;
            TimeHistoryRecorder? recorder = null;
            var held = Held(duration, equations => recorder = new TimeHistoryRecorder(equations, duration, 8000, spool: () => new Nowhere()), () => history = recorder!.ToHistory());
            GC.KeepAlive(history);
            return held;
        }

        Recorded(5);

        // Two and four blocks; a block of all channels takes 15 MB.
        var growth = Enumerable.Range(0, 2).Select(_ => Recorded(16) - Recorded(8)).MinBy(Math.Abs);
        Assert.InRange(growth, -500_000, 500_000);
    }

    private sealed class Nowhere : IHistorySpool
    {
        public void Append(ReadOnlySpan<double> values)
        {
        }

        public void Read(long first, Span<double> values) => throw new NotSupportedException();
    }

    private static long Held(double duration, Func<HalfCarEquations, IStepObserver>? observer = null, Action? end = null)
    {
        var car = LinearVehicles.Independent(750, 300, 0.70, 75, 35e3, 193e3, 2000, 12_000);
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.4), Seed = 1 };
        var manoeuvre = new Manoeuvre
        {
            Road = Road.Flat(20) with { Unevenness = road },
            Cornering = GivenLateralAcceleration.StraightAhead,
            Duration = duration,
        };
        var run = new MeasuredRun(car, manoeuvre, new IntegratorOptions { RelativeTolerance = 1e-3, AbsoluteTolerance = 1e-5 }) { Observer = observer };
        var before = GC.GetTotalMemory(true);
        run.Make(TestContext.Current.CancellationToken);
        end?.Invoke();
        var after = GC.GetTotalMemory(true);
        GC.KeepAlive(run);
        return after - before;
    }
}
