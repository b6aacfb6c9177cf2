using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>One layout with its dampers moved sideways: where they stand, how heave and roll are damped there, and how the body rolls.</summary>
public static class PositionFigure
{
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
        // Where the dampers stand as given, the layout is its own; moved, it is no layout of the scenario.
        var (name, style) = here.Position == sweep.OwnPosition
            ? (sweep.Layout.Name, StudyStyles.Of(study)[sweep.Layout.Name])
            : (FigureParts.Text($"at {Unit.Millimetre.Show(here.Position):F0}"), OtherStyles.First);
        var view = new RearViewPanel("Seen from behind", here.Result.Car.Vehicle, [(here.Result.Car.Layout with { Name = name }, style)]) { Labels = LabelPlacement.None };
        PlotSeries[] curves = [Roll(given, sweep.Layout.Name, StudyStyles.Of(study)[sweep.Layout.Name]), .. here.Position == sweep.OwnPosition ? [] : new[] { Roll(here.Result, name, style) }];
        var response = new TimePanel(given.Corner is null ? "Roll in the manoeuvre" : "Roll in the corner from rest", "Body roll", "deg", curves)
        {
            Phases = given.Corner is null ? FigureParts.Phases(study) : [],
            Peaks = given.Corner is not null && here.Result.Metrics.RollResponse?.Overshoot is { } overshoot
                ? [new PeakMark(FigureParts.Extreme(curves[^1]).X, FigureParts.Extreme(curves[^1]).Y, FigureParts.Text($"{overshoot * 100:+0;−0;+0} %"), curves[^1].Style)]
                : [],
        };
        return new Figure("damper-position.png", Title(study, sweep, here), "Dampers moved sideways, valving and lean kept.", FigureParts.Footer(study),
        [
            new Panel(view.Build()),
            new Panel(Ratios(study, sweep, here).Build(), 0, 1),
            new Panel(response.Build(), 0, 2),
        ])
        {
            NeedsWidth = true,
            ColumnWidths = [1, 1.3, 1],
        };
    }

    private static CurvePanel Ratios(StudyCase study, PositionSweepResult sweep, PositionResult here)
    {
        var positions = sweep.Positions.Select(at => Unit.Millimetre.Of(at.Position)).ToArray();
        PlotSeries Curve(string name, SeriesStyle style, ModeName mode) =>
            new(name, style, positions, [.. sweep.Positions.Select(at => at.Result.ReferenceModes[mode].DampingRatio)]);
        PeakMark Mark(SeriesStyle style, ModeName mode) =>
            new(Unit.Millimetre.Of(here.Position), here.Result.ReferenceModes[mode].DampingRatio, VerdictWords.Ratio(study, mode, here.Result.ReferenceModes[mode].DampingRatio), style);
        return new CurvePanel("Damping ratio", "Damper position from the centre", "mm", "Damping ratio", "",
            [Curve("heave", OtherStyles.Second, ModeName.Heave), Curve("roll", OtherStyles.First, ModeName.Roll)])
        {
            ReferenceLines = [new ReferenceLine(Unit.Millimetre.Of(sweep.OwnPosition), "as given", Vertical: true), .. here.Position == sweep.OwnPosition ? [] : new[] { new ReferenceLine(Unit.Millimetre.Of(here.Position), FigureParts.Text($"{Unit.Millimetre.Show(here.Position):F0}"), Vertical: true) }, .. Targets(study)],
            Peaks = [Mark(OtherStyles.Second, ModeName.Heave), Mark(OtherStyles.First, ModeName.Roll)],
        };
    }

    /// <summary>Roll in the corner from rest; in the manoeuvre where it has none.</summary>
    private static PlotSeries Roll(RecordedLayout result, string name, SeriesStyle style)
    {
        const double longest = 4; // s: several swings
        var history = result.Corner ?? result.History;
        var (time, angle) = history.Slice(Channel.BodyRoll, Unit.Degree, 0, Math.Min(result.Corner is null ? double.MaxValue : longest, history.Time(history.Count - 1)));
        return new PlotSeries(name, style, time, angle);
    }

    private static IEnumerable<ReferenceLine> Targets(StudyCase study) => FigureParts.TargetsAtReference(study) is { } targets
        ? new[] { DampingTarget.RollMinimum, DampingTarget.HeaveMinimum, DampingTarget.HeaveMaximum }.Select(target => new ReferenceLine(targets.Limit(target)!.Value, DampingTargetNames.Words(target)))
        : [];

    private static string Title(StudyCase study, PositionSweepResult sweep, PositionResult here)
    {
        var modes = here.Result.ReferenceModes;
        var place = here.Position == sweep.OwnPosition ? $"As given with “{sweep.Layout.Name}”" : FigureParts.Text($"At {Unit.Millimetre.Show(here.Position):F0}");
        var damped = $"{place}, the roll damping ratio is {VerdictWords.Ratio(study, ModeName.Roll, modes.Roll.DampingRatio)}";
        var overshoots = here.Result.Metrics.RollResponse?.Overshoot is { } overshoot ? FigureParts.Text($" and roll overshoots by {overshoot * 100:F0} %") : "";
        if (FigureParts.TargetsAtReference(study) is not { } targets)
            return damped + overshoots;
        var missed = targets.All.Where(target => targets.Margin(target, modes) < 0).Select(target => $"{DampingTargets.ModeOf(target)}".ToLowerInvariant()).Distinct().ToArray();
        return damped + overshoots + (missed.Length == 0 ? $": {(study.Vehicle.SecondAxle is null ? "all targets are met" : "the targets of this axle are met")}" : $": {FigureParts.Join(missed)} {(missed.Length == 1 ? "misses its target" : "miss their targets")}");
    }
}
