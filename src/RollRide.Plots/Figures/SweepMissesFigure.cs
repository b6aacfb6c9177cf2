using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;
using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>The share of variants that miss a target, by layout and load state, beside where the metric lies and its limit.</summary>
public static class SweepMissesFigure
{
    // Share of a load state's place that its layouts take.
    private const double Width = 0.7;

    /// <summary>Builds the figure.</summary>
    /// <param name="analysis">What the sweep found.</param>
    /// <param name="target">One of its targets.</param>
    public static Figure Build(SweepAnalysis analysis, SweepTarget target)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        ArgumentNullException.ThrowIfNull(target);
        var plan = analysis.Plan;
        var styles = SweepFigureParts.Styles(analysis);
        var metric = plan.Metrics.First(metric => metric.Key == target.Metric);
        string[] states = plan.LoadStates.IsEmpty ? ["all variants"] : [.. plan.LoadStates.Select(state => state.Name)];
        var layouts = plan.LayoutNames.Select((name, layout) => (
            Name: name,
            Style: styles[name],
            Found: states.Select((_, state) => analysis.GroupOf(state, layout).Metrics.First(finding => finding.Metric == metric)).ToArray())).ToArray();
        var shares = new BarPanel("Share that misses", "Share of variants", "%", states,
            [.. layouts.Select(layout => new BarGroup(layout.Name, layout.Style, [.. layout.Found.Select(found => Percent(found, target))]))])
        {
            Decimals = 0,
            Upright = true,
            NamesBars = false,
            Range = new PlotRange(0, 115), // all of them, and the number above
        };
        return new Figure(
            $"sweep-misses-{SafeFileNames.Clean(target.Metric)}-at-{(target.IsUpper ? "most" : "least")}.png",
            Title(metric, target, [.. layouts.Select(layout => layout.Found.Select((found, state) => (Percent: Percent(found, target), Layout: layout.Name, State: states.Length > 1 ? states[state] : null)).MaxBy(worst => worst.Percent))]),
            "Left: share of variants that miss the target; one that cannot be run counts as a miss. Right: the range of the middle 90 %, with the median.",
            SweepFigureParts.Footer(analysis),
            [new Panel(shares.Build()), new Panel(Spread(metric, target, states, layouts), 0, 1)]);
    }

    private static double Percent(MetricFinding found, SweepTarget target) => 100 * found.Misses.First(miss => miss.Target == target).Share;

    private static PlotModel Spread(SweepMetric metric, SweepTarget target, string[] states, (string Name, SeriesStyle Style, MetricFinding[] Found)[] layouts)
    {
        var model = Theme.Panel(metric.Label);
        var defined = layouts.SelectMany(layout => layout.Found).Select(found => found.Statistics).Where(statistics => statistics.Count > 0).ToArray();
        model.Axes.Add(PlotAxis.Names(AxisPosition.Bottom, states));
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, metric.Label, metric.Unit, PlotRange.Of([target.Limit, .. defined.SelectMany(found => new[] { found.Percentile5, found.Percentile95 })], padding: 0.1)));
        for (var i = 0; i < layouts.Length; i++)
        {
            for (var state = 0; state < states.Length; state++)
            {
                var statistics = layouts[i].Found[state].Statistics;
                if (statistics.Count == 0)
                    continue;
                var place = state + ((i - ((layouts.Length - 1) / 2.0)) * Width / layouts.Length);
                var style = layouts[i].Style;
                var range = new LineSeries { Color = style.Color, StrokeThickness = 3, ToolTip = layouts[i].Name };
                range.Points.AddRange([new DataPoint(place, statistics.Percentile5), new DataPoint(place, statistics.Percentile95)]);
                var median = new LineSeries
                {
                    LineStyle = LineStyle.None,
                    MarkerType = style.Marker,
                    MarkerSize = 1.4 * Theme.MarkerSize,
                    MarkerFill = style.MarkerFill,
                    MarkerStroke = style.Color,
                    MarkerStrokeThickness = style.MarkerStroke,
                    ToolTip = layouts[i].Name,
                };
                median.Points.Add(new DataPoint(place, statistics.Median));
                model.Series.Add(range);
                model.Series.Add(median);
            }
        }

        ReferenceLine[] limit = [new ReferenceLine(target.Limit, $"{target.Words}{SweepFigureParts.Unit(metric)}")];
        ReferenceLineLabels.AddTo(model, limit);
        model.Annotations.Add(new DirectLabels([], LabelPlacement.None, limit));
        return model;
    }

    /// <summary>The layouts that miss least and most, each in its worst load state.</summary>
    private static string Title(SweepMetric metric, SweepTarget target, (double Percent, string Layout, string? State)[] groups)
    {
        var (least, most) = (groups.MinBy(group => group.Percent), groups.MaxBy(group => group.Percent));
        var what = $"{metric.Label} {target.Words}{SweepFigureParts.Unit(metric)}";
        string Share(double percent) => $"{PlotText.NotZero(percent, 0)} %";
        return Share(least.Percent) == Share(most.Percent)
            ? $"{what}: missed by {Share(most.Percent)} of the variants{(groups.Length > 1 ? " with every layout" : "")}"
            : $"{what}: missed by {Share(least.Percent)} of the variants with {Of(least)}, {Share(most.Percent)} with {Of(most)}";

        // Where none misses, no load state is the worst.
        static string Of((double Percent, string Layout, string? State) group) => $"“{group.Layout}”{(group is { State: { } state, Percent: > 0 } ? $" in “{state}”" : "")}";
    }
}
