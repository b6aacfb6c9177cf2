using RollRide.Plots;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>The figures of the ride over many random roads: a row a figure, a column a layout, mean and half of the 95 % interval.</summary>
internal static class SeedsComparison
{
    /// <summary>Writes the table.</summary>
    /// <param name="layouts">The runs of each layout, in the report's order.</param>
    public static Html Write(IReadOnlyList<SeededRuns> layouts)
    {
        var columns = Html.Join(layouts.Select((layout, i) => Html.Of($"<th scope=\"col\" data-layout=\"{layout.Layout}\">{ComparisonTable.Key(i)}{layout.Layout}</th>")));
        return Html.Of(
            $"""
            <div class="wide"><table{ComparisonTable.Width(layouts.Count)}>
            <thead><tr><th scope="col">Mean ± half of the 95 % interval, {SeedConclusions.Roads(layouts)}</th><th scope="col" class="unit">Unit</th>{columns}</tr></thead>
            <tbody>
            {Html.Join(MetricCatalogue.Ride.Select(metric => Html.Of($"<tr><th scope=\"row\">{metric.Label}</th><td class=\"unit\">{metric.Unit}</td>{Cells(layouts, metric)}</tr>\n")))}
            </tbody></table></div>

            """);
    }

    private static Html Cells(IReadOnlyList<SeededRuns> layouts, MetricDefinition<Metrics.RideMetrics> metric) => Html.Join(layouts.Select(layout =>
    {
        var cell = layout.Of(run => metric.Value(run.Ride)) is { } interval
            ? $"{PlotText.Number(interval.Mean, metric.Decimals)} ± {PlotText.Number(interval.HalfWidth, metric.Decimals)}"
            : "–";
        return Html.Of($"<td data-layout=\"{layout.Layout}\">{cell}</td>");
    }));
}
