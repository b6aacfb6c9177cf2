namespace RollRide.Numerics;

/// <summary>
/// A sine whose frequency runs linearly from one value to another: <c>A sin 2π(f₀u + ½(f₁ − f₀)u²/d)</c>. It ends at zero
/// only if the duration holds a whole number of cycles, <c>d (f₀ + f₁)/2</c>.
/// </summary>
public sealed record SweptSineShape(double Amplitude, double StartFrequency, double EndFrequency, double Duration) : ISignalShape
{
    /// <summary>The amplitude; finite.</summary>
    public double Amplitude { get; } = Require.Finite(Amplitude);

    /// <summary>The frequency at the start of the piece, cycles per unit of the variable; positive.</summary>
    public double StartFrequency { get; } = Require.Positive(StartFrequency);

    /// <summary>The frequency at the end of the duration, cycles per unit of the variable; positive.</summary>
    public double EndFrequency { get; } = Require.Positive(EndFrequency);

    /// <summary>The duration, or length, over which the frequency runs; positive.</summary>
    public double Duration { get; } = Require.Positive(Duration);

    /// <inheritdoc/>
    public double Value(double u) =>
        Amplitude * Math.Sin(2 * Math.PI * u * (StartFrequency + 0.5 * (EndFrequency - StartFrequency) * u / Duration));

    /// <inheritdoc/>
    public double Rate(double u)
    {
        double cycles = u * (StartFrequency + 0.5 * (EndFrequency - StartFrequency) * u / Duration);
        double frequency = StartFrequency + (EndFrequency - StartFrequency) * u / Duration;
        return Amplitude * 2 * Math.PI * frequency * Math.Cos(2 * Math.PI * cycles);
    }
}
