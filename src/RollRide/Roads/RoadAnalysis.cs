using System.Collections.Immutable;
using MathNet.Numerics;
using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>What a profile is by the measures of the trade: spectrum, class, roughness index and coherence of its tracks.</summary>
/// <remarks>
/// The density is the mean of both tracks in third-octave bands; ISO 8608 smooths the same way, in octaves, thirds and twelfths.
/// Wavelengths longer than half a segment are not resolved and left out.
/// </remarks>
public sealed record RoadAnalysis
{
    private const int SegmentsAtLeast = 7;
    private const int NarrowestBandInBins = 2;
    private const int ShortestSegment = 32;

    private RoadAnalysis()
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

    /// <summary>International Roughness Index of the left track, m/km.</summary>
    public required double LeftIndex { get; init; }

    /// <summary>International Roughness Index of the right track, m/km.</summary>
    public required double RightIndex { get; init; }

    /// <summary>International Roughness Index of the mean of both tracks, m/km; below the mean of the two indices.</summary>
    public required double MeanProfileIndex { get; init; }

    /// <summary>Mean of the indices of the two tracks, m/km.</summary>
    public double MeanIndex => 0.5 * (LeftIndex + RightIndex);

    /// <summary>Class of ISO 8608, from the line with w = 2.</summary>
    public RoadClass Class => RoadClasses.Of(ClassDensity);

    /// <summary>Density of the fitted line, m³.</summary>
    /// <param name="wavenumber">Spatial frequency, cycle/m.</param>
    public double Line(double wavenumber) => ReferenceDensity * Math.Pow(wavenumber / RoadClasses.ReferenceWavenumber, -Waviness);

    /// <summary>Analyses a profile over the part of a band that it resolves.</summary>
    /// <param name="profile">The profile; its gradient is taken off here.</param>
    /// <param name="low">Lower end of the band asked for, cycle/m.</param>
    /// <param name="high">Upper end of the band asked for, cycle/m; limited to what the spacing shows.</param>
    /// <exception cref="ArgumentException">The profile is too short, or too coarse for the roughness index.</exception>
    public static RoadAnalysis Of(
        RoadProfile profile,
        double low = RoadClasses.LowestWavenumber,
        double high = RoadClasses.HighestWavenumber)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var flat = profile.Detrended();

        // Segments just long enough for the lowest band leave the most to average over.
        var bandwidth = low * (Math.Pow(10, 0.1) - 1);
        var wanted = NarrowestBandInBins / (bandwidth * profile.Step);
        var longest = 2 * profile.Count / (SegmentsAtLeast + 1);
        var length = Math.Min((int)Math.Ceiling(wanted), longest) / 2 * 2;
        if (length < ShortestSegment)
            throw new ArgumentException(FormattableString.Invariant($"A profile of {profile.Count} samples is too short for a spectrum; {ShortestSegment * (SegmentsAtLeast + 1) / 2} are the least."), nameof(profile));
        var spectrum = SpectralDensity.Of(flat.Left.AsSpan(), flat.Right.AsSpan(), 1 / profile.Step, length);

        // Close to half the sampling frequency the anti-alias filter of whoever measured has been at work.
        var bands = ThirdOctave.Within(low, Math.Min(high, 0.4 / profile.Step))
            .Where(band => band.Width >= NarrowestBandInBins * spectrum.Resolution * (1 - 1e-9))
            .ToImmutableArray();
        if (bands.Length < 5)
        {
            throw new ArgumentException(FormattableString.Invariant(
                $"A profile {profile.Length:F0} m long in steps of {profile.Step} m shows fewer than five third-octave bands between {low} and {high} cycle/m; a class cannot be fitted."), nameof(profile));
        }

        ImmutableArray<double> left = [.. bands.Select(spectrum.BandMean)];
        ImmutableArray<double> right = [.. bands.Select(spectrum.SecondBandMean)];
        var logs = left.Zip(right, (l, r) => Math.Log10(0.5 * (l + r))).ToArray();
        foreach (var (side, track) in new[] { ("left", left), ("right", right) })
        {
            // What the transform's rounding leaves of a flat track is 1e-30 of the other one's density.
            if (track.Zip(left, right).Any(band => band.First <= 1e-20 * Math.Max(band.Second, band.Third)))
                throw new ArgumentException($"The {side} track has no unevenness at all in some band: that is no road but an obstacle, and a class cannot be fitted.", nameof(profile));
        }

        var positions = bands.Select(b => Math.Log10(b.Centre / RoadClasses.ReferenceWavenumber)).ToArray();
        var (level, slope) = Fit.Line(positions, logs);
        var residual = positions.Zip(logs, (x, y) => y - level - (slope * x)).Average(e => e * e);
        return new RoadAnalysis
        {
            Bands = bands,
            Left = left,
            Right = right,
            Coherence = [.. bands.Select(spectrum.BandCoherence)],
            ReferenceDensity = Math.Pow(10, level),
            Waviness = -slope,
            ClassDensity = Math.Pow(10, positions.Zip(logs, (x, y) => y + (2 * x)).Average()),
            FitDeviationDb = 10 * Math.Sqrt(residual),
            LeftIndex = RoughnessIndex.Of(profile.Left, profile.Step),
            RightIndex = RoughnessIndex.Of(profile.Right, profile.Step),
            MeanProfileIndex = RoughnessIndex.Of(profile.Mean, profile.Step),
        };
    }
}
