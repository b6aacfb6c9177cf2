using System.Text.Json.Nodes;
using RollRide.Mounting;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Results;

/// <summary>Writes how the dampers move over the travel, in short, as <c>mounts.json</c>.</summary>
public static class MountsSummary
{
    private const double Mm = 1e3;
    private const double Deg = 180 / Math.PI;

    /// <summary>Writes the summary.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="result">What was found.</param>
    /// <param name="warnings">The warnings of the scenario.</param>
    public static void Write(TextWriter output, MountsResult result, IEnumerable<string> warnings)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(result);
        var summary = Summary.Traced(result.Study);
        summary["warnings"] = Summary.Texts(warnings);
        summary["conclusions"] = Summary.Texts(MountsConclusions.Of(result));
        summary["travel"] = OfTravel(result.Travel);
        summary["layouts"] = new JsonArray([.. result.Layouts.Select(mounts => (JsonNode)OfLayout(mounts))]);
        if (!result.Linkage.IsEmpty)
            summary["linkage"] = new JsonArray([.. result.Linkage.Select(wheel => (JsonNode)OfWheel(wheel, result.Study.Vehicle))]);
        Summary.WriteJson(output, summary);
    }

    /// <summary>The travel looked at.</summary>
    internal static JsonObject OfTravel(TravelEnvelope travel) => new()
    {
        ["bump_mm"] = travel.Range.Bump * Mm,
        ["rebound_mm"] = travel.Range.Rebound * Mm,
        ["roll_deg"] = travel.Range.Roll * Deg,
        ["untilTheStopsTouch"] = travel.Range.Combinations == TravelCombinations.UntilStopsTouch,
    };

    /// <summary>Toe in degrees; null for a linkage in the rear view, which does not know of it.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="wheel">Where the wheel is.</param>
    public static double? Toe(HalfCar vehicle, WheelPosition wheel)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(wheel);
        return vehicle.Linkage is PlanarLinkage ? null : wheel.Toe * Deg;
    }

    private static JsonObject OfLayout(LayoutMounts mounts) => new()
    {
        ["name"] = mounts.Layout.Name,
        ["heaveRatio"] = mounts.Layout.Fitting.HeaveRatio,
        ["heaveRatioLeast"] = mounts.InHeave.Min(at => at.HeaveRatio),
        ["heaveRatioGreatest"] = mounts.InHeave.Max(at => at.HeaveRatio),
        ["rollRatio"] = mounts.Layout.Fitting.RollRatio,
        ["rollRatioLeast"] = mounts.InRoll.Min(at => at.RollRatio),
        ["rollRatioGreatest"] = mounts.InRoll.Max(at => at.RollRatio),
        ["length_mm"] = mounts.Length * Mm,
        ["lengthShortest_mm"] = (mounts.Length - mounts.Shortest.Compression) * Mm,
        ["lengthLongest_mm"] = (mounts.Length - mounts.Longest.Compression) * Mm,
        ["leftClosed_mm"] = mounts.ClosedReserve * Mm,
        ["leftExtended_mm"] = mounts.ExtendedReserve * Mm,
        ["overCentreHeave_mm"] = mounts.OverCentre * Mm,
    };

    private static JsonObject OfWheel(WheelPosition wheel, HalfCar vehicle) => new()
    {
        ["wheelTravel_mm"] = wheel.Travel * Mm,
        ["camber_deg"] = wheel.Camber * Deg,
        ["toe_deg"] = Toe(vehicle, wheel),
        ["halfTrackChange_mm"] = (wheel.Contact.Y - vehicle.HalfTrack) * Mm,
        ["rollCentreHeight_mm"] = wheel.RollCentreHeight * Mm,
        ["instantCentreY_mm"] = wheel.InstantCentre?.Y * Mm,
        ["instantCentreZ_mm"] = wheel.InstantCentre?.Z * Mm,
    };
}
