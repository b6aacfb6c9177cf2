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
        BarPanel Of(string? title, ModeName[] modes) => new(title, "Damping ratio", "", [.. modes.Select(mode => mode.ToString())],
            [.. result.Layouts.Select((layout, i) => new BarGroup(layout.Name, i, [.. modes.Select(mode => layout.ReferenceModes[mode].DampingRatio)]))])
        {
            Decimals = 2,
            Upright = true,
            Limits = limits is null ? [] : [.. modes.SelectMany((mode, i) => LimitsOf(limits, mode).Select(value => new BarLimit(i, value)))],
            Headroom = rows.Length == 1 ? 0.2 : 0.5,
        };
        var lines = limits is null ? "" : " Dashed: the scenario's targets.";
        return new Figure("damping-ratios.png", Title(result), FigureParts.Text($"How well is each mode damped, at {speed:0.###} m/s damper velocity? (body: heave, roll; axle: hop, tramp){lines}"),
            FigureParts.Footer(result.Study), [.. rows.Select((row, i) => new Panel(Of(row.Title, row.Modes).Build(), i))]);
    }

    private static IEnumerable<double> LimitsOf(DampingTargets targets, ModeName mode) => (mode switch
    {
        ModeName.Heave => [targets.HeaveMinimum, targets.HeaveMaximum],
        ModeName.Roll => [targets.RollMinimum],
        ModeName.Hop => [targets.HopMinimum],
        _ => (double?[])[targets.TrampMinimum],
    }).OfType<double>();

    // Two decimals as at the bars, and no zero that a small ratio only rounds to.
    private static string Number(double ratio) => ratio is > 0 and < 0.01 ? "less than 0.01" : FigureParts.Text($"{ratio:F2}");

    private static string Title(ComparisonResult result)
    {
        static double Ratio(LayoutResult layout, ModeName mode) => layout.ReferenceModes[mode].DampingRatio;
        var best = result.Candidates.MaxBy(layout => Ratio(layout, ModeName.Roll))!;
        var worst = result.Candidates.MinBy(layout => Ratio(layout, ModeName.Roll))!;
        return result.Candidates.Length == 1 || Ratio(best, ModeName.Roll) - Ratio(worst, ModeName.Roll) < 0.005
            ? FigureParts.Text($"Damping ratio: {Ratio(best, ModeName.Heave):F2} in heave, {Ratio(best, ModeName.Roll):F2} in roll")
            : FigureParts.Text($"Damping ratio of roll: {Number(Ratio(best, ModeName.Roll))} with '{best.Name}', {Number(Ratio(worst, ModeName.Roll))} with '{worst.Name}'");
    }
}
