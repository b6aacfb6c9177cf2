using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>Evenly distributed values.</summary>
public sealed record UniformValues : SweptValues
{
    private readonly double _from;
    private readonly double _to;

    /// <summary>Makes the distribution.</summary>
    /// <param name="from">Lowest value.</param>
    /// <param name="to">Highest value, above the lowest.</param>
    /// <exception cref="ArgumentException">The range is empty.</exception>
    public UniformValues(double from, double to)
    {
        RequireRange(from, to);
        (_from, _to) = (from, to);
    }

    /// <inheritdoc/>
    public override string Words => Text($"uniform from {_from} to {_to}");

    /// <inheritdoc/>
    public override ImmutableArray<double> Levels => [];

    /// <inheritdoc/>
    public override ImmutableArray<double> OneAtATimeLevels => Tails;

    /// <inheritdoc/>
    public override double Quantile(double share) => _from + ((_to - _from) * share);
}
