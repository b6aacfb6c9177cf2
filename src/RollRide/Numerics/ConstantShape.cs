namespace RollRide.Numerics;

/// <summary>A constant value.</summary>
public sealed record ConstantShape(double Level) : ISignalShape
{
    /// <summary>The value everywhere; finite.</summary>
    public double Level { get; } = Require.Finite(Level);

    /// <inheritdoc/>
    public double Value(double u) => Level;

    /// <inheritdoc/>
    public double Rate(double u) => 0;
}
