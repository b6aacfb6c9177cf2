using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using RollRide.Findings;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The axle from behind, to scale: what stands around the dampers, the dampers at ride height and fully articulated, and the bands.</summary>
public static class RearViewFigure
{
    // Height of the plot area of one panel on a slide, in plot units: with it the width of a text turns into millimetres of the drawing.
    private const double PlotHeight = 235;
    private const double Lowest = -215;
    private const double NameRow = 62;
    private const double Elbow = 36;
    private const double HeadRoom = 0.14; // m, for the row of names
    private const double Head = 7; // of an arrow, in plot units
    private const double AboveLine = 3; // of a number over its dimension line, clear of the arrows, in plot units

    private static readonly OxyColor Body = OxyColor.FromRgb(0xB8, 0xB8, 0xB8);
    private static readonly OxyColor OnAxle = OxyColor.FromRgb(0xD9, 0xD9, 0xD9);

    /// <summary>Builds the figure of one position.</summary>
    /// <param name="result">What was found.</param>
    /// <param name="name">What the position is called.</param>
    /// <param name="position">Lateral position of the axle end, m.</param>
    /// <param name="fileName">Name of the picture.</param>
    /// <param name="title">The finding.</param>
    /// <param name="failing">What is in the way, where the damper does not fit: then its articulation is drawn, otherwise the furthest.</param>
    public static Figure Build(PlacementResult result, string name, double position, string fileName, string title, Contact? failing = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        var space = result.Found.Space;
        var vehicle = result.Study.Vehicle;
        var keepOuts = space.AllKeepOuts;
        var (heave, leftRoll) = failing is null ? (space.Travel.MostArticulated.Heave, space.Travel.MostArticulated.Roll) : (failing.Heave, failing.Roll);
        double top = Math.Max(keepOuts.Max(keepOut => keepOut.Top), space.Mounts.BodyEndHeight) + HeadRoom;
        double side = keepOuts.Max(keepOut => keepOut.Outer) + 0.06;
        double mmPerUnit = ((Unit.Millimetre.Of(top)) - Lowest) / PlotHeight;
        var model = Theme.Panel();
        model.PlotType = PlotType.Cartesian;
        var lateral = PlotAxis.Linear(AxisPosition.Bottom, "Lateral position, positive to the left, seen from behind", "mm", new PlotRange(Unit.Millimetre.Of(-side), Unit.Millimetre.Of(side)));

        // The picture runs to the right, y to the left.
        lateral.LabelFormatter = x => PlotText.Number(-x, 0);
        model.Axes.Add(lateral);
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Height above the road", "mm", new PlotRange(Lowest, Unit.Millimetre.Of(top))));

        foreach (var band in result.Found.Bands)
        {
            foreach (int sign in (ReadOnlySpan<int>)[-1, 1])
            {
                model.Annotations.Add(new RectangleAnnotation
                {
                    MinimumX = Unit.Millimetre.Of(Math.Min(sign * band.Inner, sign * band.Outer)),
                    MaximumX = Unit.Millimetre.Of(Math.Max(sign * band.Inner, sign * band.Outer)),
                    MinimumY = 0,
                    Fill = Theme.Fits,
                    Layer = AnnotationLayer.BelowSeries,
                });
            }
        }

        // The axle tube stands for the beam; it is drawn, not checked: the damper's bracket sits on it.
        double axle = vehicle.Unsprung.CgHeight + (space.Mounts.AxleEndHeight - result.Study.Placement!.Space.Mounts.AxleEndHeight);
        model.Annotations.Add(new RectangleAnnotation { MinimumX = Unit.Millimetre.Of(-vehicle.HalfTrack), MaximumX = Unit.Millimetre.Of(vehicle.HalfTrack), MinimumY = Unit.Millimetre.Of(axle - 0.04), MaximumY = Unit.Millimetre.Of(axle + 0.04), Fill = OnAxle, Stroke = Theme.SoftInk, StrokeThickness = 1, Layer = AnnotationLayer.BelowSeries });
        foreach (var keepOut in keepOuts)
        {
            foreach (int sign in (ReadOnlySpan<int>)[-1, 1])
                Outline(model, RearViewOutline.Of(space, keepOut, 0, 0), sign, keepOut.MovesWithAxle ? OnAxle : Body, Theme.Ink, LineStyle.Solid);
        }

        AddNames(model, keepOuts, Unit.Millimetre.Of(top), Unit.Millimetre.Of(side), mmPerUnit);

        // Articulated: as far as it goes, the left wheel up and the right one down, or as it is where something is in the way.
        foreach (int sign in (ReadOnlySpan<int>)[-1, 1])
        {
            double roll = -sign * leftRoll;
            foreach (var keepOut in keepOuts.Where(keepOut => keepOut.MovesWithAxle))
                Outline(model, RearViewOutline.Of(space, keepOut, heave, roll), sign, OxyColors.Undefined, keepOut.Name == failing?.Against ? Theme.Ink : Theme.SoftInk, LineStyle.Dash);
            foreach (var part in RearViewOutline.Damper(space, position, heave, roll))
                Outline(model, part, sign, OxyColors.Undefined, Theme.Ink, LineStyle.Dash);
            foreach (var part in RearViewOutline.Damper(space, position, 0, 0))
                Outline(model, part, sign, OxyColor.FromAColor(0x90, Theme.Ink), Theme.Ink, LineStyle.Solid);
        }

        model.Annotations.Add(new LineAnnotation { Type = LineAnnotationType.Vertical, X = 0, MaximumY = (Unit.Millimetre.Of(top)) - NameRow, Color = Theme.SoftInk, LineStyle = LineStyle.DashDot, StrokeThickness = 1 });
        model.Annotations.Add(new LineAnnotation { Type = LineAnnotationType.Horizontal, Y = 0, Color = Theme.Ink, LineStyle = LineStyle.Solid, StrokeThickness = 1 });
        if (failing is not null)
            Write(model, FigureParts.Text($"{Unit.Millimetre.Show(-failing.Margin):F1} missing: {failing.Text}"), 0, Elbow, HorizontalAlignment.Center, OxyColors.White);
        Dimension(model, mmPerUnit, 0, Unit.Millimetre.Of(-position), -80, FigureParts.Text($"{Unit.Millimetre.Of(position):F1}"), Unit.Millimetre.Of(space.Mounts.AxleEndHeight));
        Dimension(model, mmPerUnit, 0, Unit.Millimetre.Of(-vehicle.HalfTrack), -165, FigureParts.Text($"half-track {Unit.Millimetre.Of(vehicle.HalfTrack):F0}"), 0);
        Dimension(model, mmPerUnit, 0, Unit.Millimetre.Of(position + space.Mounts.BodyEndOutboard), -80, FigureParts.Text($"body end {Unit.Millimetre.Of(position + space.Mounts.BodyEndOutboard):F1}"), Unit.Millimetre.Of(space.Mounts.BodyEndHeight));
        var band0 = result.Found.Bands.FirstOrDefault(band => position >= band.Inner - 1e-5 && position <= band.Outer + 1e-5);
        if (band0 is not null)
            Dimension(model, mmPerUnit, Unit.Millimetre.Of(band0.Inner), Unit.Millimetre.Of(band0.Outer), -165, FigureParts.Text($"band {Unit.Millimetre.Of(band0.Inner):F1} to {Unit.Millimetre.Of(band0.Outer):F1}"), 0);
        return new Figure(
            fileName, title,
            FigureParts.Text($"{name}, over {TravelWords.Range(space.Travel)}. Solid: ride height. Dashed: {(failing is null ? "" : "where it fails, ")}{PlotText.Number(Unit.Millimetre.Of(heave), 0)} mm heave with {PlotText.Number(Unit.Degree.Of(leftRoll), 1)} deg roll.{(result.Found.Bands.IsEmpty ? "" : " Yellow: the damper fits.")} The axle tube is not checked. Dimensions in mm."),
            FigureParts.Footer(result.Study), [new Panel(model)])
        {
            NeedsHeight = true,
        };
    }

    /// <summary>
    /// One row of names above everything, in the order of what they name and moved apart where they would overlap, each with a line to it:
    /// first aslant, then down. In one order on both levels, no two lines cross.
    /// </summary>
    private static void AddNames(PlotModel model, IEnumerable<KeepOut> keepOuts, double top, double side, double mmPerUnit)
    {
        const double gap = 8; // between two names, in plot units
        var named = keepOuts.OrderByDescending(keepOut => keepOut.Inner + keepOut.Outer).ToArray();
        double[] places = [.. named.Select(keepOut => Unit.Millimetre.Of(-(keepOut.Inner + keepOut.Outer) / 2))];
        double[] widths = [.. named.Select(keepOut => (PlotFont.Width(keepOut.Name, Theme.LabelSize) + gap) * mmPerUnit)];
        var spread = LabelSpreader.Spread(places, widths, -side, side);
        for (var i = 0; i < named.Length; i++)
        {
            Stroke(model, (spread[i], top - NameRow), (places[i], top - NameRow - Elbow), (places[i], Unit.Millimetre.Of(named[i].Top)));
            Write(model, named[i].Name, spread[i], top - NameRow, HorizontalAlignment.Center);
        }
    }

    private static void Outline(PlotModel model, IEnumerable<RearViewPoint> corners, int sign, OxyColor fill, OxyColor stroke, LineStyle style)
    {
        // Seen from behind, left is left: y counts to the left. The left side takes sign −1.
        var polygon = new PolygonAnnotation { Fill = fill, Stroke = stroke, StrokeThickness = 1.2, LineStyle = style, Layer = AnnotationLayer.BelowSeries };
        polygon.Points.AddRange(corners.Select(corner => new DataPoint(Unit.Millimetre.Of(sign * corner.Y), Unit.Millimetre.Of(corner.Z))));
        model.Annotations.Add(polygon);
    }

    /// <summary>A dimension line with arrows at both ends, its extension lines and its number: beside the line where it is too short for it.</summary>
    private static void Dimension(PlotModel model, double mmPerUnit, double from, double to, double height, string text, double reach)
    {
        // Where two heads have no room between the extension lines, they point at them from outside.
        bool isTight = Math.Abs(to - from) < 2.5 * Head * mmPerUnit;
        foreach (var (start, end) in new[] { (from, to), (to, from) })
        {
            double tail = isTight ? end + (Math.Sign(end - start) * 2 * Head * mmPerUnit) : (from + to) / 2;
            model.Annotations.Add(new ArrowAnnotation { StartPoint = new DataPoint(tail, height), EndPoint = new DataPoint(end, height), Color = Theme.Ink, StrokeThickness = 1, HeadLength = Head, HeadWidth = 2.5 });
            Stroke(model, (start, height - 12), (start, start == 0 ? 0 : reach));
        }

        if (PlotFont.Width(text, Theme.LabelSize) * mmPerUnit < Math.Abs(to - from))
            Write(model, text, (from + to) / 2, height + (AboveLine * mmPerUnit), HorizontalAlignment.Center);
        else
            Write(model, text, Math.Max(from, to) + ((isTight ? 2.5 * Head : 4) * mmPerUnit), height - 20, HorizontalAlignment.Left);
    }

    private static void Stroke(PlotModel model, params ReadOnlySpan<(double X, double Y)> points)
    {
        var line = new PolylineAnnotation { Color = Theme.SoftInk, StrokeThickness = 0.8, LineStyle = LineStyle.Solid };
        foreach (var (x, y) in points)
            line.Points.Add(new DataPoint(x, y));
        model.Annotations.Add(line);
    }

    private static void Write(PlotModel model, string text, double x, double y, HorizontalAlignment alignment, OxyColor background = default) =>
        model.Annotations.Add(new TextAnnotation
        {
            Text = text,
            TextPosition = new DataPoint(x, y),
            TextVerticalAlignment = VerticalAlignment.Bottom,
            TextHorizontalAlignment = alignment,
            TextColor = Theme.Ink,
            StrokeThickness = 0,
            FontSize = Theme.LabelSize,
            Background = background,
        });
}
