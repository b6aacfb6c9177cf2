using RollRide.Dynamics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Load of the left and right tyres over time.</summary>
public static class TyreLoadFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var vehicle = result.Study.Vehicle;
        var phases = FigureParts.Phases(result.Study);
        var atRest = vehicle.StaticTyreLoad * vehicle.ContactPositions.Count / 2 / 1e3;
        TimePanel Of(string title, Channel channel) => new(title, "Tyre load", "kN", FigureParts.Series(result, channel, 1e-3))
        {
            Phases = phases,
            ReferenceLines = [new ReferenceLine(atRest, $"at rest {PlotText.Value(atRest, 1, "kN")}"), new ReferenceLine(0, "lift-off")],
        };
        var panels = TimePanel.Stack([Of("Left side", Channel.TyreLoadLeft), Of("Right side", Channel.TyreLoadRight)]);
        return new Figure("tyre-loads.png", Title(result), "Do the tyres stay on the road?", FigureParts.Footer(result.Study), panels);
    }

    private static string Title(ComparisonResult result)
    {
        var lifting = result.Layouts.Where(layout => layout.Metrics.Whole.LiftOffTime > 0).ToArray();
        if (lifting.Length > 0)
        {
            var longest = lifting.MaxBy(layout => layout.Metrics.Whole.LiftOffTime)!;
            return FigureParts.Text($"WHEEL LIFT, rollover risk: up to {longest.Metrics.Whole.LiftOffTime:F2} s in the air with {FigureParts.Join([.. lifting.Select(layout => $"'{layout.Name}'")])}");
        }

        var least = result.Layouts.MinBy(layout => layout.Metrics.Whole.TyreLoadMinimum)!;
        return FigureParts.Text($"All tyres stay on the road; the least load is {least.Metrics.Whole.TyreLoadMinimum / 1e3:F1} kN, with '{least.Name}'");
    }
}
