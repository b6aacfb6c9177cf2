using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>What was driven over and through: road under each wheel and lateral acceleration.</summary>
public static class InputsFigure
{
    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var study = result.Study;
        var phases = FigureParts.Phases(study);
        var (left, right, lateral) = Inputs(result);
        var ay = FigureParts.Extreme(lateral).Y;
        var panels = TimePanel.Stack(
        [
            new TimePanel("Road under the wheels", "Elevation", "mm", [left, right]) { Phases = phases },
            .. ay == 0 ? Array.Empty<TimePanel>() : [new TimePanel("Cornering, left turn positive", "Lateral acceleration", "m/s²", [lateral]) { Phases = phases, Labels = LabelPlacement.None }],
        ]);
        return new Figure(
            "inputs.png",
            $"The run: {Test(result)}",
            "What is every layout driven over and through?",
            FigureParts.Footer(study),
            panels);
    }

    /// <summary>What was driven, in words.</summary>
    /// <param name="result">What the layouts did.</param>
    public static string Test(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var (left, right, lateral) = Inputs(result);
        var height = Math.Max(Math.Abs(FigureParts.Extreme(left).Y), Math.Abs(FigureParts.Extreme(right).Y));
        var ay = FigureParts.Extreme(lateral).Y;
        var parts = new List<string>();
        if (height > 0)
            parts.Add(FigureParts.Text($"a road of up to {height:F0} mm"));
        if (ay != 0)
            parts.Add(FigureParts.Text($"{Turn(lateral, ay)} of up to {Math.Abs(ay):F1} m/s²"));
        var what = parts.Count == 0 ? "a flat road, straight ahead" : string.Join(" and ", parts);
        return FigureParts.Text($"{what} at {Unit.KilometrePerHour.Show(result.Study.Manoeuvre.Road.Speed):F0}");
    }

    private static (PlotSeries Left, PlotSeries Right, PlotSeries Lateral) Inputs(RecordedComparison result)
    {
        PlotSeries Input(string name, int style, Channel channel, Unit unit)
        {
            var (time, value) = result.Layouts[0].History.Slice(channel, unit, 0, result.Study.Manoeuvre.Duration);
            return new PlotSeries(name, style, time, value);
        }

        return (Input("Left wheel", 6, Channel.RoadLeft, Unit.Millimetre), Input("Right wheel", 7, Channel.RoadRight, Unit.Millimetre), Input("Lateral acceleration", 2, Channel.LateralAcceleration, Unit.MetrePerSecondSquared));
    }

    /// <summary>Which way it turns; smaller swings to the other side, as those of a settling vehicle, do not count.</summary>
    private static string Turn(PlotSeries lateral, double extreme)
    {
        const double Counts = 0.2;
        var other = extreme > 0 ? -lateral.Y.Min() : lateral.Y.Max();
        if (other > Counts * Math.Abs(extreme))
            return "turns both ways";
        return extreme > 0 ? "a left turn" : "a right turn";
    }
}
