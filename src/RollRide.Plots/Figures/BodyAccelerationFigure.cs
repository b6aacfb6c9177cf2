using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Vertical acceleration of the body at the centre of gravity and its roll acceleration over time.</summary>
public static class BodyAccelerationFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var phases = FigureParts.Phases(result.Study);
        TimePanel Of(string title, string quantity, Channel channel, Unit unit) =>
            new(title, quantity, unit.Symbol, FigureParts.Series(result, channel, unit)) { Phases = phases };
        var panels = TimePanel.Stack(
        [
            Of("At the centre of gravity", "Vertical acceleration", Channel.BodyAcceleration, Unit.MetrePerSecondSquared),
            Of("Roll", "Roll acceleration", Channel.BodyRollAcceleration, Unit.RadianPerSecondSquared),
        ]);
        return new Figure("body-acceleration.png", Title(result), "What does the body feel, and does the place of the dampers change it?", FigureParts.Footer(result.Study), panels);
    }

    private static string Title(RecordedComparison result)
    {
        var name = result.Study.Manoeuvre.Phases.FirstOrDefault()?.Name ?? "run";
        var phases = result.Candidates
            .Select(layout => (layout.Name, Rms: (layout.Metrics.Phases.FirstOrDefault() ?? layout.Metrics.Whole).BodyAccelerationRms))
            .ToArray();
        var low = phases.MinBy(phase => phase.Rms);
        var high = phases.MaxBy(phase => phase.Rms);
        return phases.Length == 1 || high.Rms - low.Rms < Math.Max(0.01, 0.02 * high.Rms)
            ? FigureParts.Text($"In phase '{name}' the body's vertical acceleration is {high.Rms:F2} m/s² RMS{(phases.Length > 1 ? ", alike for all" : "")}")
            : FigureParts.Text($"In phase '{name}' the body feels {low.Rms:F2} m/s² RMS with '{low.Name}', {high.Rms:F2} with '{high.Name}'");
    }
}
