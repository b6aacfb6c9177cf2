using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Damping ratio of each mode by layout.</summary>
public static class DampingRatioFigure
{
    private static readonly string[] Names = ["Heave", "Roll", "Hop", "Tramp"];

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var speed = result.Study.Analysis.ReferenceVelocity;
        var panel = new BarPanel(null, "Damping ratio", "", Names,
            [.. result.Layouts.Select((layout, i) => new BarGroup(layout.Name, i, [.. layout.ReferenceModes.All.Select(mode => mode.DampingRatio)]))])
        {
            Decimals = 2,
            Upright = result.Layouts.Length <= 3,
        };
        return new Figure("damping-ratios.png", Title(result), FigureParts.Text($"How well is each mode damped, at {speed:0.###} m/s damper velocity? (body: heave, roll; axle: hop, tramp)"),
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }

    private static string Title(ComparisonResult result)
    {
        static double Ratio(LayoutResult layout, ModeName mode) => layout.ReferenceModes[mode].DampingRatio;
        var best = result.Layouts.MaxBy(layout => Ratio(layout, ModeName.Roll))!;
        var worst = result.Layouts.MinBy(layout => Ratio(layout, ModeName.Roll))!;
        return result.Layouts.Length == 1 || Ratio(best, ModeName.Roll) - Ratio(worst, ModeName.Roll) < 0.005
            ? FigureParts.Text($"Heave is damped with {Ratio(best, ModeName.Heave):F2}, roll with {Ratio(best, ModeName.Roll):F2}")
            : FigureParts.Text($"Roll is damped with {Ratio(best, ModeName.Roll):F2} by {best.Name}, with {Ratio(worst, ModeName.Roll):F2} by {worst.Name}");
    }
}
