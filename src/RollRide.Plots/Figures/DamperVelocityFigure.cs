using RollRide.Dynamics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Damper velocity over time, a panel a phase.</summary>
public static class DamperVelocityFigure
{
    // Longer than this, and the strokes of a bump shrink to a line.
    private const double LongestSpan = 1.6;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var duration = result.Study.Manoeuvre.Duration;
        var phases = result.Study.Manoeuvre.Phases.Take(3).Select(phase => (phase.Name, phase.Start, phase.End)).DefaultIfEmpty(("run", 0, duration)).ToArray();
        var panels = phases.Select((phase, row) =>
        {
            var end = Math.Min(phase.End, phase.Start + LongestSpan);
            return new Panel(
                new TimePanel($"In the {phase.Name}", "Left damper velocity", "m/s", FigureParts.Series(result, Channel.DamperVelocityLeft, 1, phase.Start, end)).Build(),
                row);
        }).ToArray();
        return new Figure("damper-velocity.png", Title(result), "How fast do the dampers move? Compression is positive.", FigureParts.Footer(result.Study), panels);
    }

    private static string Title(ComparisonResult result)
    {
        var phases = result.Layouts[0].Metrics.Phases;
        if (phases.IsEmpty)
            return FigureParts.Text($"The dampers reach {result.Layouts.Max(layout => Peak(layout.Metrics.Whole)):F2} m/s");
        var parts = phases.Select((phase, i) =>
        {
            var peaks = result.Layouts.Select(layout => Peak(layout.Metrics.Phases[i])).ToArray();
            return peaks.Length == 1 || peaks.Max() - peaks.Min() < 0.005
                ? FigureParts.Text($"{peaks.Max():F2} m/s in the {phase.Name}")
                : FigureParts.Text($"{peaks.Min():F2} to {peaks.Max():F2} m/s in the {phase.Name}");
        });
        return $"Dampers reach {FigureParts.Join([.. parts])}";
    }

    private static double Peak(Metrics.PhaseMetrics phase) => Math.Max(phase.DamperCompressionVelocityPeak, phase.DamperReboundVelocityPeak);
}
