using OxyPlot;
using OxyPlot.Axes;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Roll damping ratio of the whole vehicle over the torsional stiffness of its frame.</summary>
public static class FrameFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">The modes of a vehicle with two axles.</param>
    public static Figure Build(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var styles = StudyStyles.Of(result.Study);
        var frames = result.Layouts[0].Frames!.Points;
        double? frame = result.Study.Vehicle.SecondAxle!.Chassis.TorsionalStiffness is { } stiffness && stiffness > frames[0].Stiffness && stiffness < frames[^1].Stiffness
            ? Unit.NewtonMetrePerDegree.Of(stiffness) : null;
        var curves = result.Layouts.Select(layout =>
        {
            var points = Shown(layout.Frames!);
            return new PlotSeries(layout.Name, styles[layout.Name], [.. points.Select(point => Unit.NewtonMetrePerDegree.Of(point.Stiffness))], [.. points.Select(point => point.Modes.Roll.DampingRatio)]);
        });
        var ranked = Candidates.Of(result.Layouts, layout => layout.Car.Layout);
        var (best, worst) = (ranked.MaxBy(layout => layout.Reference.Roll.DampingRatio)!, ranked.MinBy(layout => layout.Reference.Roll.DampingRatio)!);
        PeakMark[] marks = frame is not { } at ? []
            : [.. new[] { best, worst }.Distinct().Where(layout => !RollsInParts(layout)).Select(layout => new PeakMark(at, Ratio(layout), PlotText.NotZero(Ratio(layout), 2), styles[layout.Name]))];
        var panel = new CurvePanel(null, "Torsional stiffness of frame and body", Unit.NewtonMetrePerDegree.Symbol, "Roll damping ratio", "", [.. curves])
        {
            LogarithmicX = true,
            ReferenceLines =
            [
                .. frame is { } here ? (ReferenceLine[])[new ReferenceLine(here, "this vehicle", Vertical: true)] : [],
                .. result.Study.Targets is { } targets ? (ReferenceLine[])[new ReferenceLine(targets.RollMinimum, "roll minimum")] : [],
            ],
            Peaks = marks,
        };
        var other = VehicleConclusions.OtherAxle(result.Study.Vehicle);
        var title = RollsInParts(worst)
            ? FigureParts.Text($"The frame is so soft that the two ends of the body roll nearly independently{(RollsInParts(best) ? "" : $" with “{worst.Name}”")}")
            : best == worst
            ? FigureParts.Text($"On the whole vehicle the roll damping ratio is {PlotText.NotZero(Ratio(best), 2)}")
            : FigureParts.Text($"On the whole vehicle the roll damping ratio is {PlotText.NotZero(Ratio(best), 2)} with “{best.Name}”, {PlotText.NotZero(Ratio(worst), 2)} with “{worst.Name}”");
        return new Figure(
            "roll-damping-over-frame.png",
            title,
            $"The {other} damps roll as far as the frame carries its moment. Not drawn where the frame is so soft that its ends roll nearly independently.",
            FigureParts.Footer(result.Study),
            [new Panel(WithRoom(ModesOverVelocityFigure.FromZero(panel.Build())), 0, 0)]);
    }

    /// <summary>Room above the highest line for its name.</summary>
    private static PlotModel WithRoom(PlotModel model)
    {
        const double room = 1.1;
        model.Axes.Single(axis => axis.Position == AxisPosition.Left).Maximum *= room;
        return model;
    }

    private static double Ratio(LayoutModes layout) => layout.OnVehicle!.Modes.Roll.DampingRatio;

    private static bool RollsInParts(LayoutModes layout) => layout.OnVehicle!.Modes.RollsInParts;

    private static FramePoint[] Shown(FrameSweep sweep)
    {
        FramePoint[] apart = [.. sweep.Points.Where(point => !point.Modes.RollsInParts)];
        return apart.Length > 1 ? apart : [.. sweep.Points];
    }
}
