using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Damping ratio of each mode by layout.</summary>
public static class DampingRatioFigure
{
    // Of more layouts than this, four modes side by side leave no room for the numbers at the bars.
    private const int MostInARow = 3;

    private static readonly (string? Title, ModeName[] Modes)[] OneRow = [(null, Enum.GetValues<ModeName>())];
    private static readonly (string? Title, ModeName[] Modes)[] TwoRows =
        [("Body", [ModeName.Heave, ModeName.Roll]), ("Axle", [ModeName.Hop, ModeName.Tramp])];

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var speed = result.Study.Analysis.ReferenceVelocity;
        // Targets for another velocity say nothing about these bars.
        var limits = result.Study.Targets is { } targets && targets.Velocity == speed ? targets : null;
        var rows = result.Layouts.Length <= MostInARow ? OneRow : TwoRows;
        var styles = StudyStyles.Of(result.Study);
        BarPanel Of(string? title, ModeName[] modes) => new(title, "Damping ratio", "", [.. modes.Select(mode => mode.ToString())],
            [.. result.Layouts.Select(layout => new BarGroup(layout.Name, styles[layout.Name], [.. modes.Select(mode => layout.ReferenceModes[mode].DampingRatio)]))])
        {
            Decimals = 2,
            Upright = true,
            Limits = limits is null ? [] : [.. modes.SelectMany((mode, i) => LimitsOf(limits, mode).Select(value => new BarLimit(i, value)))],
            Headroom = rows.Length == 1 ? 0.2 : 0.5,
        };
        var panels = rows.Select(row => Of(row.Title, row.Modes)).ToArray();
        var range = PlotRange.Over(panels.Select(panel => panel.ValueRange()));
        var lines = limits is null ? "" : " Dashed: the scenario's targets.";
        return new Figure("damping-ratios.png", Title(result), FigureParts.Text($"At {speed:0.###} m/s damper velocity. Body: heave, roll; axle: hop, tramp.{lines}{FigureParts.InLoad(result.Study)}"),
            FigureParts.Footer(result.Study), [.. panels.Select((panel, i) => new Panel((panel with { Range = range }).Build(), i))]);
    }

    private static IEnumerable<double> LimitsOf(DampingTargets targets, ModeName mode) => (mode switch
    {
        ModeName.Heave => [targets.HeaveMinimum, targets.HeaveMaximum],
        ModeName.Roll => [targets.RollMinimum],
        ModeName.Hop => [targets.HopMinimum],
        _ => (double?[])[targets.TrampMinimum],
    }).OfType<double>();

    /// <summary>The mode of the body in which the layouts differ most; both where they differ in neither.</summary>
    private static string Title(ComparisonResult result)
    {
        static double Ratio(LayoutResult layout, ModeName mode) => layout.ReferenceModes[mode].DampingRatio;
        var ranges = new[] { ModeName.Roll, ModeName.Heave }.Select(mode => (
            Mode: mode,
            Best: result.Candidates.MaxBy(layout => Ratio(layout, mode))!,
            Worst: result.Candidates.MinBy(layout => Ratio(layout, mode))!)).ToArray();
        var (mode, best, worst) = ranges.MaxBy(range => Ratio(range.Best, range.Mode) - Ratio(range.Worst, range.Mode));
        string Over(ModeName of) => FigureParts.Range(result.Candidates.Min(layout => Ratio(layout, of)), result.Candidates.Max(layout => Ratio(layout, of)));
        return ranges.All(range => FigureParts.AreSimilar(Ratio(range.Worst, range.Mode), Ratio(range.Best, range.Mode)))
            ? $"Damping ratio: {Over(ModeName.Heave)} in heave, {Over(ModeName.Roll)} in roll{FigureParts.WithAll([.. result.Candidates.Select(layout => layout.Name)], result.Layouts.Length)}"
            : $"{mode} damping ratio: {PlotText.NotZero(Ratio(best, mode), 2)} with “{best.Name}”, {PlotText.NotZero(Ratio(worst, mode), 2)} with “{worst.Name}”";
    }
}
