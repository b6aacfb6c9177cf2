namespace RollRide.Numerics;

/// <summary>A straight line.</summary>
public sealed record LinearShape(double InitialValue, double Slope) : ISignalShape
{
    /// <summary>The value at the start of the piece; finite.</summary>
    public double InitialValue { get; } = Require.Finite(InitialValue);

    /// <summary>The slope; finite.</summary>
    public double Slope { get; } = Require.Finite(Slope);

    /// <inheritdoc/>
    public double Value(double u) => InitialValue + Slope * u;

    /// <inheritdoc/>
    public double Rate(double u) => Slope;
}
