using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Studies;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from a placement, in words, from its numbers.</summary>
public static class PlacementConclusions
{
    // A wall that has to go farther is not moved but designed anew, m; common practice, no source.
    private const double FurthestMove = 0.1;

    /// <summary>Draws the conclusions, the most important first.</summary>
    /// <param name="result">What was found.</param>
    public static IReadOnlyList<string> Of(PlacementResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var sentences = new List<string>();
        void Say(FormattableString text) => sentences.Add(FormattableString.Invariant(text));
        if (result.Bands.IsEmpty)
            Say($"The damper fits nowhere over the whole travel.");
        else if (result.Bands.MinBy(band => band.RollDampingLost) is { } best)
            Say($"The best place is {(best.Band.Side == RailSide.Across ? "" : $"{Lower(best)} ")}at {Unit.Millimetre.Show(best.Band.Outer):F1}: roll ratio {best.Layout.Fitting.RollRatio:F2}, roll damping ratio {best.Modes.Roll.DampingRatio:F2}; limit outboard: {best.Band.OuterLimit?.Text ?? "the end of the search"}.");
        foreach (var band in result.Bands.Where(band => band.RollDampingLost > 0.005))
            Say($"Going {(band.Band.Side == RailSide.Across ? "to the other place" : Lower(band))} ({Unit.Millimetre.Show(band.Band.Outer):F1}) costs {band.RollDampingLost * 100:F0} % of the roll damping ratio, down to {band.Modes.Roll.DampingRatio:F2}.");
        foreach (var band in result.Bands.Where(band => band.Window is { IsOpen: false }))
            Say($"{PlacementStudy.NameOf(band.Band.Side)} no damper setting meets the targets in heave and roll at once.");
        if (result.Study.Layouts.Any(layout => layout.Places.Count > 1))
            Say($"Places are for two dampers that mirror each other; a layout whose sides differ is checked where each damper is drawn.");
        foreach (var slot in result.Found.Shortfalls)
            sentences.Add(OfShortfall(slot));
        foreach (var layout in result.Layouts.Where(layout => layout.Unplaced is not null || layout.Place is { Fits: false }))
            sentences.Add($"“{layout.Name}” cannot {(layout.Unplaced is null ? "work where it is drawn" : "be placed")}: {Words(layout)}.");
        return sentences;
    }

    /// <summary>What the load states say together, one sentence an item.</summary>
    /// <param name="common">The bands that all share.</param>
    public static IReadOnlyList<string> Of(IReadOnlyList<CommonBand> common)
    {
        ArgumentNullException.ThrowIfNull(common);
        return common.Count == 0
            ? ["No place fits in every load state."]
            : [.. common.Select(shared => FormattableString.Invariant($"{PlacementStudy.NameOf(shared.Band.Side)} the damper fits in every load state from {Unit.Millimetre.Of(shared.Band.Inner):F1} to {Unit.Millimetre.Show(shared.Band.Outer):F1}{(shared.Window is { IsOpen: false } ? "; no damper setting meets the targets in all of them there" : "")}."))];
    }

    /// <summary>What is to be said of the place of a layout as it is drawn.</summary>
    /// <param name="layout">The layout.</param>
    public static string Words(PlacedLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return layout.Unplaced ?? (layout.Place is not { } place ? "given by ratios: no place to check" : place.Fits ? "fits" : string.Join("; ", place.InTheWay.Select(contact => contact.Words)));
    }

    private static string OfShortfall(Shortfall slot)
    {
        string name = PlacementStudy.NameOf(slot.Side);
        return slot.Walls.IsEmpty || slot.Walls.All(wall => wall.Distance > FurthestMove)
            ? FormattableString.Invariant($"{name} nothing fits, and no single wall opens the slot{(slot.Walls.IsEmpty ? "" : FormattableString.Invariant($" by moving less than {Unit.Millimetre.Show(FurthestMove):F0}"))}: closest at {Unit.Millimetre.Show(slot.Position):F0}, where {slot.Worst.Words}.")
            : $"{name} nothing fits: {string.Join(", or ", slot.Walls.Where(wall => wall.Distance <= FurthestMove).Select(wall => $"the {wall.Wall} must go {wall.Words}"))}.";
    }

    private static string Lower(PlacedBand band) => PlacementStudy.NameOf(band.Band.Side).ToLowerInvariant();
}
