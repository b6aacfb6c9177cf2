using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Damper velocity over time, a panel a phase beside each other, each about its fastest stroke and of the side on which that happens.</summary>
public static class DamperVelocityFigure
{
    // Longer than this, and the strokes of a bump shrink to a line.
    private const double LongestSpan = 2;

    // Share of a panel before the fastest stroke.
    private const double LeadIn = 0.3;

    // More panels beside each other are too narrow to read.
    private const int MostPanels = 3;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var phases = result.Study.Manoeuvre.Phases;
        // A phase shorter than two samples has no curve.
        var samples = 2 / result.Study.HistoryRate;
        var shown = phases.Take(MostPanels).Where(phase => phase.End - phase.Start >= samples)
            .DefaultIfEmpty(new Phase("run", 0, result.Study.Manoeuvre.Duration)).ToArray();
        var subtitle = "How fast do the dampers move, about the fastest stroke? Compression is positive.";
        if (shown.Any(phase => phase.End - phase.Start - LongestSpan > 1 / result.Study.HistoryRate))
            subtitle += FigureParts.Text($" At most {LongestSpan:0.#} s of a phase.");
        if (phases.Length > MostPanels)
            subtitle += FigureParts.Text($" The first {MostPanels} of {phases.Length} phases.");
        return new Figure("damper-velocity.png", Title(result), subtitle, FigureParts.Footer(result.Study),
            [.. shown.Select((phase, column) => new Panel((Of(result, phase) with { Labels = shown.Length > 1 ? LabelPlacement.AbovePanels : LabelPlacement.AtCurveEnds }).Build(), 0, column))]);
    }

    private static TimePanel Of(RecordedComparison result, Phase phase)
    {
        var left = Fastest(result, Channel.DamperVelocityLeft, phase);
        var right = Fastest(result, Channel.DamperVelocityRight, phase);
        var (side, channel, fastest) = Math.Abs(left.Y) >= Math.Abs(right.Y)
            ? ("left", Channel.DamperVelocityLeft, left)
            : ("right", Channel.DamperVelocityRight, right);
        var span = Math.Min(LongestSpan, phase.End - phase.Start);
        var start = Math.Max(phase.Start, Math.Min(fastest.X - (LeadIn * span), phase.End - span));
        return new TimePanel(phase.Name, $"Damper velocity, {side}", "m/s",
            FigureParts.Series(result, channel, Unit.MetrePerSecond, start, start + span));
    }

    private static (double X, double Y) Fastest(RecordedComparison result, Channel channel, Phase phase) =>
        FigureParts.Series(result, channel, Unit.MetrePerSecond, phase.Start, phase.End).Select(FigureParts.Extreme).MaxBy(point => Math.Abs(point.Y));

    private static string Title(RecordedComparison result)
    {
        var phases = result.Layouts[0].Metrics.Phases;
        if (phases.IsEmpty)
            return FigureParts.Text($"Dampers reach {Range(result, metrics => metrics.Whole)}");
        var parts = phases.Take(MostPanels).Select((phase, i) => FigureParts.Text($"{Range(result, metrics => metrics.Phases[i])} in phase '{phase.Name}'"));
        return $"Dampers reach {FigureParts.Join([.. parts])}";
    }

    private static string Range(RecordedComparison result, Func<RunMetrics, PhaseMetrics> phase)
    {
        var peaks = result.Layouts.Select(layout => Peak(phase(layout.Metrics))).ToArray();
        return peaks.Max() - peaks.Min() < 0.005
            ? FigureParts.Text($"{peaks.Max():F2} m/s")
            : FigureParts.Text($"{peaks.Min():F2} to {peaks.Max():F2} m/s");
    }

    private static double Peak(PhaseMetrics phase) => Math.Max(phase.DamperCompressionVelocityPeak, phase.DamperReboundVelocityPeak);
}
