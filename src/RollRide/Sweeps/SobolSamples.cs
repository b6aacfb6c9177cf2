using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Sweeps;

/// <summary>Samples of a shifted Sobol sequence.</summary>
public sealed class SobolSamples(ImmutableArray<SweepParameter> parameters, int samples, int seed) : SweepDesign(parameters)
{
    private readonly SobolSequence _sequence = new(parameters.Length, seed);

    /// <inheritdoc/>
    public override long Count => samples;

    /// <inheritdoc/>
    public override bool IsSampled => true;

    /// <inheritdoc/>
    public override void Point(long index, Span<double> values)
    {
        Span<double> shares = stackalloc double[values.Length];
        _sequence.Point(index, shares);
        TakeQuantiles(shares, values);
    }
}
