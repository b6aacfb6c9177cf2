using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>All figures of a sweep: those that its design has something to show in.</summary>
public static class SweepFigures
{
    /// <summary>Builds the figures, for each load state its own.</summary>
    /// <param name="analysis">What the sweep found; of at most <see cref="LayoutStyles.Count"/> layouts.</param>
    public static IReadOnlyList<Figure> All(SweepAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        var states = Enumerable.Range(0, analysis.Plan.StateCount);
        var shown = Enumerable.Range(0, analysis.Plan.Shown.Length);
        IEnumerable<Figure?> figures = analysis.Plan switch
        {
            { Design: FullFactorial, Parameters: [{ Values.Levels.Length: > 1 }] } => states.Select(state => SweepCurvesFigure.Build(analysis, state)),
            { Design: FullFactorial, Parameters: [{ Values.Levels.Length: > 1 }, { Values.Levels.Length: > 1 }] } =>
                states.SelectMany(state => shown.Select(metric => SweepMapFigure.Build(analysis, metric, state))),
            { Design: OneAtATime } => states.SelectMany(state => shown.Select(metric => TornadoFigure.Build(analysis, metric, state))),
            { Design.Count: > 1 } => states.SelectMany(state => shown
                .Select(metric => DriversFigure.Build(analysis, metric, state))
                .Append(ScatterMatrixFigure.Build(analysis, state))),
            _ => [],
        };
        return [.. analysis.Plan.Targets.Select(target => SweepMissesFigure.Build(analysis, target)), .. figures.OfType<Figure>()];
    }
}
