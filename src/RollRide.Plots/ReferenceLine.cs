namespace RollRide.Plots;

/// <summary>A straight line across a panel that says what a value is to be compared with.</summary>
/// <param name="Value">Where it crosses its axis, in the axis' unit.</param>
/// <param name="Label">What it stands for; "" for none.</param>
/// <param name="Vertical">Whether it stands on the horizontal axis; otherwise it crosses the vertical one.</param>
public sealed record ReferenceLine(double Value, string Label, bool Vertical = false)
{
    /// <summary>Where it crosses its axis, in the axis' unit.</summary>
    public double Value { get; } = double.IsFinite(Value) ? Value : throw new ArgumentOutOfRangeException(nameof(Value), Value, $"The line “{Label}” must be at a finite value.");
}
