using RollRide.Numerics;

namespace RollRide.Cornering;

/// <summary>
/// The usual cornering events as signals over time. The value is the steering-wheel angle, rad, or the lateral acceleration,
/// m/s², as the caller means it; positive is a left turn (ISO 8855). None leaves a jump.
/// </summary>
public static class CorneringEvents
{
    /// <summary>A step with a finite ramp: rises linearly from zero and holds its final value.</summary>
    /// <param name="start">Start of the ramp, s; finite.</param>
    /// <param name="rampDuration">Duration of the ramp, s; positive: a step is a short ramp.</param>
    /// <param name="value">The value held; finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of range.</exception>
    public static PiecewiseSignal Ramp(double start, double rampDuration, double value)
    {
        Require.Finite(start, "s");
        Require.Positive(rampDuration, "s");
        Require.Finite(value);
        double end = start + rampDuration;
        return new(
            new SignalPiece(start, end, new LinearShape(0, value / rampDuration)),
            new SignalPiece(end, double.PositiveInfinity, new ConstantShape(value)));
    }

    /// <summary>A number of sine periods, then zero.</summary>
    /// <param name="start">Start, s; finite.</param>
    /// <param name="frequency">Frequency, Hz; positive.</param>
    /// <param name="amplitude">Amplitude; finite; negative to begin to the right.</param>
    /// <param name="cycles">Number of whole periods; 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of range.</exception>
    public static PiecewiseSignal Sine(double start, double frequency, double amplitude, int cycles)
    {
        Require.Finite(start, "s");
        Require.Positive(frequency, "Hz");
        Require.Finite(amplitude);
        ArgumentOutOfRangeException.ThrowIfLessThan(cycles, 1);
        return new(new SignalPiece(start, start + cycles / frequency, new SineShape(amplitude, 1 / frequency, 0)));
    }

    /// <summary>One sine period that is held at its second peak for a while and then completed.</summary>
    /// <remarks>The form of the electronic-stability-control test, usually 0.7 Hz and 0.5 s (common practice, no source).</remarks>
    /// <param name="start">Start, s; finite.</param>
    /// <param name="frequency">Frequency of the sine, Hz; positive.</param>
    /// <param name="amplitude">Amplitude; finite; the first peak has its sign, the second the opposite.</param>
    /// <param name="dwell">How long the second peak is held, s; positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of range.</exception>
    public static PiecewiseSignal SineWithDwell(double start, double frequency, double amplitude, double dwell)
    {
        Require.Finite(start, "s");
        Require.Positive(frequency, "Hz");
        Require.Finite(amplitude);
        Require.Positive(dwell, "s");
        double period = 1 / frequency, secondPeak = start + 0.75 * period, release = secondPeak + dwell;
        return new(
            new SignalPiece(start, secondPeak, new SineShape(amplitude, period, 0)),
            new SignalPiece(secondPeak, release, new ConstantShape(-amplitude)),
            new SignalPiece(release, release + 0.25 * period, new SineShape(amplitude, period, 1.5 * Math.PI)));
    }

    /// <summary>
    /// A sine whose frequency runs linearly with time over a whole number of cycles, then zero. It lasts the number of cycles
    /// over the mean frequency.
    /// </summary>
    /// <param name="start">Start, s; finite.</param>
    /// <param name="startFrequency">Frequency at the start, Hz; positive.</param>
    /// <param name="endFrequency">Frequency at the end, Hz; positive; lower than at the start if wanted.</param>
    /// <param name="amplitude">Amplitude; finite.</param>
    /// <param name="cycles">Number of whole cycles; 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of range.</exception>
    public static PiecewiseSignal SweptSine(double start, double startFrequency, double endFrequency, double amplitude, int cycles)
    {
        Require.Finite(start, "s");
        Require.Positive(startFrequency, "Hz");
        Require.Positive(endFrequency, "Hz");
        Require.Finite(amplitude);
        ArgumentOutOfRangeException.ThrowIfLessThan(cycles, 1);
        double duration = cycles / (0.5 * (startFrequency + endFrequency));
        return new(new SignalPiece(start, start + duration, new SweptSineShape(amplitude, startFrequency, endFrequency, duration)));
    }

    /// <summary>
    /// A recorded signal: monotone cubic between samples. It holds its first value before the first sample and its last value
    /// after the last, so that an offset of the record makes no jump.
    /// </summary>
    /// <param name="times">Times of the samples, s: two or more, finite, strictly ascending.</param>
    /// <param name="values">The value at each time; finite, as many as times.</param>
    /// <exception cref="ArgumentException">The samples are too few, not finite, not ascending, or not as many.</exception>
    public static PiecewiseSignal Sampled(IReadOnlyList<double> times, IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(times);
        ArgumentNullException.ThrowIfNull(values);
        double first = times.Count > 0 ? times[0] : 0;
        var shape = new SampledShape([.. times.Select(t => t - first)], values);
        var pieces = new List<SignalPiece> { new(first, times[^1], shape) };
        if (values[0] != 0) pieces.Add(new(double.NegativeInfinity, first, new ConstantShape(values[0])));
        if (values[^1] != 0) pieces.Add(new(times[^1], double.PositiveInfinity, new ConstantShape(values[^1])));
        return new(pieces);
    }
}
