using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Load of the left and right tyres over time.</summary>
public static class TyreLoadFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var vehicle = result.Layouts[0].Car.Vehicle;
        var phases = FigureParts.Phases(result.Study);
        var atRest = Unit.Kilonewton.Of(vehicle.StaticTyreLoad * vehicle.ContactPositions.Count / 2);
        var (left, right) = (FigureParts.Series(result, Channel.TyreLoadLeft, Unit.Kilonewton), FigureParts.Series(result, Channel.TyreLoadRight, Unit.Kilonewton));
        var loads = PlotRange.Of([.. left.Concat(right).SelectMany(curve => curve.Y), 0, atRest]);
        TimePanel Of(string title, Side side, IReadOnlyList<PlotSeries> curves) => new(title, "Tyre load", "kN", curves)
        {
            Phases = phases,
            Values = loads,
            Marked = Lifts(result, side),
            ReferenceLines = [new ReferenceLine(atRest, $"at rest {PlotText.Value(atRest, 1, "kN")}"), new ReferenceLine(0, "lift-off")],
        };
        var panels = TimePanel.Stack([Of("Left side", Side.Left, left), Of("Right side", Side.Right, right)]);
        return new Figure("tyre-loads.png", Title(result), "Do the tyres stay on the road? Darker: that side is in the air with some layout.", FigureParts.Footer(result.Study), panels);
    }

    /// <summary>When the side was in the air with any layout.</summary>
    private static IReadOnlyList<PlotSpan> Lifts(RecordedComparison result, Side side) =>
        [.. result.Layouts.SelectMany(layout => layout.Metrics.WheelLifts).Where(lift => lift.Side == side && lift.Duration > 0)
            .Select(lift => new PlotSpan(lift.Start, lift.Start + lift.Duration, ""))];

    private static string Title(RecordedComparison result)
    {
        var lifting = result.Layouts.Where(layout => layout.Metrics.LiftsWhileCornering).ToArray();
        if (lifting.Length > 0)
            return FigureParts.Text($"WHEEL LIFT, rollover risk: up to {lifting.Max(layout => layout.Metrics.CornerLiftOffTime):F2} s in the air with {Names(lifting)}");
        var hopping = result.Layouts.Where(layout => layout.Metrics.WheelLifts.Length > 0).ToArray();
        if (hopping.Length > 0)
            return FigureParts.Text($"Driving straight a wheel leaves the road for up to {hopping.Max(layout => layout.Metrics.Whole.LiftOffTime):F2} s with {Names(hopping)}");
        var pairs = result.Layouts.Where(layout => layout.Metrics.OneTyreLiftOffTime > 0).ToArray();
        if (pairs.Length > 0)
            return FigureParts.Text($"No side lifts, but one tyre of a pair is in the air for up to {pairs.Max(layout => layout.Metrics.OneTyreLiftOffTime):F2} s with {Names(pairs)}");

        var least = result.Candidates.MinBy(layout => layout.Metrics.Whole.TyreLoadMinimum)!;
        return FigureParts.Text($"All tyres stay on the road; the least load is {Unit.Kilonewton.Show(least.Metrics.Whole.TyreLoadMinimum):F1}, with '{least.Name}'");
    }

    private static string Names(IEnumerable<LayoutResult> layouts) => FigureParts.Join([.. layouts.Select(layout => $"'{layout.Name}'")]);
}
