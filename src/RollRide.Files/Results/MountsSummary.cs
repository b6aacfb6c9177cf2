using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Results;

/// <summary>Writes how the dampers move over the travel, in short, as <c>mounts.json</c>.</summary>
public static class MountsSummary
{
    /// <summary>Writes the summary.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">What was found in each load state, or for the vehicle as written alone.</param>
    /// <param name="warnings">The warnings of the scenario.</param>
    public static void Write(TextWriter output, IReadOnlyList<MountsResult> states, IEnumerable<string> warnings)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(states);
        Summary.WriteJson(output, LoadStates.Joined(warnings, [.. states.Select(result => (result.Study, Found(result)))]));
    }

    /// <summary>The travel looked at.</summary>
    internal static JsonObject OfTravel(TravelEnvelope travel) => new()
    {
        ["bump_mm"] = Unit.Millimetre.Of(travel.Range.Bump),
        ["rebound_mm"] = Unit.Millimetre.Of(travel.Range.Rebound),
        ["roll_deg"] = Unit.Degree.Of(travel.Range.Roll),
        ["untilTheStopsTouch"] = travel.Range.Combinations != TravelCombinations.All,
        ["untilATyreLifts"] = travel.Range.Combinations == TravelCombinations.UntilStopsTouchOrTyresLift,
    };

    /// <summary>Toe in degrees; null for a linkage in the rear view, which does not know of it.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="wheel">Where the wheel is.</param>
    public static double? Toe(HalfCar vehicle, WheelPosition wheel)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(wheel);
        return vehicle.Linkage is PlanarLinkage ? null : Unit.Degree.Of(wheel.Toe);
    }

    private static JsonObject Found(MountsResult result)
    {
        // Travel and linkage are the vehicle's own, but under a load each layout settles by itself, and they count from there.
        var (vehicle, first, isLoaded) = (result.Study.Vehicle, result.Layouts[0], result.Study.Load is not null);
        var found = new JsonObject { ["conclusions"] = Summary.Texts(MountsConclusions.Of(result)) };
        if (!isLoaded)
            found["travel"] = OfTravel(first.Travel);
        found["layouts"] = new JsonArray([.. result.Layouts.Select(mounts => (JsonNode)(isLoaded ? OfLoaded(mounts, vehicle) : OfLayout(mounts)))]);
        if (!isLoaded && !first.Linkage.IsEmpty)
            found["linkage"] = OfLinkage(first, vehicle);
        return found;
    }

    private static JsonObject OfLoaded(LayoutMounts mounts, HalfCar vehicle)
    {
        var layout = OfLayout(mounts);
        layout["travel"] = OfTravel(mounts.Travel);
        if (!mounts.Linkage.IsEmpty)
            layout["linkage"] = OfLinkage(mounts, vehicle);
        return layout;
    }

    private static JsonArray OfLinkage(LayoutMounts mounts, HalfCar vehicle) => new([.. mounts.Linkage.Select(wheel => (JsonNode)OfWheel(wheel, vehicle))]);

    private static JsonObject OfLayout(LayoutMounts mounts) => new()
    {
        ["name"] = mounts.Name,
        ["heaveRatio"] = mounts.Fitting.HeaveRatio,
        ["heaveRatioLeast"] = mounts.InHeave.Min(at => at.HeaveRatio),
        ["heaveRatioGreatest"] = mounts.InHeave.Max(at => at.HeaveRatio),
        ["rollRatio"] = mounts.Fitting.RollRatio,
        ["rollRatioLeast"] = mounts.InRoll.Min(at => at.RollRatio),
        ["rollRatioGreatest"] = mounts.InRoll.Max(at => at.RollRatio),
        ["length_mm"] = Unit.Millimetre.Of(mounts.Length),
        ["lengthShortest_mm"] = Unit.Millimetre.Of(mounts.Length - mounts.Shortest.Compression),
        ["lengthLongest_mm"] = Unit.Millimetre.Of(mounts.Length - mounts.Longest.Compression),
        ["leftClosed_mm"] = Unit.Millimetre.Of(mounts.ClosedReserve),
        ["leftExtended_mm"] = Unit.Millimetre.Of(mounts.ExtendedReserve),
        ["overCentreHeave_mm"] = Unit.Millimetre.Of(mounts.OverCentre),
    };

    private static JsonObject OfWheel(WheelPosition wheel, HalfCar vehicle) => new()
    {
        ["wheelTravel_mm"] = Unit.Millimetre.Of(wheel.Travel),
        ["camber_deg"] = Unit.Degree.Of(wheel.Camber),
        ["toe_deg"] = Toe(vehicle, wheel),
        ["halfTrackChange_mm"] = Unit.Millimetre.Of(wheel.Contact.Y - vehicle.HalfTrack),
        ["rollCentreHeight_mm"] = Unit.Millimetre.Of(wheel.RollCentreHeight),
        ["instantCentreY_mm"] = Unit.Millimetre.Of(wheel.InstantCentre?.Y),
        ["instantCentreZ_mm"] = Unit.Millimetre.Of(wheel.InstantCentre?.Z),
    };
}
