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

    /// <summary>Mean density of the first signal over a band of frequency; NaN where no value lies in it.</summary>
    /// <param name="band">The band (Hz or cycle/m).</param>
    public double BandMean(FrequencyBand band) => Mean(Density, band);

    /// <summary>Mean density of the second signal over a band of frequency; NaN where no value lies in it.</summary>
    /// <param name="band">The band (Hz or cycle/m).</param>
    public double SecondBandMean(FrequencyBand band) => Mean(Second, band);

    /// <summary>
    /// Real part of the cross-spectral density over a band, divided by the root of the product of both densities there:
    /// −1 to 1; NaN where no value lies in the band. Its square is the ordinary coherence if the two are in phase.
    /// </summary>
    /// <param name="band">The band (Hz or cycle/m).</param>
    public double BandCoherence(FrequencyBand band)
    {
        var (from, to) = Range(band);
        if (from > to) return double.NaN;
        double cross = 0, first = 0, second = 0;
        for (var i = from; i <= to; i++)
        {
            cross += Cross[i].Real;
            first += Density[i];
            second += Second[i];
        }

        return first > 0 && second > 0 ? cross / Math.Sqrt(first * second) : double.NaN;
    }

    private double Mean(ImmutableArray<double> density, FrequencyBand band)
    {
        var (from, to) = Range(band);
        return from > to ? double.NaN : Enumerable.Range(from, to - from + 1).Average(i => density[i]);
    }

    /// <summary>The values in a band, its upper end excluded so that bands side by side share none.</summary>
    private (int From, int To) Range(FrequencyBand band) => (
        Math.Max(1, (int)Math.Ceiling((band.Low / Resolution) - 1e-9)),
        Math.Min(Density.Length - 1, (int)Math.Ceiling((band.High / Resolution) - 1e-9) - 1));

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
