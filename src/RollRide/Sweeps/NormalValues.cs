using System.Collections.Immutable;
using MathNet.Numerics.Distributions;

namespace RollRide.Sweeps;

/// <summary>Normally distributed values.</summary>
public sealed record NormalValues : SweptValues
{
    private readonly double _mean;
    private readonly double _deviation;

    /// <summary>Makes the distribution.</summary>
    /// <param name="mean">Mean.</param>
    /// <param name="deviation">Standard deviation, above 0.</param>
    /// <exception cref="ArgumentException">A value breaks these limits.</exception>
    public NormalValues(double mean, double deviation)
    {
        if (!double.IsFinite(mean) || !(double.IsFinite(deviation) && deviation > 0))
            throw new ArgumentException(FormattableString.Invariant($"a normal distribution needs a finite mean and a deviation above 0, not {mean} and {deviation}"));
        (_mean, _deviation) = (mean, deviation);
    }

    /// <inheritdoc/>
    public override string Words => Text($"normal, mean {_mean}, deviation {_deviation}");

    /// <inheritdoc/>
    public override ImmutableArray<double> Levels => [];

    /// <inheritdoc/>
    public override ImmutableArray<double> OneAtATimeLevels => Tails;

    /// <inheritdoc/>
    public override double Quantile(double share) => Normal.InvCDF(_mean, _deviation, share);
}
