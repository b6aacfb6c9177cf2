using System.Collections.Immutable;
using MathNet.Numerics;
using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>The spectrum of a profile in third-octave bands, the straight line through it, and the class that follows.</summary>
/// <remarks>
/// The density is the mean of both tracks in third-octave bands; ISO 8608 smooths the same way, in octaves, thirds and twelfths.
/// Wavelengths longer than half a segment are not resolved and left out.
/// </remarks>
public sealed record MeasuredSpectrum
{
    private const int SegmentsAtLeast = 7;
    private const int ShortestSegment = 32;
    private const int FewestBands = 5;

    // A Hann window spreads each wave over its neighbours, which lifts a band of two bins on a slope of 2 by 2 % and one of four by 0.4 %.
    private const int BinsInNarrowestBand = 4;
    private const int BinsAtLeast = 2;

    private MeasuredSpectrum()
    {
    }

    /// <summary>Third-octave bands of spatial frequency, cycle/m.</summary>
    public required ImmutableArray<FrequencyBand> Bands { get; init; }

    /// <summary>Displacement density of the left track in each band, m³.</summary>
    public required ImmutableArray<double> Left { get; init; }

    /// <summary>Displacement density of the right track in each band, m³.</summary>
    public required ImmutableArray<double> Right { get; init; }

    /// <summary><c>γ</c> of the two tracks in each band.</summary>
    public required ImmutableArray<double> Coherence { get; init; }

    /// <summary>Displacement density at <c>n0</c> on the straight line fitted in log–log, m³.</summary>
    public required double ReferenceDensity { get; init; }

    /// <summary>Waviness <c>w</c> of that line.</summary>
    public required double Waviness { get; init; }

    /// <summary>Displacement density at <c>n0</c> of the line with the standard's w = 2, m³: what the class is read from.</summary>
    public required double ClassDensity { get; init; }

    /// <summary>Root mean square departure of the bands from the fitted line, in decibels.</summary>
    public required double FitDeviationDb { get; init; }

    /// <summary>Class of ISO 8608, from the line with w = 2.</summary>
    public RoadClass Class => RoadClasses.Of(ClassDensity);

    /// <summary>The longest wavelength resolved, m.</summary>
    public double LongestWavelength => 1 / Bands[0].Low;

    /// <summary>Density of the fitted line, m³.</summary>
    /// <param name="wavenumber">Spatial frequency, cycle/m.</param>
    public double Line(double wavenumber) => ReferenceDensity * Math.Pow(wavenumber / RoadClasses.ReferenceWavenumber, -Waviness);

    /// <summary>Takes the spectrum of a profile over the part of a band that it resolves.</summary>
    /// <param name="profile">The profile; its gradient is taken off here.</param>
    /// <param name="low">Lower end of the band asked for, cycle/m.</param>
    /// <param name="high">Upper end of the band asked for, cycle/m; limited to what the spacing shows.</param>
    /// <param name="whyNone">Why there is none, in a sentence; null where there is one.</param>
    /// <returns>The spectrum; null where the profile is too short for one.</returns>
    /// <exception cref="ArgumentException">A track has no unevenness in some band.</exception>
    internal static MeasuredSpectrum? TryOf(RoadProfile profile, double low, double high, out string? whyNone)
    {
        // Segments just long enough for the lowest band leave the most to average over.
        var bandwidth = low * (Math.Pow(10, 0.1) - 1);
        var wanted = BinsInNarrowestBand / (bandwidth * profile.Step);
        var longest = 2 * profile.Count / (SegmentsAtLeast + 1);
        var length = Math.Min((int)Math.Ceiling(wanted), longest) / 2 * 2;
        if (length < ShortestSegment)
        {
            whyNone = FormattableString.Invariant(
                $"A profile of {profile.Count} samples is too short for a spectrum, and so for a class; {ShortestSegment * (SegmentsAtLeast + 1) / 2} are the least.");
            return null;
        }

        var flat = profile.Detrended();
        var spectrum = SpectralDensity.Of(flat.Left.AsSpan(), flat.Right.AsSpan(), 1 / profile.Step, length);

        // Close to half the sampling frequency the anti-alias filter of whoever measured has been at work.
        var bands = ThirdOctave.Within(low, Math.Min(high, 0.4 / profile.Step))
            .Where(band => band.Width >= BinsAtLeast * spectrum.Resolution * (1 - 1e-9))
            .ToImmutableArray();
        if (bands.Length < FewestBands)
        {
            whyNone = FormattableString.Invariant(
                $"A profile {profile.Length:F0} m long in steps of {profile.Step} m shows fewer than five third-octave bands between {low} and {high} cycle/m, too few for a class.");
            return null;
        }

        whyNone = null;
        return Of(spectrum, bands);
    }

    private static MeasuredSpectrum Of(SpectralDensity spectrum, ImmutableArray<FrequencyBand> bands)
    {
        ImmutableArray<double> left = [.. bands.Select(spectrum.BandMean)];
        ImmutableArray<double> right = [.. bands.Select(spectrum.SecondBandMean)];
        foreach (var (side, track) in new[] { ("left", left), ("right", right) })
        {
            // What the transform's rounding leaves of a flat track is 1e-30 of the other one's density.
            if (track.Zip(left, right).Any(band => band.First <= 1e-20 * Math.Max(band.Second, band.Third)))
                throw new ArgumentException($"The {side} track has no unevenness at all in some band: that is no road but an obstacle, and a class cannot be fitted.");
        }

        var logs = left.Zip(right, (l, r) => Math.Log10(0.5 * (l + r))).ToArray();
        var positions = bands.Select(b => Math.Log10(b.Centre / RoadClasses.ReferenceWavenumber)).ToArray();
        var (level, slope) = Fit.Line(positions, logs);
        var residual = positions.Zip(logs, (x, y) => y - level - (slope * x)).Average(e => e * e);
        return new MeasuredSpectrum
        {
            Bands = bands,
            Left = left,
            Right = right,
            Coherence = [.. bands.Select(spectrum.BandCoherence)],
            ReferenceDensity = Math.Pow(10, level),
            Waviness = -slope,
            ClassDensity = Math.Pow(10, positions.Zip(logs, (x, y) => y + (2 * x)).Average()),
            FitDeviationDb = 10 * Math.Sqrt(residual),
        };
    }
}
