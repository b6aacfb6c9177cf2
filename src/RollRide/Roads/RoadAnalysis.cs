namespace RollRide.Roads;

/// <summary>What a profile is by the measures of the trade: roughness index, and spectrum, class and coherence of its tracks.</summary>
public sealed record RoadAnalysis
{
    private RoadAnalysis()
    {
    }

    /// <summary>Spectrum, class and coherence; null where the profile is too short for them.</summary>
    public required MeasuredSpectrum? Spectrum { get; init; }

    /// <summary>Why there is no spectrum, in a sentence; null where there is one.</summary>
    public required string? WhyNoSpectrum { get; init; }

    /// <summary>International Roughness Index of the left track, m/km.</summary>
    public required double LeftIndex { get; init; }

    /// <summary>International Roughness Index of the right track, m/km.</summary>
    public required double RightIndex { get; init; }

    /// <summary>International Roughness Index of the mean of both tracks, m/km; below the mean of the two indices.</summary>
    public required double MeanProfileIndex { get; init; }

    /// <summary>Mean of the indices of the two tracks, m/km.</summary>
    public double MeanIndex => 0.5 * (LeftIndex + RightIndex);

    /// <summary>Analyses a profile over the part of a band that it resolves.</summary>
    /// <param name="profile">The profile; for the spectrum its gradient is taken off here.</param>
    /// <param name="low">Lower end of the band asked for, cycle/m.</param>
    /// <param name="high">Upper end of the band asked for, cycle/m; limited to what the spacing shows.</param>
    /// <exception cref="ArgumentException">The profile is too short or too coarse for the roughness index, or a track is flat.</exception>
    public static RoadAnalysis Of(
        RoadProfile profile,
        double low = RoadClasses.LowestWavenumber,
        double high = RoadClasses.HighestWavenumber)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return new RoadAnalysis
        {
            Spectrum = MeasuredSpectrum.TryOf(profile, low, high, out var whyNone),
            WhyNoSpectrum = whyNone,
            LeftIndex = RoughnessIndex.Of(profile.Left, profile.Step),
            RightIndex = RoughnessIndex.Of(profile.Right, profile.Step),
            MeanProfileIndex = RoughnessIndex.Of(profile.Mean, profile.Step),
        };
    }
}
