using RollRide.Dynamics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Force–velocity curves of the dampers, with the part that each layout really used.</summary>
public static class DamperCurvesFigure
{
    // More panels side by side leave their axes too narrow to read.
    private const int MostColumns = 4;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);

        var columns = Math.Min(result.Layouts.Length, MostColumns);
        var panels = result.Layouts.Select((layout, i) => new Panel(Of(layout, i).Build(), i / columns, i % columns)).ToArray();
        return new Figure("damper-curves.png", Title(result), "Which part of the force–velocity curve does each layout use? Pale: the path of its faster damper.",
            FigureParts.Footer(result.Study), panels);
    }

    private static CurvePanel Of(LayoutResult layout, int index)
    {
        var points = layout.Car.Layout.Damper.Curve.Points;
        var curve = new PlotSeries(layout.Name, index, [.. points.Select(p => p.Velocity)], [.. points.Select(p => p.Force / 1e3)]);
        return new CurvePanel(layout.Name, "Damper velocity", "m/s", "Damper force", "kN", [curve])
        {
            Runs = [FasterPath(layout, index)],
            Labels = LabelPlacement.None,
        };
    }

    private static PlotSeries FasterPath(LayoutResult layout, int index)
    {
        var left = Path(layout, index, Channel.DamperVelocityLeft, Channel.DamperForceLeft);
        var right = Path(layout, index, Channel.DamperVelocityRight, Channel.DamperForceRight);
        return left.X.Max(Math.Abs) >= right.X.Max(Math.Abs) ? left : right;
    }

    private static PlotSeries Path(LayoutResult layout, int index, Channel velocity, Channel force) =>
        new(layout.Name, index, layout.History[velocity].ToArray(), [.. layout.History[force].ToArray().Select(f => f / 1e3)]);

    private static string Title(ComparisonResult result)
    {
        var fast = result.Layouts.MaxBy(layout => layout.Metrics.Whole.DamperReboundVelocityPeak)!;
        var slow = result.Layouts.MinBy(layout => layout.Metrics.Whole.DamperReboundVelocityPeak)!;
        var (high, low) = (fast.Metrics.Whole.DamperReboundVelocityPeak, slow.Metrics.Whole.DamperReboundVelocityPeak);
        return high - low < 0.05
            ? FigureParts.Text($"The dampers reach {high:F2} m/s in rebound")
            : FigureParts.Text($"Dampers reach {high:F2} m/s in rebound with '{fast.Name}', {low:F2} m/s with '{slow.Name}'");
    }
}
