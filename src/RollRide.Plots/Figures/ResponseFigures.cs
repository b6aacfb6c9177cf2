using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Frequency responses to the road and to lateral acceleration.</summary>
public static class ResponseFigures
{
    /// <summary>Body motion and tyre load over a road in heave (left) and in roll (right).</summary>
    /// <param name="result">The modes.</param>
    public static Figure ToRoad(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var halfTrack = result.Study.Vehicle.HalfTrack;
        CurvePanel[] panels =
        [
            OfRoad(result, "Road heave: body", "Gain", "", response => response.RoadHeave.Body, 1),
            OfRoad(result, "Road roll: body", "Gain", "", response => response.RoadRoll.Body, halfTrack),
            OfRoad(result, "Road heave: tyre load, left", "Gain", "N/mm", response => response.RoadHeave.TyreLoad, Unit.NewtonPerMillimetre.PerSi),
            OfRoad(result, "Road roll: tyre load, left", "Gain", "N/mm", response => response.RoadRoll.TyreLoad, Unit.NewtonPerMillimetre.PerSi),
        ];
        return new Figure("response-road.png", RoadTitle(result, halfTrack),
            FigureParts.Text($"On a road that lifts both wheels (heave) or tilts them (roll): acceleration of body over road, and tyre load over road height at the wheel, at {result.Study.Analysis.ReferenceVelocity:0.###} m/s damper velocity."),
            FigureParts.Footer(result.Study), [.. CurvePanel.OnOneScale(panels[..2]).Concat(CurvePanel.OnOneScale(panels[2..])).Select((panel, i) => new Panel(panel.Build(), i / 2, i % 2))]);
    }

    /// <summary>Suspension travel over a road in heave (left) and in roll (right).</summary>
    /// <param name="result">The modes.</param>
    public static Figure TravelToRoad(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var heave = OfRoad(result, "Road heave: travel, left", "Gain", "mm/mm", response => response.RoadHeave.SuspensionTravel, 1);
        var roll = OfRoad(result, "Road roll: travel, left", "Gain", "mm/mm", response => response.RoadRoll.SuspensionTravel, 1);
        var most = result.Layouts.MaxBy(layout => Largest(layout.Response.RoadRoll.SuspensionTravel))!;
        return new Figure("response-travel.png",
            FigureParts.Text($"At its worst frequency a tilting road moves the suspension {Times(Largest(most.Response.RoadRoll.SuspensionTravel))} times the road height{(result.Layouts.Length > 1 ? $" (“{most.Name}”)" : "")}"),
            FigureParts.Text($"On a road that lifts both wheels (heave) or tilts them (roll): suspension travel over road height at the wheel, at {result.Study.Analysis.ReferenceVelocity:0.###} m/s damper velocity."),
            FigureParts.Footer(result.Study), [.. CurvePanel.OnOneScale([heave, roll]).Select((panel, column) => new Panel(panel.Build(), 0, column))]);
    }

    /// <summary>Roll angle over lateral acceleration.</summary>
    /// <param name="result">The modes.</param>
    public static Figure ToLateralAcceleration(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        const double Lowest = 0.1, Highest = 10; // Hz: nobody steers faster
        var styles = StudyStyles.Of(result.Study);
        var curves = result.Layouts.Select(layout =>
            Curve(layout, styles[layout.Name], response => response.RollOverLateralAcceleration, 1 / Math.Abs(layout.Response.SteadyRollOverLateralAcceleration), Lowest, Highest)).ToArray();
        var panel = Of(null, "Roll angle, times that of a steady turn", "", curves) with { Labels = LabelPlacement.AtCurveEnds };
        var peaks = curves.Select(curve => (curve.Name, Gain: curve.Y.Max())).ToArray();
        var (calm, lively) = (peaks.MinBy(peak => peak.Gain), peaks.MaxBy(peak => peak.Gain));
        var title = peaks.Length == 1
            ? FigureParts.Text($"At its worst frequency a slalom rolls the body {Times(calm.Gain)} times as far as a steady turn")
            : FigureParts.Text($"At its worst frequency a slalom rolls the body {Times(lively.Gain)} times as far as a steady turn with “{lively.Name}”, {Times(calm.Gain)} times with “{calm.Name}”");
        return new Figure("response-lateral.png", title, "Roll in a slalom at each frequency, over roll in a steady turn of the same lateral acceleration. Linear: no friction, stops or wheel lift.",
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }

    private static double Largest(ImmutableArray<Complex> gains) => gains.Max(gain => gain.Magnitude);

    private static string Times(double gain) => gain.ToString(gain < 1 ? "F2" : gain < 10 ? "F1" : "F0", CultureInfo.InvariantCulture);

    private static CurvePanel OfRoad(
        ModesResult result, string title, string quantity, string unit, Func<FrequencyResponse, ImmutableArray<Complex>> values, double scale)
    {
        const double Lowest = 0.3, Highest = 20; // Hz: from below the body's modes to above the axle's
        var styles = StudyStyles.Of(result.Study);
        return Of(title, quantity, unit, [.. result.Layouts.Select(layout => Curve(layout, styles[layout.Name], values, scale, Lowest, Highest))]);
    }

    private static PlotSeries Curve(
        LayoutModes layout, SeriesStyle style, Func<FrequencyResponse, ImmutableArray<Complex>> values, double scale, double lowest, double highest)
    {
        var points = layout.Response.Frequencies.Zip(values(layout.Response)).Where(point => point.First >= lowest && point.First <= highest).ToArray();
        return new PlotSeries(layout.Name, style, [.. points.Select(point => point.First)], [.. points.Select(point => point.Second.Magnitude * scale)]);
    }

    private static CurvePanel Of(string? title, string quantity, string unit, IReadOnlyList<PlotSeries> curves) => new(title, "Frequency", "Hz", quantity, unit, curves)
    {
        LogarithmicX = true,
        LogarithmicY = true,
        Labels = LabelPlacement.AbovePanels,
        Peaks = Peaks(curves),
    };

    /// <summary>The peaks of all layouts, or of the calmest and the liveliest where more would crowd the panel or are alike.</summary>
    private static PeakMark[] Peaks(IReadOnlyList<PlotSeries> curves)
    {
        const int most = 3;
        const double alike = 1.05;
        var peaks = curves.Select(curve => (At: FigureParts.Extreme(curve), curve.Style)).OrderByDescending(peak => peak.At.Y).ToArray();
        var shown = peaks[0].At.Y < alike * peaks[^1].At.Y ? peaks[..1] : peaks.Length > most ? [peaks[0], peaks[^1]] : peaks;
        return [.. shown.Select(peak => new PeakMark(peak.At.X, peak.At.Y, FigureParts.Text($"{Times(peak.At.Y)} at {Times(peak.At.X)} Hz"), peak.Style))];
    }

    private static string RoadTitle(ModesResult result, double halfTrack)
    {
        var peaks = result.Layouts.Select(layout => (layout.Name, Gain: layout.Response.RoadRoll.Body.Max(z => z.Magnitude) * halfTrack)).ToArray();
        var (calm, lively) = (peaks.MinBy(peak => peak.Gain), peaks.MaxBy(peak => peak.Gain));
        return peaks.Length == 1 || lively.Gain - calm.Gain < 0.05 * calm.Gain
            ? FigureParts.Text($"At the worst frequency the body rolls {Times(lively.Gain)} times the road tilt")
            : FigureParts.Text($"At the worst frequency the body rolls {Times(calm.Gain)} times the road tilt with “{calm.Name}”, {Times(lively.Gain)} times with “{lively.Name}”");
    }
}
