using OxyPlot;
using OxyPlot.Axes;
using RollRide.Damping;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Damping ratio of each mode over damper velocity, one panel a mode, the targets shaded.</summary>
public static class ModesOverVelocityFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">The modes.</param>
    public static Figure Build(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var panels = Enum.GetValues<ModeName>().Select((name, i) => new Panel(FromZero(Of(result, name).Build()), i / 2, i % 2)).ToArray();
        var shaded = result.Study.Targets is null ? "" : " Shaded: the targets.";
        return new Figure("damping-over-velocity.png", Title(result),
            $"How does each mode's damping ratio change with the velocity amplitude at the damper, compression and rebound together?{shaded}",
            FigureParts.Footer(result.Study), panels);
    }

    private static CurvePanel Of(ModesResult result, ModeName name)
    {
        var curves = result.Layouts.Select((layout, i) =>
        {
            var swept = layout.Sweep[DampingDirection.Both];
            return new PlotSeries(layout.Name, i, [.. swept.Select(at => at.Velocity)], [.. swept.Select(at => at.Modes[name].DampingRatio)]);
        });
        return new CurvePanel(name.ToString(), "Damper velocity amplitude", "m/s", "Damping ratio", "", [.. curves])
        {
            LogarithmicX = true,
            TargetBand = result.Study.Targets is { } targets ? Band(targets, name) : null,
            ReferenceLines = result.Study.Targets is { } asked ? Limits(asked, name) : [],
            Labels = LabelPlacement.AbovePanels,
        };
    }

    /// <summary>Ratios are compared by their height above zero.</summary>
    private static PlotModel FromZero(PlotModel model)
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

    private static string Title(ModesResult result)
    {
        var ranked = Candidates.Of(result.Layouts, layout => layout.Car.Layout);
        var best = ranked.MaxBy(layout => layout.Reference.Roll.DampingRatio)!;
        var worst = ranked.MinBy(layout => layout.Reference.Roll.DampingRatio)!;
        var speed = result.Study.Analysis.ReferenceVelocity;
        return ranked.Length == 1
            ? FigureParts.Text($"At {speed:0.###} m/s heave is damped with {best.Reference.Heave.DampingRatio:F2}, roll with {best.Reference.Roll.DampingRatio:F2}")
            : FigureParts.Text($"At {speed:0.###} m/s roll is damped with {best.Reference.Roll.DampingRatio:F2} by '{best.Name}', with {worst.Reference.Roll.DampingRatio:F2} by '{worst.Name}'");
    }
}
