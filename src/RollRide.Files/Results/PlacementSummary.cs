using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes where the dampers fit, and what closed slots lack, as <c>placement.json</c>.</summary>
public static class PlacementSummary
{
    /// <summary>Writes the summary.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">What was found in each load state, or for the vehicle as written alone.</param>
    /// <param name="common">The bands that all load states share; null where there is one at most.</param>
    /// <param name="warnings">The warnings of the scenario.</param>
    public static void Write(TextWriter output, IReadOnlyList<PlacementResult> states, IReadOnlyList<CommonBand>? common, IEnumerable<string> warnings)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(states);
        Summary.WriteJson(output, LoadStates.Joined(warnings, [.. states.Select(result => (result.Study, Found(result)))], common is null ? null : OfCommon(states, common)));
    }

    private static JsonObject Found(PlacementResult result) => new()
    {
        ["conclusions"] = Summary.Texts(PlacementConclusions.Of(result)),
        ["damperVelocity_m_per_s"] = result.Study.Analysis.ReferenceVelocity,
        ["travel"] = MountsSummary.OfTravel(result.Found.Space.Travel),
        ["layouts"] = new JsonArray([.. result.Layouts.Select(layout => (JsonNode)OfLayout(layout))]),
        ["bands"] = new JsonArray([.. result.Bands.Select(band => (JsonNode)OfBand(band))]),
        ["closedSlots"] = new JsonArray([.. result.Found.Shortfalls.Select(slot => (JsonNode)OfShortfall(slot))]),
    };

    private static JsonObject OfCommon(IReadOnlyList<PlacementResult> states, IReadOnlyList<CommonBand> common) => new()
    {
        ["conclusions"] = Summary.Texts(PlacementConclusions.Of(common)),
        ["common"] = new JsonArray([.. common.Select(shared => (JsonNode)new JsonObject
        {
            ["name"] = PlacementStudy.NameOf(shared.Band.Side),
            ["from_mm"] = Unit.Millimetre.Of(shared.Band.Inner),
            ["to_mm"] = Unit.Millimetre.Of(shared.Band.Outer),
            ["limitInboard"] = shared.Band.InnerLimit?.Text,
            ["limitInboardLoadState"] = shared.InnerLoad,
            ["limitOutboard"] = shared.Band.OuterLimit?.Text,
            ["limitOutboardLoadState"] = shared.OuterLoad,
            ["settingWindow"] = OfWindow(shared.Window),
            ["inEachLoadState"] = new JsonArray([.. states.Zip(shared.InEach, (state, placed) => (JsonNode)new JsonObject
            {
                ["loadState"] = state.Study.Load!.Name,
                ["heaveRatio"] = placed.Layout.Fitting.HeaveRatio,
                ["rollRatio"] = placed.Layout.Fitting.RollRatio,
                ["heaveDampingRatio"] = placed.Modes.Heave.DampingRatio,
                ["rollDampingRatio"] = placed.Modes.Roll.DampingRatio,
            })]),
        })]),
    };

    private static JsonObject? OfWindow(SettingWindow? found) => found is not { } window ? null : new JsonObject
    {
        ["open"] = window.IsOpen,
        ["from_N_s_per_m"] = window.IsOpen ? window.Lower.Coefficient : null,
        ["to_N_s_per_m"] = window.IsOpen ? window.Upper.Coefficient : null,
    };

    private static JsonObject OfLayout(PlacedLayout layout) => new()
    {
        ["name"] = layout.Name,
        ["axleEnd_mm"] = Unit.Millimetre.Of(layout.Place?.AxleEnd),
        ["bodyEnd_mm"] = Unit.Millimetre.Of(layout.Place?.BodyEnd),
        ["fits"] = layout.Unplaced is null ? layout.Place?.Fits : false,
        ["inTheWay"] = layout.Place is not { } place ? null : new JsonArray([.. place.InTheWay.Select(contact => (JsonNode)new JsonObject
        {
            ["limit"] = contact.Text,
            ["lacking_mm"] = Unit.Millimetre.Of(-contact.Margin),
            ["clearance_mm"] = Unit.Millimetre.Of(contact.Clearance),
            ["heave_mm"] = Unit.Millimetre.Of(contact.Heave),
            ["roll_deg"] = Unit.Degree.Of(contact.Roll),
        })]),
        ["words"] = PlacementConclusions.Words(layout),
    };

    private static JsonObject OfBand(PlacedBand placed) => new()
    {
        ["name"] = PlacementStudy.NameOf(placed.Band.Side),
        ["from_mm"] = Unit.Millimetre.Of(placed.Band.Inner),
        ["to_mm"] = Unit.Millimetre.Of(placed.Band.Outer),
        ["limitInboard"] = placed.Band.InnerLimit?.Text,
        ["limitOutboard"] = placed.Band.OuterLimit?.Text,
        ["heaveRatio"] = placed.Layout.Fitting.HeaveRatio,
        ["rollRatio"] = placed.Layout.Fitting.RollRatio,
        ["heaveDampingRatio"] = placed.Modes.Heave.DampingRatio,
        ["rollDampingRatio"] = placed.Modes.Roll.DampingRatio,
        ["rollDampingLost_percent"] = placed.RollDampingLost * 100,
        ["settingWindow"] = OfWindow(placed.Window),
    };

    private static JsonObject OfShortfall(Shortfall slot) => new()
    {
        ["name"] = PlacementStudy.NameOf(slot.Side),
        ["closestAt_mm"] = Unit.Millimetre.Of(slot.Position),
        ["limit"] = slot.Worst.Text,
        ["lacking_mm"] = Unit.Millimetre.Of(-slot.Worst.Margin),
        ["walls"] = new JsonArray([.. slot.Walls.Select(wall => (JsonNode)new JsonObject
        {
            ["name"] = wall.Wall,
            ["move_mm"] = Unit.Millimetre.Of(wall.Distance),
            ["direction"] = wall.DirectionName,
        })]),
    };
}
