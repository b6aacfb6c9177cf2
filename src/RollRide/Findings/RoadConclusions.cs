using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from a road by itself, in words, from its numbers.</summary>
public static class RoadConclusions
{
    // The bands fitted scatter by some tenths of the waviness; common practice, no source.
    private const double NearStandard = 0.2;

    /// <summary>Draws the conclusions.</summary>
    /// <param name="analysis">What the road is.</param>
    public static IReadOnlyList<string> Of(RoadAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        return analysis.Spectrum is { } spectrum
            ? Of(spectrum)
            : [FormattableString.Invariant($"The roughness index is {analysis.MeanIndex:F1} m/km. {analysis.WhyNoSpectrum}")];
    }

    /// <summary>What is left out of the statistics of a random road, so that they are those of the road and of nothing else; nothing for any other road.</summary>
    /// <param name="road">The road.</param>
    public static IEnumerable<string> LeftOut(Road road)
    {
        ArgumentNullException.ThrowIfNull(road);
        if (road.Unevenness is { ContactLength: > 0 and var contact })
            yield return FormattableString.Invariant($"This is the road itself; in a run the tyre averages it over its contact length of {Unit.Millimetre.Show(contact):0.#}.");
        if (road is { Unevenness: not null, HasEvents: true })
            yield return "The random road alone: the scenario's obstacles and measured profile are left out.";
    }

    private static IReadOnlyList<string> Of(MeasuredSpectrum spectrum) =>
    [
        FormattableString.Invariant($"A road of class {spectrum.Class}: Gd(n0) = {spectrum.ClassDensity * 1e6:G3}e-6 m³, where the class reaches from {RoadClasses.LowerLimit(spectrum.Class) * 1e6:G6}e-6 to {RoadClasses.UpperLimit(spectrum.Class) * 1e6:G6}e-6."),
        (spectrum.Waviness - 2) switch
        {
            > NearStandard => "Long waves are stronger than with the slope of the standard: more body motion, less axle hop.",
            < -NearStandard => "Short waves are stronger than with the slope of the standard: more axle hop and harshness, less body motion.",
            _ => "The slope is near that of the standard: long and short waves in the usual proportion.",
        },
        .. spectrum.Bands[0].Low > RoadClasses.ReferenceWavenumber
            ? [FormattableString.Invariant($"The profile resolves no waves longer than {spectrum.LongestWavelength:F0} m, and Gd(n0) is the density at {1 / RoadClasses.ReferenceWavenumber:F0} m: class and density are extrapolated. A longer profile is needed to know them.")]
            : Array.Empty<string>(),
    ];
}
