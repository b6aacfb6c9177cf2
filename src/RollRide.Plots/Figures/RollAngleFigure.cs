using RollRide.Dynamics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Body roll over time, with the steady angle and each layout's peak.</summary>
public static class RollAngleFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var series = FigureParts.Series(result, Channel.BodyRoll, FigureParts.DegPerRad);
        var corner = result.Study.Manoeuvre.Cornering.StartTime;
        var peaks = result.Layouts.Select((layout, i) =>
        {
            // The largest angle of the corner, or of the whole run where there is no corner.
            var from = corner < result.Study.Manoeuvre.Duration ? Math.Max(0, corner) : 0;
            var (time, value) = layout.History.Slice(Channel.BodyRoll, FigureParts.DegPerRad, from, result.Study.Manoeuvre.Duration);
            var (x, y) = FigureParts.Extreme(new PlotSeries(layout.Name, i, time, value));
            var over = layout.Metrics.RollResponse?.Overshoot is { } overshoot && !Conclusions.IsUnevenInTheCorner(result.Study) ? FigureParts.Text($" ({overshoot * 100:+0;−0} %)") : "";
            return new PeakMark(x, y, PlotText.Value(y, 1, "deg") + over, i);
        }).ToArray();
        var steady = result.Layouts
            .Select(layout => layout.Metrics.RollResponse?.SteadyAngle * FigureParts.DegPerRad)
            .OfType<double>()
            .Where(angle => angle != 0)
            .DistinctBy(angle => Math.Round(angle, 2))
            .Select(angle => new ReferenceLine(angle, $"steady {PlotText.Value(angle, 1, "deg")}"))
            .ToArray();
        var panel = new TimePanel(null, "Body roll angle", "deg", series)
        {
            Phases = FigureParts.Phases(result.Study),
            Peaks = peaks,
            ReferenceLines = steady,
        };
        var corners = corner < result.Study.Manoeuvre.Duration;
        return new Figure("roll-angle.png", Title(result), corners && !Conclusions.IsUnevenInTheCorner(result.Study) ? "How far does the body roll, and how soon does it come to rest?" : "How far does the body roll?", FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }

    private static string Title(RecordedComparison result)
    {
        var over = result.Layouts.Where(layout => layout.Metrics.RollResponse?.Overshoot is not null).ToArray();
        if (over.Length == 0 || Conclusions.IsUnevenInTheCorner(result.Study))
        {
            var largest = result.Layouts.MaxBy(layout => Math.Abs(layout.Metrics.Whole.RollAnglePeak))!;
            return FigureParts.Text($"The body rolls by up to {Math.Abs(largest.Metrics.Whole.RollAnglePeak) * FigureParts.DegPerRad:F1} deg, with '{largest.Name}'");
        }

        var least = over.MinBy(layout => layout.Metrics.RollResponse!.Overshoot)!;
        var most = over.MaxBy(layout => layout.Metrics.RollResponse!.Overshoot)!;
        var (low, high) = (least.Metrics.RollResponse!.Overshoot * 100, most.Metrics.RollResponse!.Overshoot * 100);
        if (high < 0)
            return FigureParts.Text($"Roll stays {-high:F0} % below its steady angle until the run ends");
        return over.Length == 1 || high - low < 1
            ? FigureParts.Text($"Roll overshoots its steady angle by {high:F0} %")
            : FigureParts.Text($"Roll overshoots by {low:F0} % with '{least.Name}', by {high:F0} % with '{most.Name}'");
    }
}
