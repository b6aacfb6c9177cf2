using RollRide.Sweeps;

namespace RollRide.Plots.Figures;

/// <summary>The shown metrics over the one parameter that was varied.</summary>
public static class SweepCurvesFigure
{
    /// <summary>Builds the figure; null where no metric is defined for two levels.</summary>
    /// <param name="analysis">What the sweep found, with one parameter in a full factorial.</param>
    /// <param name="state">The load state.</param>
    public static Figure? Build(SweepAnalysis analysis, int state)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        var plan = analysis.Plan;
        var parameter = plan.Parameters[0];
        var names = SweepFigureParts.Names(analysis);
        var (quantity, unit) = names[parameter];
        var order = Enumerable.Range(0, parameter.Values.Levels.Length).OrderBy(i => parameter.Values.Levels[i]).ToArray();
        var styles = SweepFigureParts.Styles(analysis);
        var (title, marks) = Finding(analysis, state, names.InSentence(parameter), unit);
        var panels = new List<Panel>();
        for (var shown = 0; shown < plan.Shown.Length; shown++)
        {
            var metric = plan.Shown[shown];
            var curves = plan.LayoutNames.Select((name, layout) =>
            {
                var values = analysis.ValuesOf(shown, state, layout);
                int[] defined = [.. order.Where(i => double.IsFinite(values[i]))];
                return defined.Length < 2 ? null : new PlotSeries(name, styles[name], [.. defined.Select(i => parameter.Values.Levels[i])], [.. defined.Select(i => values[i])]).Marked;
            }).OfType<PlotSeries>().ToArray();
            if (curves.Length == 0)
                continue;
            panels.Add(new Panel(
                new CurvePanel(plan.Shown.Length > 1 ? metric.Label : null, quantity, unit, metric.Label, metric.Unit, curves)
                {
                    LogarithmicX = parameter.Values.IsLogarithmic,
                    ReferenceLines = SweepFigureParts.TargetLines(analysis, metric),
                    Peaks = shown == 0 ? marks : [],
                    Labels = panels.Count == 0 ? LabelPlacement.AbovePanels : LabelPlacement.None,
                }.Build(),
                0,
                panels.Count));
        }

        return panels.Count == 0 ? null : new Figure(
            SweepFigureParts.FileName(analysis, "curves", null, state),
            title,
            $"What {names.InSentence(parameter)} changes{SweepFigureParts.In(analysis, state)}",
            SweepFigureParts.Footer(analysis),
            panels);
    }

    /// <summary>What the first metric does with the layout with which it changes most, and where on its curve that is.</summary>
    private static (string Title, IReadOnlyList<PeakMark> Marks) Finding(SweepAnalysis analysis, int state, string quantity, string unit)
    {
        var metric = analysis.Plan.Shown[0];
        var levels = analysis.Plan.Parameters[0].Values.Levels;
        var most = Enumerable.Range(0, analysis.Plan.Layouts.Length)
            .Select(layout => (Layout: layout, Values: analysis.ValuesOf(0, state, layout).ToArray()))
            .Where(item => double.IsFinite(item.Values[levels.IndexOf(levels.Min())]) && double.IsFinite(item.Values[levels.IndexOf(levels.Max())]))
            .Select(item => (item.Layout, item.Values, First: item.Values[levels.IndexOf(levels.Min())], Last: item.Values[levels.IndexOf(levels.Max())], Least: item.Values.Where(double.IsFinite).Min(), Greatest: item.Values.Where(double.IsFinite).Max()))
            .OrderByDescending(item => item.Greatest - item.Least)
            .FirstOrDefault((Layout: -1, Values: [], First: 0, Last: 0, Least: 0, Greatest: 0));
        if (most.Layout < 0)
            return ($"{metric.Label} over {quantity}", []);
        var name = analysis.Plan.LayoutNames.ElementAt(most.Layout);

        // A hump or a dip between the ends is what a designer looks for: the ends alone would hide it.
        string Shown(double value) => SweepFigureParts.Value(metric, value);
        double LevelOf(double value) => levels[Array.IndexOf(most.Values, value)];
        bool humps = Shown(most.Greatest) != Shown(Math.Max(most.First, most.Last)), dips = Shown(most.Least) != Shown(Math.Min(most.First, most.Last));
        PeakMark Mark(double value) => new(LevelOf(value), value, FigureParts.Text($"{Shown(value)} at {LevelOf(value)} {unit}").TrimEnd(), SweepFigureParts.Styles(analysis)[name]);
        PeakMark[] marks = [.. new[] { most.First, most.Last, most.Least, most.Greatest }.Distinct().Select(Mark)];
        if (humps || dips)
        {
            var peak = humps ? FigureParts.Text($"greatest, {Shown(most.Greatest)}, at {LevelOf(most.Greatest)} {unit}").TrimEnd() : "";
            var dip = dips ? FigureParts.Text($"least, {Shown(most.Least)}, at {LevelOf(most.Least)} {unit}").TrimEnd() : "";
            return (FigureParts.Text($"{metric.Label} with “{name}” is {peak}{(humps && dips ? ", and " : "")}{dip}; {Shown(most.First)} and {Shown(most.Last)} at the ends of {quantity}"), marks);
        }

        return (FigureParts.Text($"{metric.Label} goes from {Shown(most.First)} to {Shown(most.Last)} with “{name}” as {quantity} goes from {levels.Min()} to {levels.Max()} {unit}").TrimEnd(), marks);
    }
}
