namespace RollRide.Numerics;

/// <summary>A sine <c>A sin(2πu/p + φ)</c>.</summary>
public sealed record SineShape(double Amplitude, double Period, double Phase) : ISignalShape
{
    private readonly double _wavenumber = 2 * Math.PI / Period;

    /// <summary>The amplitude; finite.</summary>
    public double Amplitude { get; } = Require.Finite(Amplitude);

    /// <summary>The period, or wavelength; positive.</summary>
    public double Period { get; } = Require.Positive(Period);

    /// <summary>The phase at the start of the piece, rad; finite.</summary>
    public double Phase { get; } = Require.Finite(Phase, "rad");

    /// <inheritdoc/>
    public double Value(double u) => Amplitude * Math.Sin(_wavenumber * u + Phase);

    /// <inheritdoc/>
    public double Rate(double u) => Amplitude * _wavenumber * Math.Cos(_wavenumber * u + Phase);
}
