using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Studies;
using RollRide.Vehicle;

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
        var panels = TimePanel.Stack(
        [
            new TimePanel($"Road under the wheels, at {Speed(study)}", "Height", "mm", [left, right]) { Phases = phases, Peaks = [.. Sizes(result, left, right)] },
            .. IsFlat(lateral) ? Array.Empty<TimePanel>() : [new TimePanel("Lateral acceleration, left turn positive", "ay", "m/s²", [lateral]) { Phases = phases, Peaks = [Peak(lateral, 1, "m/s²")], Labels = LabelPlacement.None }],
        ]);
        return new Figure("inputs.png", $"The run: {Test(result)}", IsFlat(lateral) ? "Road under the wheels, the same for every layout." : "Road under the wheels and lateral acceleration, the same for every layout.", FigureParts.Footer(study), panels);
    }

    /// <summary>What was driven, in words.</summary>
    /// <param name="result">What the layouts did.</param>
    public static string Test(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var (left, right, lateral) = Inputs(result);
        var highest = Highest(left, right);
        var parts = new List<string>();
        if (!IsFlat(highest) && RoadWords.Of(result.Study.Manoeuvre.Road, FigureParts.Extreme(highest).Y * Unit.Millimetre.InSi) is { } road)
            parts.Add(road);
        if (FigureParts.Extreme(lateral).Y is not 0 and var ay)
            parts.Add(FigureParts.Text($"{Turn(lateral, ay)} of up to {Math.Abs(ay):F1} m/s²"));
        var what = parts.Count == 0 ? "a flat road, straight ahead" : string.Join(" and ", parts);
        return $"{what} at {Speed(result.Study)}";
    }

    private static (PlotSeries Left, PlotSeries Right, PlotSeries Lateral) Inputs(RecordedComparison result)
    {
        PlotSeries Input(string name, SeriesStyle style, Channel channel, Unit unit)
        {
            var (time, value) = Slice(result, channel, unit, 0, result.Study.Manoeuvre.Duration);
            return new PlotSeries(name, style, time, value);
        }

        return (Input("Left wheel", OtherStyles.First, Channel.RoadLeft, Unit.Millimetre), Input("Right wheel", OtherStyles.Second, Channel.RoadRight, Unit.Millimetre), Input("Lateral acceleration", OtherStyles.First, Channel.LateralAcceleration, Unit.MetrePerSecondSquared));
    }

    private static (double[] Time, double[] Value) Slice(RecordedComparison result, Channel channel, Unit unit, double start, double end) =>
        result.Layouts[0].History.Slice(channel, unit, start, end);

    private static PlotSeries Highest(PlotSeries left, PlotSeries right) => Math.Abs(FigureParts.Extreme(right).Y) > Math.Abs(FigureParts.Extreme(left).Y) ? right : left;

    /// <summary>The sizes that the title names; of a random road it names none.</summary>
    private static IEnumerable<PeakMark> Sizes(RecordedComparison result, PlotSeries left, PlotSeries right)
    {
        var road = result.Study.Manoeuvre.Road;
        if (IsFlat(Highest(left, right)) || FigureParts.IsOneOfMany(result.Study))
            return [];
        // A rear axle comes to an obstacle by the wheelbase later.
        var later = result.Study.Vehicle.SecondAxle?.StudiedPlace == Axle.Rear ? road.Wheelbase ?? 0 : 0;
        var named = RoadWords.Named(road)
            .Select(at => (Curve: at.Side == RoadSide.Left ? left : right, Part: Slice(result, at.Side == RoadSide.Left ? Channel.RoadLeft : Channel.RoadRight, Unit.Millimetre, (at.From + later) / road.Speed, (at.To + later) / road.Speed)))
            .Where(at => at.Part.Time.Length > 1)
            .Select(at => new PlotSeries(at.Curve.Name, at.Curve.Style, at.Part.Time, at.Part.Value)).ToArray();
        return (named.Length > 0 ? named : [Highest(left, right)]).Select(curve => Peak(curve, 0, "mm"));
    }

    private static bool IsFlat(PlotSeries input) => FigureParts.Extreme(input).Y == 0;

    private static string Speed(StudyCase study) => FigureParts.Text($"{Unit.KilometrePerHour.Show(study.Manoeuvre.Road.Speed):F0}");

    private static PeakMark Peak(PlotSeries curve, int decimals, string unit)
    {
        var (x, y) = FigureParts.Extreme(curve);
        return new PeakMark(x, y, PlotText.Value(y, decimals, unit), curve.Style);
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
