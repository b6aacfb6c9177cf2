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
        var rows = result.Layouts.Length <= MostInARow ? OneRow : TwoRows;
        BarPanel Of(string? title, ModeName[] modes) => new(title, "Damping ratio", "", [.. modes.Select(mode => mode.ToString())],
            [.. result.Layouts.Select((layout, i) => new BarGroup(layout.Name, i, [.. modes.Select(mode => layout.ReferenceModes[mode].DampingRatio)]))])
        {
            Decimals = 2,
            Upright = true,
            Headroom = rows.Length == 1 ? 0.2 : 0.5,
        };
        return new Figure("damping-ratios.png", Title(result), FigureParts.Text($"How well is each mode damped, at {speed:0.###} m/s damper velocity? (body: heave, roll; axle: hop, tramp)"),
            FigureParts.Footer(result.Study), [.. rows.Select((row, i) => new Panel(Of(row.Title, row.Modes).Build(), i))]);
    }

    private static string Title(ComparisonResult result)
    {
        static double Ratio(LayoutResult layout, ModeName mode) => layout.ReferenceModes[mode].DampingRatio;
        var best = result.Layouts.MaxBy(layout => Ratio(layout, ModeName.Roll))!;
        var worst = result.Layouts.MinBy(layout => Ratio(layout, ModeName.Roll))!;
        return result.Layouts.Length == 1 || Ratio(best, ModeName.Roll) - Ratio(worst, ModeName.Roll) < 0.005
            ? FigureParts.Text($"Damping ratio: {Ratio(best, ModeName.Heave):F2} in heave, {Ratio(best, ModeName.Roll):F2} in roll")
            : FigureParts.Text($"Damping ratio of roll: {Ratio(best, ModeName.Roll):0.00#} with '{best.Name}', {Ratio(worst, ModeName.Roll):0.00#} with '{worst.Name}'");
    }
}
