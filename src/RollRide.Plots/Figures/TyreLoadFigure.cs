using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Load of the left and right tyres over time.</summary>
public static class TyreLoadFigure
{
    // Of a longer run than this, the layout drawn last hides the others: so much about the least load is shown.
    private const double LongestRun = 10, ShownOfLonger = 4;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var phases = FigureParts.Phases(result.Study);
        double AtRest(Side side) => Unit.Kilonewton.Of(result.Layouts[0].Car.StaticSideLoad(side));
        var (left, right) = (FigureParts.Series(result, Channel.TyreLoadLeft, Unit.Kilonewton), FigureParts.Series(result, Channel.TyreLoadRight, Unit.Kilonewton));
        var least = Least(result, left, right);
        var duration = result.Study.Manoeuvre.Duration;
        if (duration > LongestRun)
        {
            var (start, end) = FigureParts.About(least.Mark.X, 0, duration, ShownOfLonger);
            (left, right) = (FigureParts.Series(result, Channel.TyreLoadLeft, Unit.Kilonewton, start, end), FigureParts.Series(result, Channel.TyreLoadRight, Unit.Kilonewton, start, end));
        }

        // Among the curves there is no room for the name of the line about which they swing.
        TimePanel Of(string title, Side side, IReadOnlyList<PlotSeries> curves) => new($"{title}; dashed: at rest {PlotText.Value(AtRest(side), 1, "kN")}", "Tyre load", "kN", curves)
        {
            Phases = phases,
            Labels = LabelPlacement.AbovePanels,
            NamesLinesInside = true,
            Marked = Lifts(result, side),
            ReferenceLines = [new ReferenceLine(AtRest(side), ""), new ReferenceLine(0, "lift-off")],
            Peaks = side == least.Side ? [least.Mark] : [],
        };
        Panel[] panels = [.. TimePanel.OnOneScale([Of("Left side", Side.Left, left), Of("Right side", Side.Right, right)]).Select((panel, column) => new Panel(panel.Build(), 0, column))];
        var lifts = result.Layouts.Any(layout => layout.Metrics.WheelLifts.Length > 0);
        var part = duration > LongestRun ? FigureParts.Text($" {ShownOfLonger:F0} s about the least load.") : "";
        return new Figure("tyre-loads.png", Title(result), $"Tyre load on each side.{(lifts ? " Darker: that side is in the air with some layout." : "")}{part}", FigureParts.Footer(result.Study), panels) { NeedsWidth = true };
    }

    /// <summary>The least load of all layouts, or how long the side of the longest lift, or one tyre of a pair, is in the air.</summary>
    private static (Side Side, PeakMark Mark) Least(RecordedComparison result, IReadOnlyList<PlotSeries> left, IReadOnlyList<PlotSeries> right)
    {
        var styles = StudyStyles.Of(result.Study);
        if (Lifting(result) is var (layout, time, _) && layout.Metrics.WheelLifts.MaxBy(found => found.Duration) is { } lift)
            return (lift.Side, new PeakMark(lift.Start + (lift.Duration / 2), 0, FigureParts.Text($"{time:F2} s in the air"), styles[layout.Name]));
        if (MostLiftedTyre(result) is { } pair)
            return Least(left, right, curve => curve.Name == pair.Name, FigureParts.Text($"one tyre {pair.Metrics.OneTyreLiftOffTime:F2} s in the air"));
        return Least(left, right, _ => true, Load(result.Layouts.Min(other => other.Metrics.Whole.TyreLoadMinimum)));
    }

    /// <summary>The layout of which one tyre of a pair is longest in the air; null where none is.</summary>
    private static RecordedLayout? MostLiftedTyre(RecordedComparison result) => result.Layouts.MaxBy(layout => layout.Metrics.OneTyreLiftOffTime) is { Metrics.OneTyreLiftOffTime: > 0 } most ? most : null;

    private static (Side Side, PeakMark Mark) Least(IReadOnlyList<PlotSeries> left, IReadOnlyList<PlotSeries> right, Func<PlotSeries, bool> counts, string text)
    {
        var (side, curve, at) = left.Select(curve => (Side: Side.Left, Curve: curve)).Concat(right.Select(curve => (Side: Side.Right, Curve: curve)))
            .Where(found => counts(found.Curve))
            .Select(found => (found.Side, found.Curve, At: Enumerable.Range(0, found.Curve.Y.Count).MinBy(i => found.Curve.Y[i])))
            .MinBy(found => found.Curve.Y[found.At]);
        return (side, new PeakMark(curve.X[at], curve.Y[at], text, curve.Style));
    }

    /// <summary>The layout of which a side is longest in the air, for how long, and whether that is while cornering; null where none lifts.</summary>
    private static (RecordedLayout Layout, double Time, bool InCorner)? Lifting(RecordedComparison result)
    {
        if (result.Layouts.Any(layout => layout.Metrics.LiftsWhileCornering))
        {
            var worst = result.Layouts.MaxBy(layout => layout.Metrics.CornerLiftOffTime)!;
            return (worst, worst.Metrics.CornerLiftOffTime, true);
        }

        return result.Layouts.Where(layout => layout.Metrics.WheelLifts.Length > 0).MaxBy(layout => layout.Metrics.Whole.LiftOffTime) is { } hopping
            ? (hopping, hopping.Metrics.Whole.LiftOffTime, false)
            : null;
    }

    /// <summary>When the side was in the air with any layout.</summary>
    private static IReadOnlyList<PlotSpan> Lifts(RecordedComparison result, Side side) =>
        [.. result.Layouts.SelectMany(layout => layout.Metrics.WheelLifts).Where(lift => lift.Side == side && lift.Duration > 0)
            .Select(lift => new PlotSpan(lift.Start, lift.Start + lift.Duration, ""))];

    private static string Title(RecordedComparison result)
    {
        if (Lifting(result) is var (_, time, inCorner))
        {
            return inCorner
                ? FigureParts.Text($"WHEEL LIFT, rollover risk: up to {time:F2} s in the air with {Names(result.Layouts.Where(layout => layout.Metrics.LiftsWhileCornering))}")
                : FigureParts.Text($"Driving straight a wheel leaves the road for up to {time:F2} s with {Names(result.Layouts.Where(layout => layout.Metrics.WheelLifts.Length > 0))}");
        }

        if (MostLiftedTyre(result) is { } most)
            return FigureParts.Text($"No side lifts, but one tyre of a pair is in the air for up to {most.Metrics.OneTyreLiftOffTime:F2} s with {Names(result.Layouts.Where(layout => layout.Metrics.OneTyreLiftOffTime > 0))}");

        if (FigureParts.IsOneOfMany(result.Study))
            return "All tyres stay on the road; another road of its kind has another least load";
        var least = result.Candidates.MinBy(layout => layout.Metrics.Whole.TyreLoadMinimum)!;
        return FigureParts.Text($"All tyres stay on the road; the least load is {Load(least.Metrics.Whole.TyreLoadMinimum)}{(result.Layouts.Length > 1 ? $", with “{least.Name}”" : "")}");
    }

    /// <summary>A load as page one gives it, for it is the same number.</summary>
    private static string Load(double load) => FigureParts.Text($"{Unit.Newton.Show(load):F0}");

    private static string Names(IEnumerable<LayoutResult> layouts) => FigureParts.Join([.. layouts.Select(layout => $"“{layout.Name}”")]);
}
