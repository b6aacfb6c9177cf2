using System.Globalization;

namespace RollRide.Studies;

/// <summary>What runs over many random roads say of the layouts, in words.</summary>
public static class SeedConclusions
{
    /// <summary>Compares each layout with one of them at the worst seat.</summary>
    /// <param name="layouts">The runs of each layout, over the same seeds.</param>
    /// <param name="baseline">Place of the layout with which the others are compared.</param>
    /// <returns>One sentence for each of the others.</returns>
    public static IReadOnlyList<string> Of(IReadOnlyList<SeededRuns> layouts, int baseline = 0)
    {
        ArgumentNullException.ThrowIfNull(layouts);
        var reference = layouts[baseline];
        return [.. layouts.Where((_, i) => i != baseline).Select(other =>
        {
            // Every layout met the same roads: the differences road by road tell more than the two means.
            var difference = MeanInterval.Of([.. other.Runs.Zip(reference.Runs, (a, b) => a.Ride.WorstSeat.Total - b.Ride.WorstSeat.Total)]);
            var size = Text($"{Math.Abs(difference.Mean):F3} ± {difference.HalfWidth:F3} m/s²");
            return Math.Abs(difference.Mean) > difference.HalfWidth
                ? $"'{other.Layout}' shakes the worst seat {size} {(difference.Mean > 0 ? "more" : "less")} than '{reference.Layout}', road by road: more than chance."
                : $"'{other.Layout}' and '{reference.Layout}' differ at the worst seat by {size}, road by road: no more than chance.";
        })];
    }

    /// <summary>The seeds, as told beside their numbers: <c>"8 random roads, seeds 1 to 8"</c>.</summary>
    /// <param name="layouts">The runs of each layout.</param>
    public static string Roads(IReadOnlyList<SeededRuns> layouts)
    {
        ArgumentNullException.ThrowIfNull(layouts);
        var runs = layouts[0].Runs;
        return Text($"{runs.Length} random roads, seeds {runs[0].Seed} to {runs[^1].Seed}");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
