namespace RollRide.Numerics;

/// <summary>A bump <c>½ h (1 − cos 2πu/l)</c>: starts and ends at zero height with zero slope.</summary>
public sealed record HaversineShape(double Height, double Length) : ISignalShape
{
    private readonly double _wavenumber = 2 * Math.PI / Length;

    /// <summary>The height in the middle; negative for a hollow; finite.</summary>
    public double Height { get; } = Require.Finite(Height);

    /// <summary>The length from foot to foot; positive.</summary>
    public double Length { get; } = Require.Positive(Length);

    /// <inheritdoc/>
    public double Value(double u) => 0.5 * Height * (1 - Math.Cos(_wavenumber * u));

    /// <inheritdoc/>
    public double Rate(double u) => 0.5 * Height * _wavenumber * Math.Sin(_wavenumber * u);
}
