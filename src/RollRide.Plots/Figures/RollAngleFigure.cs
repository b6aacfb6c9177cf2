using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Body roll over time: in the manoeuvre as driven, and where it has a corner, in that corner by itself from rest, with the overshoot of each layout.</summary>
public static class RollAngleFigure
{
    // Beyond the time in which the slowest layout settles; where one does not, as many periods of roll show it.
    private const double AfterSettling = 1.2, PeriodsShown = 4;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var (manoeuvre, corner) = (Manoeuvre(result), Corner(result));
        if (corner is null)
            return new Figure("roll-angle.png", Title(result), "How far does the body roll?", FigureParts.Footer(result.Study), [new Panel(manoeuvre.Build())]);
        var values = PlotRange.Of([.. new[] { manoeuvre, corner }.SelectMany(panel => panel.Series).SelectMany(curve => curve.Y), .. manoeuvre.ReferenceLines.Select(line => line.Value)]);
        return new Figure(
            "roll-angle.png",
            Title(result),
            "How far does the body roll in the manoeuvre, and how does it answer the corner by itself, from rest on a smooth road?",
            FigureParts.Footer(result.Study),
            [new Panel((manoeuvre with { Values = values }).Build()), new Panel((corner with { Values = values }).Build(), 0, 1)])
        {
            ColumnWidths = [3, 2],
        };
    }

    private static TimePanel Manoeuvre(RecordedComparison result)
    {
        var series = FigureParts.Series(result, Channel.BodyRoll, Unit.Degree);
        return new TimePanel(result.Layouts[0].Corner is null ? null : "In the manoeuvre", "Body roll angle", "deg", series)
        {
            Phases = FigureParts.Phases(result.Study),
            Labels = result.Layouts[0].Corner is null ? LabelPlacement.AtCurveEnds : LabelPlacement.AbovePanels,
            Peaks = [.. series.Select(curve => Peak(curve, ""))],
            ReferenceLines = Steady(result),
        };
    }

    private static TimePanel? Corner(RecordedComparison result)
    {
        var driven = result.Layouts.Select((layout, i) => (Layout: layout, Index: i)).Where(at => at.Layout.Corner is not null).ToArray();
        if (driven.Length == 0)
            return null;
        var corner = result.Study.Manoeuvre.Cornering.Alone;
        var end = Math.Min(corner.Duration, driven.Select(at => at.Layout.Metrics.RollResponse!).Max(response =>
            Math.Max(AfterSettling * (response.SettlingTime ?? 0), (corner.EquivalentRamp ?? 0) + (PeriodsShown * (response.RollPeriod ?? corner.Duration)))));
        var series = driven.Select(at =>
        {
            var (time, value) = at.Layout.Corner!.Slice(Channel.BodyRoll, Unit.Degree, 0, end);
            return new PlotSeries(at.Layout.Name, at.Index, time, value);
        }).ToArray();
        return new TimePanel("The corner from rest", "Body roll angle", "deg", series)
        {
            Peaks = [.. series.Select((curve, i) => Peak(curve, driven[i].Layout.Metrics.RollResponse!.Overshoot is { } overshoot ? FigureParts.Text($" ({overshoot * 100:+0;−0;+0} %)") : ""))],
            ReferenceLines = [.. Steady(result).Select(line => new ReferenceLine(line.Value, ""))],
            Labels = LabelPlacement.None,
        };
    }

    private static PeakMark Peak(PlotSeries curve, string note)
    {
        var (x, y) = FigureParts.Extreme(curve);
        return new PeakMark(x, y, PlotText.Value(y, 1, "deg") + note, curve.StyleIndex);
    }

    private static ReferenceLine[] Steady(RecordedComparison result) =>
    [
        .. result.Layouts
            .Select(layout => Unit.Degree.Of(layout.Metrics.RollResponse?.SteadyAngle))
            .OfType<double>()
            .Where(angle => angle != 0)
            .DistinctBy(angle => Math.Round(angle, 2))
            .Select(angle => new ReferenceLine(angle, $"steady {PlotText.Value(angle, 1, "deg")}")),
    ];

    private static string Title(RecordedComparison result)
    {
        var over = result.Candidates.Where(layout => layout.Metrics.RollResponse?.Overshoot is not null).ToArray();
        if (over.Length == 0)
        {
            var largest = result.Candidates.MaxBy(layout => Math.Abs(layout.Metrics.Whole.RollAnglePeak))!;
            return FigureParts.Text($"The body rolls by up to {Unit.Degree.Show(Math.Abs(largest.Metrics.Whole.RollAnglePeak)):F1}, with '{largest.Name}'");
        }

        var least = over.MinBy(layout => layout.Metrics.RollResponse!.Overshoot)!;
        var most = over.MaxBy(layout => layout.Metrics.RollResponse!.Overshoot)!;
        var (low, high) = (least.Metrics.RollResponse!.Overshoot * 100, most.Metrics.RollResponse!.Overshoot * 100);
        return over.Length == 1 || high - low < 1
            ? FigureParts.Text($"From rest, roll overshoots its steady angle by {high:F0} %")
            : FigureParts.Text($"From rest, roll overshoots by {low:F0} % with '{least.Name}', by {high:F0} % with '{most.Name}'");
    }
}
