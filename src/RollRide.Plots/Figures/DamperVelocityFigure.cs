using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Damper velocity over time, one panel per phase beside each other on one scale, each about its fastest stroke and of the side on which that happens.</summary>
public static class DamperVelocityFigure
{
    // Longer than this, and the strokes of a bump shrink to a line.
    private const double LongestSpan = 2;

    // More panels beside each other are too narrow to read.
    private const int MostPanels = 3;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var phases = result.Study.Manoeuvre.Phases;
        var shown = FigureParts.PhasesWithCurves(result.Study, MostPanels);
        var subtitle = "Around the fastest stroke of each phase. Compression is positive.";
        if (shown.Any(phase => phase.End - phase.Start - LongestSpan > 1 / result.Study.HistoryRate))
            subtitle += FigureParts.Text($" At most {LongestSpan:0.#} s of a phase.");
        if (phases.Length > MostPanels)
            subtitle += FigureParts.Text($" The first {MostPanels} of {phases.Length} phases.");
        var panels = TimePanel.OnOneScale([.. shown.Select(phase => Of(result, phase) with { Labels = shown.Length > 1 ? LabelPlacement.AbovePanels : LabelPlacement.AtCurveEnds })]);
        return new Figure("damper-velocity.png", Title(result, shown), subtitle, FigureParts.Footer(result.Study),
            [.. panels.Select((panel, column) => new Panel(panel.Build(), 0, column))]);
    }

    private static TimePanel Of(RecordedComparison result, Phase phase)
    {
        var left = Fastest(result, Channel.DamperVelocityLeft, phase);
        var right = Fastest(result, Channel.DamperVelocityRight, phase);
        var (side, channel, fastest) = Math.Abs(left.Y) >= Math.Abs(right.Y)
            ? ("left", Channel.DamperVelocityLeft, left)
            : ("right", Channel.DamperVelocityRight, right);
        var (start, end) = FigureParts.About(fastest.X, phase.Start, phase.End, LongestSpan);
        return new TimePanel(phase.Name, $"Damper velocity, {side}", "m/s", FigureParts.Series(result, channel, Unit.MetrePerSecond, start, end))
        {
            Peaks = [new PeakMark(fastest.X, fastest.Y, FigureParts.Text($"{Peak(FigureParts.Of(FastestOf(result, phase), phase)):F2} m/s"), fastest.Style)],
        };
    }

    // Of the layouts that the title ranks.
    private static (double X, double Y, SeriesStyle Style) Fastest(RecordedComparison result, Channel channel, Phase phase) =>
        FigureParts.Series(result, channel, Unit.MetrePerSecond, phase.Start, phase.End)
            .Where((_, place) => result.Candidates.Contains(result.Layouts[place]))
            .Select(curve => (FigureParts.Extreme(curve).X, FigureParts.Extreme(curve).Y, curve.Style)).MaxBy(point => Math.Abs(point.Y));

    private static string Title(RecordedComparison result, Phase[] shown)
    {
        if (FigureParts.IsOneOfMany(result.Study))
            return "The fastest strokes on this road; another road of its kind has other peaks";
        var fastest = shown.Select(phase => (Phase: phase, Layout: FastestOf(result, phase))).ToArray();
        var isOne = fastest.All(one => one.Layout == fastest[0].Layout);
        string In(Phase phase) => result.Study.Manoeuvre.Phases.Contains(phase) ? $" in phase “{phase.Name}”" : "";
        var parts = fastest.Select(one => FigureParts.Text($"{Peak(FigureParts.Of(one.Layout, one.Phase)):F2} m/s{In(one.Phase)}{(isOne ? "" : $" with “{one.Layout.Name}”")}"));
        var ranked = result.Candidates.Length == result.Layouts.Length ? "" : " of the layouts that can be built";
        return $"{(isOne && result.Layouts.Length > 1 ? $"Damper velocity is highest with “{fastest[0].Layout.Name}”{ranked}" : $"Highest damper velocity{ranked}")}: {FigureParts.Join([.. parts])}";
    }

    private static RecordedLayout FastestOf(RecordedComparison result, Phase phase) => result.Candidates.MaxBy(layout => Peak(FigureParts.Of(layout, phase)))!;

    private static double Peak(PhaseMetrics phase) => Math.Max(phase.DamperCompressionVelocityPeak, phase.DamperReboundVelocityPeak);
}
