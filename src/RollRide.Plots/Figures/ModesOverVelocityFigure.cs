using OxyPlot;
using OxyPlot.Axes;
using RollRide.Damping;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Damping ratio of each mode over damper velocity, one panel per mode, the targets shaded.</summary>
public static class ModesOverVelocityFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">The modes.</param>
    public static Figure Build(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var finding = Finding(result);
        var panels = CurvePanel.OnOneScale([.. Enum.GetValues<ModeName>().Select(name => Of(result, name, finding.Mode == name ? finding.Marks : []))])
            .Select((panel, i) => new Panel(FromZero(panel.Build()), 0, i)).ToArray();
        var shaded = result.Study.Targets is null ? "" : " Green: meets the target.";
        return new Figure("damping-over-velocity.png", finding.Title,
            $"Over the velocity amplitude at the damper, compression and rebound together.{shaded}{FigureParts.InLoad(result.Study)}",
            FigureParts.Footer(result.Study), panels)
        {
            NeedsWidth = true,
        };
    }

    private static CurvePanel Of(ModesResult result, ModeName name, IReadOnlyList<PeakMark> marks)
    {
        var styles = StudyStyles.Of(result.Study);
        var reference = result.Study.Analysis.ReferenceVelocity;
        var curves = result.Layouts.Select(layout =>
        {
            var swept = layout.Sweep[DampingDirection.Both];
            return new PlotSeries(layout.Name, styles[layout.Name], [.. swept.Select(at => at.Velocity)], [.. swept.Select(at => at.Modes[name].DampingRatio)]);
        });
        return new CurvePanel(name.ToString(), "Velocity amplitude", "m/s", "Damping ratio", "", [.. curves])
        {
            LogarithmicX = true,
            TargetBand = result.Study.Targets is { } targets ? Band(targets, name) : null,
            ReferenceLines = [new ReferenceLine(reference, FigureParts.Text($"{reference:0.###} m/s"), Vertical: true), .. result.Study.Targets is { } asked ? Limits(asked, name) : []],
            Peaks = marks,
            NamesLinesInside = true,
            Labels = LabelPlacement.AbovePanels,
        };
    }

    /// <summary>Ratios are compared by their height above zero.</summary>
    internal static PlotModel FromZero(PlotModel model)
    {
        model.Axes.Single(axis => axis.Position == AxisPosition.Left).Minimum = 0;
        return model;
    }

    private static ReferenceLine[] Limits(DampingTargets targets, ModeName name) =>
        [.. targets.All.Where(target => DampingTargets.ModeOf(target) == name).Select(target => new ReferenceLine(targets.Limit(target)!.Value, DampingTargetNames.Words(target)))];

    private static PlotSpan? Band(DampingTargets targets, ModeName name)
    {
        // A minimum alone is open upward, up to critical damping.
        (double? From, double To) limits = name switch
        {
            ModeName.Heave => (targets.HeaveMinimum, targets.HeaveMaximum),
            ModeName.Roll => (targets.RollMinimum, 1),
            ModeName.Hop => (targets.HopMinimum, 1),
            _ => (targets.TrampMinimum, 1),
        };
        return limits.From is { } from ? new PlotSpan(from, limits.To, "") : null;
    }

    /// <summary>The mode of the body in which the layouts differ most, and what that is at the reference velocity.</summary>
    private static (ModeName Mode, string Title, IReadOnlyList<PeakMark> Marks) Finding(ModesResult result)
    {
        var styles = StudyStyles.Of(result.Study);
        var ranked = Candidates.Of(result.Layouts, layout => layout.Car.Layout);
        var speed = result.Study.Analysis.ReferenceVelocity;
        static double Ratio(LayoutModes layout, ModeName mode) => layout.Reference[mode].DampingRatio;
        string Shown(LayoutModes layout, ModeName mode) => VerdictWords.Ratio(result.Study, mode, Ratio(layout, mode));
        PeakMark Mark(LayoutModes layout, ModeName mode) => new(speed, Ratio(layout, mode), Shown(layout, mode), styles[layout.Name]);
        var (mode, best, worst) = new[] { ModeName.Roll, ModeName.Heave }
            .Select(mode => (Mode: mode, Best: ranked.MaxBy(layout => Ratio(layout, mode))!, Worst: ranked.MinBy(layout => Ratio(layout, mode))!))
            .MaxBy(range => Ratio(range.Best, range.Mode) - Ratio(range.Worst, range.Mode));
        return FigureParts.AreSimilar(Ratio(worst, mode), Ratio(best, mode))
            ? (mode, FigureParts.Text($"{mode} damping ratio at {speed:0.###} m/s: {FigureParts.Range(Shown(worst, mode), Shown(best, mode))}{FigureParts.WithAll([.. ranked.Select(layout => layout.Name)], result.Layouts.Length)}"),
                [.. new[] { Mark(best, mode), Mark(worst, mode) }.DistinctBy(mark => mark.Label)])
            : (mode, FigureParts.Text($"{mode} damping ratio at {speed:0.###} m/s: {Shown(best, mode)} with “{best.Name}”, {Shown(worst, mode)} with “{worst.Name}”"), [Mark(best, mode), Mark(worst, mode)]);
    }
}
