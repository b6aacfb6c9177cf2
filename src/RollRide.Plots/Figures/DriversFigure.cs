using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>What drives a metric in a sample of variants: Sobol indices where the design gives them, else rank correlations.</summary>
public static class DriversFigure
{
    private const int MostInARow = 3;

    /// <summary>Builds the figure; null where the metric does not change.</summary>
    /// <param name="analysis">What the sweep found.</param>
    /// <param name="shown">Place of the metric among those shown.</param>
    /// <param name="state">The load state.</param>
    public static Figure? Build(SweepAnalysis analysis, int shown, int state)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        var metric = analysis.Plan.Shown[shown];
        var layouts = Enumerable.Range(0, analysis.Plan.Layouts.Length)
            .Select(layout => analysis.GroupOf(state, layout))
            .Select(group => (Name: group.Layout, Influences: group.Metrics.First(finding => finding.Metric == metric).Influences.Where(influence => !double.IsNaN(StrengthOf(influence))).ToArray()))
            .Where(layout => layout.Influences.Length > 0)
            .ToArray();
        if (layouts.Length == 0)
            return null;
        var names = SweepFigureParts.Names(analysis);
        var withIndices = layouts[0].Influences[0].FirstOrder is not null;
        var order = layouts[0].Influences.OrderByDescending(influence => Math.Abs(StrengthOf(influence))).Select(influence => influence.Parameter).ToArray();
        var columns = Math.Min(layouts.Length, MostInARow);

        // No correlation exceeds 1, so the axis goes no further than the value beside a full bar needs: more of it the narrower it is.
        var fullBar = 1 + (0.2 * columns);
        var panels = layouts.Select((layout, i) => new Panel(
            new TornadoPanel(layout.Name, withIndices ? "First-order index" : "Rank correlation", "", 0, [.. order
                .Select(parameter => layout.Influences.FirstOrDefault(influence => influence.Parameter == parameter))
                .OfType<InputInfluence>()
                .Select(influence => new TornadoBar(names.WithUnit(influence.Parameter), 0, StrengthOf(influence)))])
            {
                Decimals = 2,
                WithNames = i % columns == 0,

                Range = withIndices ? new PlotRange(-0.15, 1.3) : new PlotRange(-fullBar, fullBar),
            }.Build(),
            i / columns,
            i % columns)).ToArray();
        var strongest = layouts.SelectMany(layout => layout.Influences.Select(influence => (layout.Name, Influence: influence))).MaxBy(item => Math.Abs(StrengthOf(item.Influence)));
        var strength = StrengthOf(strongest.Influence);
        return new Figure(
            SweepFigureParts.FileName(analysis, "drivers", shown, state),
            withIndices
                ? FigureParts.Text($"{names[strongest.Influence.Parameter].Quantity} drives {metric.Label} most: first-order index {strength:F2} with “{strongest.Name}”")
                : $"{metric.Label} {(strength > 0 ? "rises" : "falls")} with {names.InSentence(strongest.Influence.Parameter)}: rank correlation {PlotText.Number(strength, 2)} with “{strongest.Name}”",
            (withIndices
                ? "Share of the variance that each input causes by itself (first-order Sobol index: 1 is all of it)."
                : "Rank correlation with each input: 1 always rises with it, −1 always falls.") + SweepFigureParts.In(analysis, state),
            SweepFigureParts.Footer(analysis),
            panels);
    }

    private static double StrengthOf(InputInfluence influence) => influence.FirstOrder ?? influence.RankCorrelation;
}
