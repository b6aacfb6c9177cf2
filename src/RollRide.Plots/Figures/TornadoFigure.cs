using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>How far each parameter alone moves a metric, for each layout.</summary>
public static class TornadoFigure
{
    private const int MostInARow = 3;

    /// <summary>Builds the figure; null where the metric is not defined.</summary>
    /// <param name="analysis">What the sweep found, one parameter at a time.</param>
    /// <param name="shown">Place of the metric among those shown.</param>
    /// <param name="state">The load state.</param>
    public static Figure? Build(SweepAnalysis analysis, int shown, int state)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        var metric = analysis.Plan.Shown[shown];
        var layouts = analysis.Plan.LayoutNames
            .Select((name, layout) => (Name: name, Swings: analysis.SwingsOf(shown, state, layout)))
            .Where(layout => !layout.Swings.IsEmpty)
            .ToArray();
        if (layouts.Length == 0)
            return null;
        var names = SweepFigureParts.Names(analysis);

        // One order and one scale for all layouts, so that they can be compared by eye.
        var order = layouts[0].Swings.Select(swing => swing.Parameter).ToArray();
        var range = TornadoPanel.RangeOf(layouts.SelectMany(layout => layout.Swings).SelectMany(swing => new[] { swing.Base, swing.Lowest, swing.Highest }));
        var columns = Math.Min(layouts.Length, MostInARow);
        var panels = layouts.Select((layout, i) => new Panel(
            new TornadoPanel(layout.Name, metric.Label, metric.Unit, layout.Swings[0].Base, [.. order
                .Select(parameter => layout.Swings.FirstOrDefault(swing => swing.Parameter == parameter))
                .OfType<Swing>()
                .Select(swing => new TornadoBar(names.WithUnit(swing.Parameter), swing.Lowest, swing.Highest))])
            {
                Decimals = metric.Decimals,
                WithNames = i % columns == 0,
                Range = range,
            }.Build(),
            i / columns,
            i % columns)).ToArray();
        var strongest = layouts.SelectMany(layout => layout.Swings.Select(swing => (layout.Name, Swing: swing))).MaxBy(item => item.Swing.Extent);
        return new Figure(
            SweepFigureParts.FileName(analysis, "tornado", shown, state),
            $"{metric.Label} moves most with {names.InSentence(strongest.Swing.Parameter)}: {SweepFigureParts.Value(metric, strongest.Swing.Lowest)} to {SweepFigureParts.Value(metric, strongest.Swing.Highest)}{(strongest.Swing.TurnsRound ? $", but {SweepFigureParts.Value(metric, strongest.Swing.Base)} as it stands," : "")} with “{strongest.Name}”",
            $"Each parameter changed by itself. Open: its lowest level, filled: its highest.{SweepFigureParts.In(analysis, state)}",
            SweepFigureParts.Footer(analysis),
            panels);
    }
}
