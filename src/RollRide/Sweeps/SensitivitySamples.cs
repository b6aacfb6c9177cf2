using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Sweeps;

/// <summary>
/// The samples for Sobol's sensitivity indices: a point of sample A, one of sample B, and for each parameter the point of A with that
/// parameter from B (see <see cref="VarianceIndices"/>). A and B are the two halves of one shifted Sobol sequence of twice the
/// dimensions.
/// </summary>
public sealed class SensitivitySamples(ImmutableArray<SweepParameter> parameters, int samples, int seed) : SweepDesign(parameters)
{
    /// <summary>The most parameters: the Sobol sequence has two dimensions for each.</summary>
    public const int MostParameters = SobolSequence.MostDimensions / 2;

    private readonly SobolSequence _sequence = new(2 * parameters.Length, seed);

    /// <summary>The number of points that belong together: A, B and a mixture a parameter.</summary>
    public int BlockLength { get; } = parameters.Length + 2;

    /// <summary>The number of samples, each of a block of points.</summary>
    public int Samples => samples;

    /// <inheritdoc/>
    public override long Count => (long)samples * BlockLength;

    /// <inheritdoc/>
    public override bool IsSampled => true;

    /// <inheritdoc/>
    public override bool CountsInStatistics(long index) => index % BlockLength < 2;

    /// <inheritdoc/>
    public override void Point(long index, Span<double> values)
    {
        var (sample, place) = ((long, int))(index / BlockLength, index % BlockLength);
        Span<double> both = stackalloc double[2 * values.Length];
        _sequence.Point(sample, both);
        var a = both[..values.Length];
        var b = both[values.Length..];
        if (place == 1)
            b.CopyTo(a);
        else if (place > 1)
            a[place - 2] = b[place - 2];
        TakeQuantiles(a, values);
    }
}
