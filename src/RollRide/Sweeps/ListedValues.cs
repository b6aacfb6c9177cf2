using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>Values given one by one; each is equally likely.</summary>
public sealed record ListedValues : SweptValues
{
    /// <summary>Makes the list.</summary>
    /// <param name="values">At least one, all finite, none twice.</param>
    /// <exception cref="ArgumentException">A value breaks these limits.</exception>
    public ListedValues(ImmutableArray<double> values)
    {
        if (values.IsEmpty)
            throw new ArgumentException("the list of values is empty; give at least one");
        if (values.Any(value => !double.IsFinite(value)))
            throw new ArgumentException("a value is not a finite number");
        if (values.Distinct().Count() != values.Length)
            throw new ArgumentException("a value stands in the list twice; give it once");
        Levels = values;
    }

    /// <inheritdoc/>
    public override string Words => string.Join(", ", Levels.Select(level => Text($"{level}")));

    /// <inheritdoc/>
    public override ImmutableArray<double> Levels { get; }

    /// <inheritdoc/>
    public override double Quantile(double share) => Levels[Math.Min((int)(share * Levels.Length), Levels.Length - 1)];
}
