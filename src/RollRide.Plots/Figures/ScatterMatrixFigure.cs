using OxyPlot;
using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>Every shown metric over every parameter and over the other metrics, one point per variant.</summary>
public static class ScatterMatrixFigure
{
    private const int MostColumns = 6;
    private const int MostPoints = 1500;

    /// <summary>Builds the figure; null where no metric is ever defined. Of many parameters the first are shown.</summary>
    /// <param name="analysis">What the sweep found.</param>
    /// <param name="state">The load state.</param>
    public static Figure? Build(SweepAnalysis analysis, int state)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        var plan = analysis.Plan;
        int[] points = [.. Enumerable.Range(0, (int)plan.Design.Count).Where(i => plan.Design.CountsInStatistics(i)).Take(MostPoints)];
        var metrics = Enumerable.Range(0, plan.Shown.Length)
            .Select(shown => Variable.OfMetric(plan.Shown[shown], [.. plan.LayoutNames.Select((_, layout) => analysis.ValuesOf(shown, state, layout))], points))
            .Where(metric => metric.IsDefined)
            .ToArray();
        if (metrics.Length == 0)
            return null;
        var parameterNames = SweepFigureParts.Names(analysis);
        var inputs = points.Select(i => plan.ValuesOf((state * plan.Design.Count) + i)).ToArray();
        var parameters = plan.Parameters.Take(MostColumns - (metrics.Length - 1))
            .Select((parameter, p) => Variable.OfParameter(parameterNames[parameter], [.. inputs.Select(values => values[p])], plan.Layouts.Length));
        Variable[] columns = [.. parameters, .. metrics.SkipLast(1)];
        var styles = SweepFigureParts.Styles(analysis);
        var panels =
            from row in Enumerable.Range(0, metrics.Length)
            from column in Enumerable.Range(0, columns.Length)
            let place = column - (columns.Length - metrics.Length + 1)
            where place < row // below the diagonal of the metrics; above it would stand the same again
            select new Panel(
                new ScatterPanel(
                    columns[column].Axis,
                    metrics[row].Axis,
                    [.. plan.LayoutNames.Select((name, layout) => (name, styles[name], PointsOf(columns[column].Values[layout], metrics[row].Values[layout])))],
                    NamesX: row == metrics.Length - 1,
                    NamesY: column == 0,
                    NamesLayouts: row == 0 && column == 0).Build(),
                row,
                column);
        return new Figure(
            SweepFigureParts.FileName(analysis, "scatter", null, state),
            Title(analysis, state),
            FigureParts.Text($"Inputs and results against each other. One point per variant{(plan.Design.Count > points.Length ? $", {points.Length} of them" : "")}.{SweepFigureParts.In(analysis, state)}"),
            SweepFigureParts.Footer(analysis),
            [.. panels]);
    }

    private static string Title(SweepAnalysis analysis, int state)
    {
        var metric = analysis.Plan.Shown[0];
        var spreads = Enumerable.Range(0, analysis.Plan.Layouts.Length)
            .Select(layout => analysis.GroupOf(state, layout))
            .Select(group => (group.Layout, group.Metrics.First(finding => finding.Metric == metric).Statistics))
            .Where(group => group.Statistics.Count > 0)
            .Select(group => $"{PlotText.Number(group.Statistics.Percentile5, metric.Decimals)} to {PlotText.Number(group.Statistics.Percentile95, metric.Decimals)} with “{group.Layout}”");
        return $"{metric.Label}{(metric.Unit.Length == 0 ? "" : $" [{metric.Unit}]")}, 90 % of the variants: {FigureParts.Join([.. spreads])}";
    }

    private static IReadOnlyList<DataPoint> PointsOf(double[] x, double[] y) =>
        [.. x.Zip(y).Where(point => double.IsFinite(point.First) && double.IsFinite(point.Second)).Select(point => new DataPoint(point.First, point.Second))];

    /// <summary>A parameter or metric, by layout and point.</summary>
    private sealed record Variable((string Quantity, string Unit, PlotRange Range) Axis, double[][] Values, bool IsDefined)
    {
        private const double Padding = 0.06;

        public static Variable OfMetric(SweepMetric metric, double[][] byLayout, int[] points)
        {
            double[][] values = [.. byLayout.Select(all => points.Select(i => all[i]).ToArray())];
            double[] defined = [.. values.SelectMany(layout => layout).Where(double.IsFinite)];
            return new Variable((metric.Label, metric.Unit, defined.Length == 0 ? new PlotRange(0, 1) : PlotRange.Of(defined, Padding)), values, defined.Length > 0);
        }

        public static Variable OfParameter((string Quantity, string Unit) name, double[] values, int layouts) =>
            new((name.Quantity, name.Unit, PlotRange.Of(values, Padding)), [.. Enumerable.Repeat(values, layouts)], true);
    }
}
