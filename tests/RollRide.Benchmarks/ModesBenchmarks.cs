using BenchmarkDotNet.Attributes;
using RollRide.Dynamics;
using RollRide.Modes;

namespace RollRide.Benchmarks;

/// <summary>The natural modes of one layout of the reference case: linearised, and followed from the undamped vehicle to its damping.</summary>
/// <remarks><code>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter "*Modes*"</code></remarks>
[MemoryDiagnoser]
public class ModesBenchmarks
{
    private readonly double _coefficient = ReferenceCase.Mounts.Layout.Damper.EquivalentCoefficient(0.1);

    /// <summary>Names, frequencies and damping ratios of heave, roll, hop and tramp.</summary>
    [Benchmark]
    public ModeSet Modes() => ModeFollower.Solve(LinearHalfCar.AtRest(ReferenceCase.Mounts), _coefficient);
}
