using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>All figures of a placement.</summary>
public static class PlacementFigures
{
    /// <summary>Builds the figures.</summary>
    /// <param name="result">What was found.</param>
    public static IReadOnlyList<Figure> All(PlacementResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var names = new SafeFileNames();
        string File(RailSide side) => $"rear-view-{names.Allocate(PlacementStudy.NameOf(side))}.png";
        return
        [
            Damping(result),
            .. result.Bands.Select(band => RearViewFigure.Build(
                result, PlacementStudy.NameOf(band.Band.Side), band.Band.Outer, File(band.Band.Side),
                FigureParts.Text($"{PlacementStudy.NameOf(band.Band.Side)} the damper fits from {Unit.Millimetre.Of(band.Band.Inner):F1} to {Unit.Millimetre.Show(band.Band.Outer):F1}; the limit is {band.Band.OuterLimit?.Text ?? "the end of the search"}"))),
            .. result.Found.Shortfalls.Select(slot => RearViewFigure.Build(
                result, PlacementStudy.NameOf(slot.Side), slot.Position, File(slot.Side),
                FigureParts.Text($"{PlacementStudy.NameOf(slot.Side)} nothing fits: closest at {Unit.Millimetre.Show(slot.Position):F1}, where {Unit.Millimetre.Show(-slot.Worst.Margin):F1} are missing ({slot.Worst.Text})"), slot.Worst)),
        ];
    }

    private static Figure Damping(PlacementResult result)
    {
        double[] positions = [.. result.Curve.Select(point => Unit.Millimetre.Of(point.Position))];
        var panel = new CurvePanel(null, "Lateral position of the axle end", "mm", "Damping ratio", "",
            [
                new PlotSeries("Roll", OtherStyles.First, positions, [.. result.Curve.Select(point => point.Roll)]),
                new PlotSeries("Heave", OtherStyles.Second, positions, [.. result.Curve.Select(point => point.Heave)]),
            ])
        {
            Peaks = [.. result.Bands.Select(band => new PeakMark(Unit.Millimetre.Of(band.Band.Outer), band.Modes.Roll.DampingRatio, FigureParts.Text($"{band.Modes.Roll.DampingRatio:F2} at {Unit.Millimetre.Show(band.Band.Outer):F1}"), OtherStyles.First))],
        };
        var model = panel.Build();
        SpanLabels.AddTo(model, [.. result.Bands.Select(band => new PlotSpan(Unit.Millimetre.Of(band.Band.Inner), Unit.Millimetre.Of(Math.Max(band.Band.Outer, band.Band.Inner + 1e-6)), "fits"))], _ => Theme.Fits);
        string title = result.Bands.IsEmpty
            ? "The damper fits nowhere over the whole travel"
            : FigureParts.Text($"Roll damping ratio at the best place, {Unit.Millimetre.Show(result.Bands.MaxBy(band => band.Modes.Roll.DampingRatio)!.Band.Outer):F1} from the centre: {result.Bands.Max(band => band.Modes.Roll.DampingRatio):F2}");
        return new Figure("roll-damping-by-position.png", title,
            FigureParts.Text($"Damping ratios at {result.Study.Analysis.ReferenceVelocity:0.###} m/s damper velocity. Yellow: the damper fits over the whole travel."),
            FigureParts.Footer(result.Study), [new Panel(model)]);
    }
}
