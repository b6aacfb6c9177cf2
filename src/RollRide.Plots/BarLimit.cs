namespace RollRide.Plots;

/// <summary>A limit that the bars of one category should keep.</summary>
/// <param name="Category">The category, counted from 0.</param>
/// <param name="Value">The limit, in the axis' unit.</param>
public sealed record BarLimit(int Category, double Value)
{
    /// <summary>The limit, in the axis' unit.</summary>
    public double Value { get; } = double.IsFinite(Value) ? Value : throw new ArgumentOutOfRangeException(nameof(Value), Value, "The limit must be finite.");
}
