using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Body roll over time: in the manoeuvre as driven, and where it has a corner, in that corner by itself from rest, with the overshoot of each layout.</summary>
public static class RollAngleFigure
{
    // More values than these cover each other and the curves.
    private const int MostMarked = 3;

    // Beyond the time in which the slowest layout settles; where one does not, as many periods of roll show it.
    private const double AfterSettling = 1.2, PeriodsShown = 4;

    // Of a longer run than this, the layout drawn last hides the others: so much about the largest angle is shown.
    private const double LongestRun = 10, ShownOfLonger = 4;

    // Room for the numbers above and below the curves, as a share of their range.
    private const double RoomForPeaks = 0.15;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var manoeuvre = Manoeuvre(result);
        TimePanel[] panels = Corner(result) is { } corner ? [manoeuvre, corner] : [manoeuvre];
        var shown = PlotRange.Over(panels.Select(panel => panel.Shown));
        var values = PlotRange.Of([shown.Minimum, shown.Maximum], RoomForPeaks);
        var part = result.Study.Manoeuvre.Duration > LongestRun ? FigureParts.Text($" Of the run: {ShownOfLonger:F0} s about the largest angle.") : "";
        return new Figure(
            "roll-angle.png",
            Title(result),
            (panels.Length == 1 ? "In the manoeuvre." : "Left: in the manoeuvre. Right: the corner by itself, from rest on a level road.") + part + FigureParts.InLoad(result.Study),
            FigureParts.Footer(result.Study),
            [.. panels.Select((panel, column) => new Panel((panel with { Values = values }).Build(), 0, column))]);
    }

    private static TimePanel Manoeuvre(RecordedComparison result)
    {
        var duration = result.Study.Manoeuvre.Duration;
        var series = FigureParts.Series(result, Channel.BodyRoll, Unit.Degree);
        if (duration > LongestRun)
        {
            var (start, end) = FigureParts.About(series.Select(FigureParts.Extreme).MaxBy(point => Math.Abs(point.Y)).X, 0, duration, ShownOfLonger);
            series = FigureParts.Series(result, Channel.BodyRoll, Unit.Degree, start, end);
        }

        return new TimePanel(result.Layouts[0].Corner is null ? null : "In the manoeuvre", "Body roll angle", "deg", series)
        {
            Phases = FigureParts.Phases(result.Study),
            Labels = result.Layouts[0].Corner is null ? LabelPlacement.AtCurveEnds : LabelPlacement.AbovePanels,
            Peaks = [.. series.Where(curve => IsMarked(result, curve)).Select(curve => Peak(curve, ""))],
            ReferenceLines = result.Layouts[0].Corner is null ? Steady(result, run => run.AsWritten) : Unnamed(Steady(result, run => run.AsWritten)),
        };
    }

    private static TimePanel? Corner(RecordedComparison result)
    {
        var styles = StudyStyles.Of(result.Study);
        var driven = result.Layouts.Where(layout => layout.Corner is not null).ToArray();
        if (driven.Length == 0)
            return null;
        var corner = result.Study.Manoeuvre.Cornering.Alone;
        var end = Math.Min(corner.Duration, driven.Select(layout => layout.Metrics.WorseTurn!).Max(turn =>
            Math.Max(AfterSettling * (turn.SettlingTime ?? 0), (corner.EquivalentRamp ?? 0) + (PeriodsShown * (turn.RollPeriod ?? corner.Duration)))));
        var series = driven.Select(layout =>
        {
            var (time, value) = layout.Corner!.Slice(Channel.BodyRoll, Unit.Degree, 0, end);
            return new PlotSeries(layout.Name, styles[layout.Name], time, value);
        }).ToArray();
        var steady = Steady(result, run => run.WorseTurn);
        var turn = driven.Any(layout => layout.Metrics.BothTurns is not null) ? ", the turn with more overshoot" : "";
        var dashed = steady.Length > 0 ? $"; dashed: {FigureParts.Join([.. steady.Select(line => line.Label)])}" : "";
        return new TimePanel($"The corner from rest{turn}{dashed}", "Body roll angle", "deg", series)
        {
            Peaks = [.. series.Zip(driven).Where(pair => IsMarked(result, pair.First)).Select(pair => Peak(pair.First, pair.Second.Metrics.RollResponse!.Overshoot is { } overshoot ? FigureParts.Text($", {overshoot * 100:+0;−0;+0} %") : ""))],
            ReferenceLines = Unnamed(steady),
            Labels = LabelPlacement.None,
        };
    }

    /// <summary>Of many layouts only those of the title carry their values: more labels and leaders would cover the curves.</summary>
    private static bool IsMarked(RecordedComparison result, PlotSeries curve) =>
        result.Layouts.Length <= MostMarked || (Ends(result) is var (least, most) ? curve.Name == least.Name || curve.Name == most.Name : curve.Name == Largest(result).Name);

    private static PeakMark Peak(PlotSeries curve, string note)
    {
        var (x, y) = FigureParts.Extreme(curve);
        return new PeakMark(x, y, PlotText.Value(y, 1, "deg") + note, curve.Style);
    }

    /// <summary>Lines that the title of the panel names: among the curves there is no room.</summary>
    private static ReferenceLine[] Unnamed(IEnumerable<ReferenceLine> lines) => [.. lines.Select(line => new ReferenceLine(line.Value, ""))];

    private static ReferenceLine[] Steady(RecordedComparison result, Func<RunMetrics, RollResponse?> corner) =>
    [
        .. result.Layouts
            .Select(layout => Unit.Degree.Of(corner(layout.Metrics)?.SteadyAngle))
            .OfType<double>()
            .Where(angle => angle != 0)
            .Select(angle => new ReferenceLine(angle, $"steady {PlotText.Value(angle, 1, "deg")}"))
            .DistinctBy(line => line.Label),
    ];

    private static string Title(RecordedComparison result)
    {
        if (Ends(result) is not var (least, most))
        {
            if (FigureParts.IsOneOfMany(result.Study))
                return "Body roll about its largest angle on this road; another road of its kind has another peak";
            var (largest, smallest) = (Largest(result), result.Candidates.MinBy(RollAngle)!);
            return FigureParts.AreSimilar(RollAngle(smallest), RollAngle(largest))
                ? FigureParts.Text($"The body rolls by up to {Unit.Degree.Show(RollAngle(largest)):F1}{FigureParts.WithAll([.. result.Candidates.Select(layout => layout.Name)], result.Layouts.Length)}")
                : FigureParts.Text($"The body rolls by up to {Unit.Degree.Show(RollAngle(smallest)):F1} with “{smallest.Name}”, {Unit.Degree.Show(RollAngle(largest)):F1} with “{largest.Name}”");
        }

        var (low, high) = (least.Metrics.RollResponse!.Overshoot!.Value * 100, most.Metrics.RollResponse!.Overshoot!.Value * 100);
        return high - low <= 100 * Noticeable.Share
            ? FigureParts.Text($"From rest, roll overshoots its steady angle by {FigureParts.Range(PlotText.Number(low, 0), PlotText.Number(high, 0))} %{FigureParts.WithAll([.. result.Candidates.Select(layout => layout.Name)], result.Layouts.Length)}")
            : FigureParts.Text($"From rest, roll overshoots by {PlotText.Number(low, 0)} % with “{least.Name}”, by {PlotText.Number(high, 0)} % with “{most.Name}”");
    }

    /// <summary>Of the layouts that can be built, those with least and most overshoot from rest; null where none has any.</summary>
    private static (LayoutResult Least, LayoutResult Most)? Ends(RecordedComparison result)
    {
        var over = result.Candidates.Where(layout => layout.Metrics.RollResponse?.Overshoot is not null).ToArray();
        return over.Length == 0 ? null : (over.MinBy(layout => layout.Metrics.RollResponse!.Overshoot)!, over.MaxBy(layout => layout.Metrics.RollResponse!.Overshoot)!);
    }

    private static RecordedLayout Largest(RecordedComparison result) => result.Candidates.MaxBy(RollAngle)!;

    private static double RollAngle(RecordedLayout layout) => Math.Abs(layout.Metrics.Whole.RollAnglePeak);
}
