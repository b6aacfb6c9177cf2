using System.Collections.Immutable;
using MathNet.Numerics.Distributions;

namespace RollRide.Sweeps;

/// <summary>Values of a triangular distribution.</summary>
public sealed record TriangularValues : SweptValues
{
    private readonly double _from;
    private readonly double _mode;
    private readonly double _to;

    /// <summary>Makes the distribution.</summary>
    /// <param name="from">Lowest value.</param>
    /// <param name="mode">Most likely value, from the lowest to the highest.</param>
    /// <param name="to">Highest value, above the lowest.</param>
    /// <exception cref="ArgumentException">A value breaks these limits.</exception>
    public TriangularValues(double from, double mode, double to)
    {
        RequireRange(from, to);
        if (!(mode >= from && mode <= to))
            throw new ArgumentException(FormattableString.Invariant($"the most likely value {mode} is not from {from} to {to}"));
        (_from, _mode, _to) = (from, mode, to);
    }

    /// <inheritdoc/>
    public override string Words => Text($"triangular from {_from} over {_mode} to {_to}");

    /// <inheritdoc/>
    public override ImmutableArray<double> Levels => [];

    /// <inheritdoc/>
    public override ImmutableArray<double> OneAtATimeLevels => Tails;

    /// <inheritdoc/>
    public override double Quantile(double share) => Triangular.InvCDF(_from, _to, _mode, share);
}
