using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>The values that a parameter takes: levels, a distribution, or both.</summary>
public abstract record SweptValues
{
    /// <summary>What they are, in words.</summary>
    public abstract string Words { get; }

    /// <summary>The levels of a full factorial, in order; empty for a distribution, which has none.</summary>
    public abstract ImmutableArray<double> Levels { get; }

    /// <summary>The levels tried one at a time: all levels, or the 5 % and 95 % points of a distribution.</summary>
    public virtual ImmutableArray<double> OneAtATimeLevels => Levels;

    /// <summary>Whether a range in equal ratios, to be drawn on a logarithmic axis.</summary>
    public virtual bool IsLogarithmic => false;

    /// <summary>The value below which a share of all values lies.</summary>
    /// <param name="share">The share, between 0 and 1, both excluded.</param>
    public abstract double Quantile(double share);

    private protected static string Text(FormattableString text) => FormattableString.Invariant(text);

    private protected ImmutableArray<double> Tails => [Quantile(0.05), Quantile(0.95)];

    private protected static void RequireRange(double from, double to)
    {
        if (!(double.IsFinite(from) && double.IsFinite(to) && from < to))
            throw new ArgumentException(FormattableString.Invariant($"the range from {from} to {to} is empty; the second number must be above the first"));
    }
}
