using System.Collections.Immutable;
using System.Numerics;

namespace RollRide.Numerics;

/// <summary>
/// One-sided power spectral densities of one or two signals by Welch's method: means of windowed, overlapping segments.
/// </summary>
/// <remarks>
/// P. D. Welch, The use of fast Fourier transform for the estimation of power spectra, IEEE Trans. Audio Electroacoust. 15,
/// 1967. A periodic Hann window, half overlap, and the mean of each segment taken off. The unit of a density is the signal's
/// squared over the unit of frequency (m³ for metres over cycles per metre). Immutable.
/// </remarks>
public sealed record SpectralDensity
{
    internal SpectralDensity(double resolution, int segments, double[] first, double[]? second, Complex[]? cross)
    {
        Resolution = resolution;
        Segments = segments;
        Density = [.. first];
        Second = second is null ? [] : [.. second];
        Cross = cross is null ? [] : [.. cross];
    }

    /// <summary>Distance between frequencies (Hz or cycle/m); value <c>i</c> stands at <c>i</c> times this.</summary>
    public double Resolution { get; }

    /// <summary>Number of segments averaged, overlapping by half.</summary>
    public int Segments { get; }

    /// <summary>Density of the first signal at each frequency, from 0 to half the sampling rate.</summary>
    public ImmutableArray<double> Density { get; }

    /// <summary>Density of the second signal; empty if there was none.</summary>
    public ImmutableArray<double> Second { get; }

    /// <summary>Cross-spectral density of first and second, <c>conj(X)·Y</c>; empty if there was one signal.</summary>
    public ImmutableArray<Complex> Cross { get; }

    /// <summary>Frequency of a value (Hz or cycle/m).</summary>
    /// <param name="index">Index of the value.</param>
    public double Frequency(int index) => index * Resolution;

    /// <summary>Estimates the density of one signal.</summary>
    /// <param name="samples">Samples at a constant rate.</param>
    /// <param name="rate">Sampling rate (Hz or 1/m), above 0.</param>
    /// <param name="segmentLength">Samples in a segment; even, 8 or more, at most as many as there are samples.</param>
    /// <exception cref="ArgumentException">The segment is longer than the signal, odd, or too short.</exception>
    public static SpectralDensity Of(ReadOnlySpan<double> samples, double rate, int segmentLength) =>
        Estimate(samples, [], rate, segmentLength);

    /// <summary>Estimates the densities of two signals and their cross-spectral density.</summary>
    /// <param name="first">Samples of the first.</param>
    /// <param name="second">Samples of the second; as many.</param>
    /// <param name="rate">Sampling rate (Hz or 1/m), above 0.</param>
    /// <param name="segmentLength">Samples in a segment; even, 8 or more, at most as many as there are samples.</param>
    /// <exception cref="ArgumentException">The lengths differ, or the segment does not fit.</exception>
    public static SpectralDensity Of(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double rate, int segmentLength)
    {
        if (first.Length != second.Length)
            throw new ArgumentException(FormattableString.Invariant($"The first signal has {first.Length} samples and the second {second.Length}."), nameof(second));
        return Estimate(first, second, rate, segmentLength);
    }

    /// <summary>Mean density of the first signal over a band of frequency; NaN where the band lies beyond all values.</summary>
    /// <param name="band">The band (Hz or cycle/m).</param>
    public double BandMean(FrequencyBand band) => Mean(band, i => Density[i]);

    /// <summary>Mean density of the second signal over a band of frequency; NaN where the band lies beyond all values.</summary>
    /// <param name="band">The band (Hz or cycle/m).</param>
    public double SecondBandMean(FrequencyBand band) => Mean(band, i => Second[i]);

    /// <summary>
    /// Real part of the cross-spectral density over a band, divided by the root of the product of both densities there:
    /// −1 to 1; NaN where the band lies beyond all values. Its square is the ordinary coherence if the two are in phase.
    /// </summary>
    /// <param name="band">The band (Hz or cycle/m).</param>
    public double BandCoherence(FrequencyBand band)
    {
        var (first, second) = (BandMean(band), SecondBandMean(band));
        return first > 0 && second > 0 ? Mean(band, i => Cross[i].Real) / Math.Sqrt(first * second) : double.NaN;
    }

    /// <summary>
    /// The mean over a band, in which each value counts with the part of its resolution that lies in the band (ISO 8608, smoothing of the
    /// spectral density, from memory). The value at 0 is left out: each segment's mean was taken off.
    /// </summary>
    private double Mean(FrequencyBand band, Func<int, double> value)
    {
        var (low, high) = (band.Low / Resolution, band.High / Resolution);
        double sum = 0, width = 0;
        for (var i = Math.Max(1, (int)Math.Floor(low + 0.5)); i < Math.Min(Density.Length, high + 0.5); i++)
        {
            var part = Math.Min(high, i + 0.5) - Math.Max(low, i - 0.5);
            sum += part * value(i);
            width += part;
        }

        return sum / width;
    }

    private static SpectralDensity Estimate(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double rate, int segmentLength)
    {
        if (segmentLength > first.Length)
        {
            throw new ArgumentOutOfRangeException(nameof(segmentLength), segmentLength, FormattableString.Invariant(
                $"A segment cannot have more than the {first.Length} samples of the signal."));
        }

        var accumulator = new SpectralAccumulator(rate, segmentLength, withSecond: !second.IsEmpty);
        for (var i = 0; i < first.Length; i++)
            accumulator.Add(first[i], second.IsEmpty ? 0 : second[i]);
        return accumulator.ToDensity()!;
    }
}
