using System.Collections.Immutable;
using System.Numerics;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Frequency responses to the road and to lateral acceleration.</summary>
public static class ResponseFigures
{
    /// <summary>Body motion, suspension travel and tyre load over a road in heave (above) and in roll (below).</summary>
    /// <param name="result">The modes.</param>
    public static Figure ToRoad(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var halfTrack = result.Study.Vehicle.HalfTrack;
        const double PerMm = 1e-3;
        CurvePanel[] panels =
        [
            Of(result, "Road heave: body", "Gain", "", response => response.RoadHeave.Body, 1),
            Of(result, "Road heave: travel, left", "Gain", "mm/mm", response => response.RoadHeave.SuspensionTravel, 1),
            Of(result, "Road heave: tyre load, left", "Gain", "N/mm", response => response.RoadHeave.TyreLoad, PerMm),
            Of(result, "Road roll: body", "Gain", "", response => response.RoadRoll.Body, halfTrack),
            Of(result, "Road roll: travel, left", "Gain", "mm/mm", response => response.RoadRoll.SuspensionTravel, 1),
            Of(result, "Road roll: tyre load, left", "Gain", "N/mm", response => response.RoadRoll.TyreLoad, PerMm),
        ];
        return new Figure("response-road.png", RoadTitle(result, halfTrack),
            FigureParts.Text($"What reaches body, suspension and tyres from a road that lifts both wheels (heave) or tilts them (roll)? Body over road acceleration, travel and load over the wheel's road height, at {result.Study.Analysis.ReferenceVelocity:0.###} m/s damper velocity."),
            FigureParts.Footer(result.Study), [.. panels.Select((panel, i) => new Panel(panel.Build(), i / 3, i % 3))]);
    }

    /// <summary>Roll angle over lateral acceleration.</summary>
    /// <param name="result">The modes.</param>
    public static Figure ToLateralAcceleration(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var panel = Of(result, null, "Roll angle over lateral acceleration", "deg/(m/s²)", response => response.RollOverLateralAcceleration, FigureParts.DegPerRad)
            with
        { Labels = LabelPlacement.AtCurveEnds };
        var peaks = result.Layouts.Select(layout => (layout.Name, Gain: layout.Response.RollOverLateralAcceleration.Max(z => z.Magnitude) / layout.Response.RollOverLateralAcceleration[0].Magnitude)).ToArray();
        var (calm, lively) = (peaks.MinBy(peak => peak.Gain), peaks.MaxBy(peak => peak.Gain));
        var title = peaks.Length == 1
            ? FigureParts.Text($"At its worst frequency steering rolls the body {Times(calm.Gain)} times as far as a steady turn")
            : FigureParts.Text($"At its worst frequency {lively.Name} rolls {Times(lively.Gain)} times as far as in a steady turn, {calm.Name} {Times(calm.Gain)} times");
        return new Figure("response-lateral.png", title, "How far does the body roll when the lateral acceleration swings at each frequency?",
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }

    private static string Times(double gain) => gain.ToString(gain < 10 ? "F1" : "F0", System.Globalization.CultureInfo.InvariantCulture);

    private static CurvePanel Of(
        ModesResult result, string? title, string quantity, string unit, Func<FrequencyResponse, ImmutableArray<Complex>> values, double scale)
    {
        var curves = result.Layouts.Select((layout, i) =>
            new PlotSeries(layout.Name, i, layout.Response.Frequencies, [.. values(layout.Response).Select(z => z.Magnitude * scale)]));
        return new CurvePanel(title, "Frequency", "Hz", quantity, unit, [.. curves])
        {
            LogarithmicX = true,
            LogarithmicY = true,
            Labels = LabelPlacement.AbovePanels,
        };
    }

    private static string RoadTitle(ModesResult result, double halfTrack)
    {
        var peaks = result.Layouts.Select(layout => (layout.Name, Gain: layout.Response.RoadRoll.Body.Max(z => z.Magnitude) * halfTrack)).ToArray();
        var (calm, lively) = (peaks.MinBy(peak => peak.Gain), peaks.MaxBy(peak => peak.Gain));
        return peaks.Length == 1 || lively.Gain - calm.Gain < 0.05 * calm.Gain
            ? FigureParts.Text($"At its worst frequency a tilting road rolls the body {Times(lively.Gain)} times as far as it tilts")
            : FigureParts.Text($"At its worst frequency a tilting road rolls the body {Times(calm.Gain)} times as far with {calm.Name}, {Times(lively.Gain)} times with {lively.Name}");
    }
}
