using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>Levels from one value to another in equal steps or in equal ratios; between them every value, or its logarithm, is equally likely.</summary>
public sealed record RangeOfValues : SweptValues
{
    private readonly double _from;
    private readonly double _to;

    /// <summary>Makes the range.</summary>
    /// <param name="from">First level.</param>
    /// <param name="to">Last level, above the first.</param>
    /// <param name="count">Number of levels, at least 2.</param>
    /// <param name="logarithmic">Whether in equal ratios; both ends are then above 0.</param>
    /// <exception cref="ArgumentException">A value breaks these limits.</exception>
    public RangeOfValues(double from, double to, int count, bool logarithmic = false)
    {
        RequireRange(from, to);
        if (count < 2)
            throw new ArgumentException(FormattableString.Invariant($"a range needs at least 2 levels, not {count}"));
        if (logarithmic && from <= 0)
            throw new ArgumentException(FormattableString.Invariant($"a logarithmic range starts above 0, not at {from}"));
        (_from, _to, IsLogarithmic) = (from, to, logarithmic);
        Levels = [.. Enumerable.Range(0, count).Select(i => i == count - 1 ? to : At((double)i / (count - 1)))];
    }

    /// <inheritdoc/>
    public override string Words => Text($"{_from} to {_to} in {Levels.Length} levels at equal {(IsLogarithmic ? "ratios" : "steps")}");

    /// <inheritdoc/>
    public override ImmutableArray<double> Levels { get; }

    /// <inheritdoc/>
    public override bool IsLogarithmic { get; }

    /// <inheritdoc/>
    public override double Quantile(double share) => At(share);

    private double At(double share) => IsLogarithmic ? _from * Math.Pow(_to / _from, share) : _from + ((_to - _from) * share);
}
