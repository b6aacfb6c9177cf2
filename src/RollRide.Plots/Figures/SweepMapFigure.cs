using RollRide.Findings;
using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>A map of one metric over the two parameters that were varied, for each layout.</summary>
public static class SweepMapFigure
{
    private const int MostInARow = 4;

    /// <summary>Builds the figure.</summary>
    /// <param name="analysis">What the sweep found, with two parameters in a full factorial.</param>
    /// <param name="shown">Place of the metric among those shown.</param>
    /// <param name="state">The load state.</param>
    public static Figure Build(SweepAnalysis analysis, int shown, int state)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        var plan = analysis.Plan;
        var metric = plan.Shown[shown];
        var names = SweepFigureParts.Names(analysis);
        var (x, xOrder) = AxisOf(names, plan.Parameters[0]);
        var (y, yOrder) = AxisOf(names, plan.Parameters[1]);
        var byLayout = plan.LayoutNames.Select((_, layout) => analysis.ValuesOf(shown, state, layout)).ToArray();
        var columns = Math.Min(byLayout.Length, MostInARow);
        var panels = plan.LayoutNames.Select((name, layout) => new Panel(
            new ContourPanel(name, x, y, Grid(byLayout[layout], xOrder, yOrder))
            {
                Targets = [.. plan.Targets.Where(target => target.Metric == metric.Key).Select(target => (target.Limit, target.IsUpper))],
            }.Build(),
            layout / columns,
            layout % columns)).ToArray();
        var targets = plan.Targets.Where(target => target.Metric == metric.Key).ToArray();
        var shownThere = targets.Length == 0
            ? "Dots: computed."
            : $"Target: {string.Join(", ", targets.Select(target => target.Words))}{SweepFigureParts.Unit(metric)}. Full dots keep it, hollow ones miss it; broad line: at the target.";
        return new Figure(
            SweepFigureParts.FileName(analysis, "map", shown, state), Title(analysis, shown, state, byLayout), shownThere + SweepFigureParts.In(analysis, state), SweepFigureParts.Footer(analysis), panels);
    }

    private static string Title(SweepAnalysis analysis, int shown, int state, double[][] byLayout)
    {
        var metric = analysis.Plan.Shown[shown];
        var names = analysis.Plan.LayoutNames.ToArray();
        if (analysis.Plan.Targets.FirstOrDefault(target => target.Metric == metric.Key) is { } target)
        {
            var kept = byLayout.Select((values, i) => FigureParts.Text($"in {values.Count(value => !target.IsMissedBy(value))} of {values.Length} variants with “{names[i]}”"));
            return $"{metric.Label} stays {target.Words}{SweepFigureParts.Unit(metric)} {FigureParts.Join([.. kept])}";
        }

        var ranges = byLayout.Select((values, i) => (Values: values.Where(double.IsFinite).ToArray(), Name: names[i]))
            .Where(item => item.Values.Length > 0)
            .Select(item => $"{PlotText.Number(item.Values.Min(), metric.Decimals)} to {SweepFigureParts.Value(metric, item.Values.Max())} with “{item.Name}”");
        return $"{metric.Label}: {FigureParts.Join([.. ranges])}";
    }

    private static (ContourAxis Axis, int[] Order) AxisOf(ParameterNames names, SweepParameter parameter)
    {
        var (quantity, unit) = names[parameter];
        int[] order = [.. Enumerable.Range(0, parameter.Values.Levels.Length).OrderBy(i => parameter.Values.Levels[i])];
        return (new ContourAxis(quantity, unit, [.. order.Select(i => parameter.Values.Levels[i])], parameter.Values.IsLogarithmic), order);
    }

    // The second parameter changes fastest in a full factorial.
    private static double[,] Grid(double[] values, int[] xOrder, int[] yOrder)
    {
        var grid = new double[xOrder.Length, yOrder.Length];
        for (var i = 0; i < xOrder.Length; i++)
        {
            for (var j = 0; j < yOrder.Length; j++)
                grid[i, j] = values[(xOrder[i] * yOrder.Length) + yOrder[j]];
        }

        return grid;
    }
}
