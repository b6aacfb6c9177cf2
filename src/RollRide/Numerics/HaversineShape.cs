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
    public double Value(double u) => At(u).Value;

    /// <inheritdoc/>
    public double Rate(double u) => At(u).Rate;

    /// <inheritdoc/>
    public (double Value, double Rate) At(double u)
    {
        var (sin, cos) = Math.SinCos(_wavenumber * u);
        return (0.5 * Height * (1 - cos), 0.5 * Height * _wavenumber * sin);
    }
}
