using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>
/// The figures of the ride over many random roads: one row per figure, one column per layout, mean and half of the 95 % interval.
/// </summary>
internal static class SeedsComparison
{
    /// <summary>Writes the table.</summary>
    /// <param name="layouts">The runs of each layout, in the report's order.</param>
    /// <param name="styles">The styles of the layouts.</param>
    public static Html Write(IReadOnlyList<SeededRuns> layouts, LayoutStyles styles)
    {
        var columns = LayoutColumns.Headings(styles, [.. layouts.Select(layout => layout.Layout)], _ => null);
        return Html.Of(
            $"""
            <div class="wide"><table{LayoutColumns.Width(layouts.Count)}>
            <thead><tr><th scope="col">Mean ± half of the 95 % interval, {SeedConclusions.Roads(layouts)}</th><th scope="col" class="unit">Unit</th>{columns}</tr></thead>
            <tbody>
            {Rows(layouts, RideMetric.All, run => run.Ride)}
            </tbody></table></div>

            """);
    }

    private static Html Rows<T>(IReadOnlyList<SeededRuns> layouts, IEnumerable<MetricDefinition<T>> metrics, Func<SeededRun, T> figures) => Html.Join(
        metrics.Select(metric => Html.Of($"<tr><th scope=\"row\">{metric.Label}</th><td class=\"unit\">{metric.Unit.Symbol}</td>{Cells(layouts, metric.Decimals, run => metric.Shown(figures(run)))}</tr>\n")));

    private static Html Cells(IReadOnlyList<SeededRuns> layouts, int decimals, Func<SeededRun, double?> figure) => Html.Join(layouts.Select(layout =>
    {
        var cell = layout.Of(figure) is { } interval
            ? $"{PlotText.Number(interval.Mean, decimals)} ± {PlotText.Number(interval.HalfWidth, decimals)}"
            : "–";
        return Html.Of($"<td data-layout=\"{layout.Layout}\">{cell}</td>");
    }));
}
