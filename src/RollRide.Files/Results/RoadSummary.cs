using RollRide.Findings;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes what a road is as <c>road.json</c>.</summary>
public static class RoadSummary
{
    /// <summary>Writes the summary; what needs a spectrum is null where the profile is too short for one.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="provenance">Where the road comes from.</param>
    /// <param name="road">What it is.</param>
    /// <param name="remarks">What was left out of the road that was analysed.</param>
    /// <param name="warnings">The warnings of the file it was read from.</param>
    public static void Write(TextWriter output, Provenance provenance, RoadStudy road, IEnumerable<string> remarks, IEnumerable<string> warnings)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(road);
        var (profile, analysis) = (road.Profile, road.Analysis);
        var summary = Summary.Traced(provenance);
        summary["warnings"] = Summary.Texts(warnings);
        summary["conclusions"] = Summary.Texts(RoadConclusions.Of(analysis));
        summary["remarks"] = Summary.Texts(remarks);
        summary["length_m"] = profile.Length;
        summary["sampleSpacing_m"] = profile.Step;
        summary["track_m"] = road.Track;
        summary["longestWavelength_m"] = analysis.Spectrum?.LongestWavelength;
        summary["class"] = analysis.Spectrum?.Class.ToString();
        summary["classDensity_m3"] = analysis.Spectrum?.ClassDensity;
        summary["lineDensity_m3"] = analysis.Spectrum?.ReferenceDensity;
        summary["waviness"] = analysis.Spectrum?.Waviness;
        summary["departureFromLineRms_dB"] = analysis.Spectrum?.FitDeviationDb;
        summary["roughnessIndexLeft_m_per_km"] = analysis.LeftIndex;
        summary["roughnessIndexRight_m_per_km"] = analysis.RightIndex;
        summary["roughnessIndexMean_m_per_km"] = analysis.MeanIndex;
        summary["roughnessIndexOfMeanProfile_m_per_km"] = analysis.MeanProfileIndex;
        Summary.WriteJson(output, summary);
    }
}
