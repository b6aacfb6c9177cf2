using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>One layout with its dampers moved sideways: where they stand, how heave and roll are damped there, and how the body rolls.</summary>
public static class PositionFigure
{
    private const int GivenStyle = 0;
    private const int HeaveStyle = 3;
    private const int RollStyle = 4;

    /// <summary>Builds the figure of one position.</summary>
    /// <param name="study">The case.</param>
    /// <param name="given">What the layout does where its dampers were given.</param>
    /// <param name="sweep">The positions.</param>
    /// <param name="index">The position shown.</param>
    public static Figure Build(StudyCase study, RecordedLayout given, PositionSweepResult sweep, int index)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(given);
        ArgumentNullException.ThrowIfNull(sweep);
        var here = sweep.Positions[index];
        var moved = FigureParts.Text($"at {Unit.Millimetre.Show(here.Position):F0}");
        var view = new RearViewPanel("Seen from behind", here.Result.Car.Vehicle, [(here.Result.Car.Layout with { Name = moved }, RollStyle)]) { Labels = LabelPlacement.None };
        var response = new TimePanel("Roll response", "Body roll angle", "deg", [Roll(given, sweep.Layout.Name, GivenStyle), Roll(here.Result, moved, RollStyle)])
        {
            Phases = FigureParts.Phases(study),
        };
        return new Figure("damper-position.png", Title(study, here), "What does moving the dampers sideways do to roll, and what to heave?", FigureParts.Footer(study),
        [
            new Panel(view.Build()),
            new Panel(Ratios(study, sweep, here).Build(), 0, 1),
            new Panel(response.Build(), 1, 0, 1, 2),
        ])
        {
            RowHeights = [1.6, 1],
        };
    }

    private static CurvePanel Ratios(StudyCase study, PositionSweepResult sweep, PositionResult here)
    {
        var positions = sweep.Positions.Select(at => Unit.Millimetre.Of(at.Position)).ToArray();
        PlotSeries Curve(string name, int style, ModeName mode) =>
            new(name, style, positions, [.. sweep.Positions.Select(at => at.Result.ReferenceModes[mode].DampingRatio)]);
        PeakMark Mark(int style, ModeName mode) =>
            new(Unit.Millimetre.Of(here.Position), here.Result.ReferenceModes[mode].DampingRatio, PlotText.Number(here.Result.ReferenceModes[mode].DampingRatio, 2), style);
        return new CurvePanel("Damping ratio", "Damper position from the centre", "mm", "Damping ratio", "",
            [Curve("heave", HeaveStyle, ModeName.Heave), Curve("roll", RollStyle, ModeName.Roll)])
        {
            ReferenceLines = [new ReferenceLine(Unit.Millimetre.Of(sweep.OwnPosition), "as given", Vertical: true), .. Targets(study)],
            Peaks = [Mark(HeaveStyle, ModeName.Heave), Mark(RollStyle, ModeName.Roll)],
        };
    }

    private static PlotSeries Roll(RecordedLayout result, string name, int style)
    {
        var (time, angle) = result.History.Slice(Channel.BodyRoll, Unit.Degree, 0, result.History.Time(result.History.Count - 1));
        return new PlotSeries(name, style, time, angle);
    }

    /// <summary>The targets that hold at the velocity for which the ratios are shown.</summary>
    private static DampingTargets? TargetsHere(StudyCase study) =>
        study.Targets is { } targets && targets.Velocity == study.Analysis.ReferenceVelocity ? targets : null;

    private static IEnumerable<ReferenceLine> Targets(StudyCase study) => TargetsHere(study) is { } targets
        ? [new(targets.RollMinimum, "roll, least"), new(targets.HeaveMinimum, "heave, least"), new(targets.HeaveMaximum, "heave, most")]
        : [];

    private static string Title(StudyCase study, PositionResult here)
    {
        var modes = here.Result.ReferenceModes;
        var damped = FigureParts.Text($"At {Unit.Millimetre.Show(here.Position):F0} roll is damped with {modes.Roll.DampingRatio:F2}");
        var overshoots = here.Result.Metrics.RollResponse?.Overshoot is { } overshoot ? FigureParts.Text($" and overshoots by {overshoot * 100:F0} %") : "";
        if (TargetsHere(study) is not { } targets)
            return damped + overshoots;
        var missed = targets.All.Where(target => targets.Margin(target, modes) < 0).Select(target => $"{DampingTargets.ModeOf(target)}".ToLowerInvariant()).Distinct().ToArray();
        return damped + overshoots + (missed.Length == 0 ? ": all targets are met" : $": {FigureParts.Join(missed)} {(missed.Length == 1 ? "misses its target" : "miss their targets")}");
    }
}
