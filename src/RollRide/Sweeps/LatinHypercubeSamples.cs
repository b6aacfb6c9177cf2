using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Sweeps;

/// <summary>Samples of a Latin hypercube.</summary>
public sealed class LatinHypercubeSamples(ImmutableArray<SweepParameter> parameters, int samples, int seed) : SweepDesign(parameters)
{
    private readonly LatinHypercube _cube = new(samples, parameters.Length, seed);

    /// <inheritdoc/>
    public override long Count => _cube.Count;

    /// <inheritdoc/>
    public override bool IsSampled => true;

    /// <inheritdoc/>
    public override void Point(long index, Span<double> values)
    {
        Span<double> shares = stackalloc double[values.Length];
        _cube.Point((int)index, shares);
        TakeQuantiles(shares, values);
    }
}
