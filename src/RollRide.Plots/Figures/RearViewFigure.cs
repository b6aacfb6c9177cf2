using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using RollRide.Mounting;
using RollRide.Packaging;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The axle from behind, to scale: what stands around the dampers, the dampers at ride height and fully articulated, and the bands.</summary>
public static class RearViewFigure
{
    private const double Mm = 1e3;
    private static readonly OxyColor Body = OxyColor.FromRgb(0xB8, 0xB8, 0xB8);
    private static readonly OxyColor OnAxle = OxyColor.FromRgb(0xD9, 0xD9, 0xD9);

    /// <summary>Builds the figure of one position.</summary>
    /// <param name="result">What was found.</param>
    /// <param name="name">What the position is called.</param>
    /// <param name="position">Lateral position of the axle end, m.</param>
    /// <param name="fileName">Name of the picture.</param>
    /// <param name="title">The finding.</param>
    public static Figure Build(PlacementResult result, string name, double position, string fileName, string title)
    {
        ArgumentNullException.ThrowIfNull(result);
        var space = result.Found.Space;
        var vehicle = result.Study.Vehicle;
        var keepOuts = space.Rail is { } rail ? space.KeepOuts.Add(rail) : space.KeepOuts;
        double top = Math.Max(keepOuts.Max(keepOut => keepOut.Top), space.Mounts.BodyEndHeight) + 0.12;
        double side = keepOuts.Max(keepOut => keepOut.Outer) + 0.06;
        var model = Theme.Panel();
        model.PlotType = PlotType.Cartesian;
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Bottom, "Lateral position, seen from behind (left side at left)", "mm", new PlotRange(-side * Mm, side * Mm)));
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Height above the road", "mm", new PlotRange(-170, top * Mm)));

        foreach (var band in result.Found.Bands)
        {
            foreach (int sign in (ReadOnlySpan<int>)[-1, 1])
            {
                model.Annotations.Add(new RectangleAnnotation
                {
                    MinimumX = Math.Min(sign * band.Inner, sign * band.Outer) * Mm,
                    MaximumX = Math.Max(sign * band.Inner, sign * band.Outer) * Mm,
                    MinimumY = 0,
                    Fill = Theme.Target,
                    Layer = AnnotationLayer.BelowSeries,
                });
            }
        }

        // The axle tube stands for the beam; it is drawn, not checked: the damper's bracket sits on it.
        double axle = vehicle.Unsprung.CgHeight;
        model.Annotations.Add(new RectangleAnnotation { MinimumX = -vehicle.HalfTrack * Mm, MaximumX = vehicle.HalfTrack * Mm, MinimumY = (axle - 0.04) * Mm, MaximumY = (axle + 0.04) * Mm, Fill = OnAxle, Stroke = Theme.SoftInk, StrokeThickness = 1, Layer = AnnotationLayer.BelowSeries });
        foreach (var keepOut in keepOuts)
        {
            foreach (int sign in (ReadOnlySpan<int>)[-1, 1])
                Outline(model, RearViewOutline.Of(space, keepOut, 0, 0), sign, keepOut.MovesWithAxle ? OnAxle : Body, Theme.Ink, LineStyle.Solid);
            Write(model, keepOut.Name, -(keepOut.Inner + keepOut.Outer) / 2 * Mm, keepOut.Top * Mm, VerticalAlignment.Bottom);
        }

        // Fully articulated: the left wheel up, the right one down, in full bump.
        foreach (int sign in (ReadOnlySpan<int>)[-1, 1])
        {
            double roll = -sign * space.Travel.Roll;
            foreach (var keepOut in keepOuts.Where(keepOut => keepOut.MovesWithAxle))
                Outline(model, RearViewOutline.Of(space, keepOut, space.Travel.Bump, roll), sign, OxyColors.Undefined, Theme.SoftInk, LineStyle.Dash);
            foreach (var part in RearViewOutline.Damper(space, position, space.Travel.Bump, roll))
                Outline(model, part, sign, OxyColors.Undefined, Theme.For(0).Color, LineStyle.Dash);
            foreach (var part in RearViewOutline.Damper(space, position, 0, 0))
                Outline(model, part, sign, OxyColor.FromAColor(0x60, Theme.For(0).Color), Theme.For(0).Color, LineStyle.Solid);
        }

        model.Annotations.Add(new LineAnnotation { Type = LineAnnotationType.Vertical, X = 0, Color = Theme.SoftInk, LineStyle = LineStyle.DashDot, StrokeThickness = 1 });
        model.Annotations.Add(new LineAnnotation { Type = LineAnnotationType.Horizontal, Y = 0, Color = Theme.Ink, LineStyle = LineStyle.Solid, StrokeThickness = 1 });
        Dimension(model, 0, -position * Mm, -55, FigureParts.Text($"{position * Mm:F1}"), space.Mounts.AxleEndHeight * Mm);
        Dimension(model, 0, -vehicle.HalfTrack * Mm, -120, FigureParts.Text($"half-track {vehicle.HalfTrack * Mm:F0}"), 0);
        Dimension(model, 0, (position + space.Mounts.BodyEndOutboard) * Mm, -55, FigureParts.Text($"body end {(position + space.Mounts.BodyEndOutboard) * Mm:F1}"), space.Mounts.BodyEndHeight * Mm);
        var band0 = result.Found.Bands.FirstOrDefault(band => position >= band.Inner - 1e-5 && position <= band.Outer + 1e-5);
        if (band0 is not null)
            Dimension(model, band0.Inner * Mm, band0.Outer * Mm, -120, FigureParts.Text($"band {band0.Inner * Mm:F1} to {band0.Outer * Mm:F1}"), 0);
        return new Figure(
            fileName, title,
            FigureParts.Text($"{name}: does the damper clear everything over {space.Travel.Bump * Mm:F0} mm bump, {space.Travel.Rebound * Mm:F0} mm rebound and {space.Travel.Roll * FigureParts.DegPerRad:F1} deg roll? Solid: ride height. Dashed: full bump with full roll. Green: positions that fit. The axle tube is drawn only. Dimensions in mm."),
            FigureParts.Footer(result.Study), [new Panel(model)]);
    }

    private static void Outline(PlotModel model, IEnumerable<RearViewPoint> corners, int sign, OxyColor fill, OxyColor stroke, LineStyle style)
    {
        // Seen from behind, left is left: y counts to the left. The left side takes sign −1.
        var polygon = new PolygonAnnotation { Fill = fill, Stroke = stroke, StrokeThickness = 1.2, LineStyle = style, Layer = AnnotationLayer.BelowSeries };
        polygon.Points.AddRange(corners.Select(corner => new DataPoint(sign * corner.Y * Mm, corner.Z * Mm)));
        model.Annotations.Add(polygon);
    }

    /// <summary>A dimension line with arrows at both ends, its extension lines and its number.</summary>
    private static void Dimension(PlotModel model, double from, double to, double height, string text, double reach)
    {
        foreach (var (start, end) in new[] { (from, to), (to, from) })
        {
            model.Annotations.Add(new ArrowAnnotation { StartPoint = new DataPoint((from + to) / 2, height), EndPoint = new DataPoint(end, height), Color = Theme.Ink, StrokeThickness = 1, HeadLength = 7, HeadWidth = 2.5 });
            var extension = new PolylineAnnotation { Color = Theme.SoftInk, StrokeThickness = 0.8, LineStyle = LineStyle.Solid };
            extension.Points.AddRange([new DataPoint(start, height - 12), new DataPoint(start, start == 0 ? 0 : reach)]);
            model.Annotations.Add(extension);
        }

        Write(model, text, (from + to) / 2, height + 2, VerticalAlignment.Bottom);
    }

    private static void Write(PlotModel model, string text, double x, double y, VerticalAlignment alignment) =>
        model.Annotations.Add(new TextAnnotation
        {
            Text = text,
            TextPosition = new DataPoint(x, y),
            TextVerticalAlignment = alignment,
            TextHorizontalAlignment = HorizontalAlignment.Center,
            TextColor = Theme.Ink,
            StrokeThickness = 0,
            FontSize = Theme.LabelSize,
        });
}
