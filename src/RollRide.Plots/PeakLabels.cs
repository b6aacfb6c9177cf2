using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Series;

namespace RollRide.Plots;

/// <summary>Marked peaks of a panel, each with its value beside it.</summary>
/// <remarks>
/// Each value goes to the first of a few places around its point where it covers no other value and no curve; where all are taken, to
/// the place that covers least, near by or further off. A thin line leads to a value that stands away from its point. Values are placed from the top down, so
/// that the picture is the same every time.
/// </remarks>
internal sealed class PeakLabels : Annotation
{
    private const double DotSize = 2.6;
    private const double Gap = 4;
    private const double LeaderFrom = 14;
    // Distances from the point at which values are tried, in multiples of the closest.
    private static readonly double[] Near = [1, 1.5, 2, 2.5, 3, 4];
    private static readonly double[] Far = [5, 6, 8];

    private const double CostOfText = 1000;
    private const double CostOfDot = 200;

    // A curve that only grazes a value costs less than the eye's way along a leader.
    private const double CostWorthALeader = 4;

    // Distance that a value keeps from curves and axes: half the thickness of a line, and white between.
    private const double Clearance = 1.5;

    // Points of a curve closer together than this are one to the eye; a path that was run has thousands.
    private const double Grain = 1.5;

    private readonly IReadOnlyList<PeakMark> _peaks;
    private readonly bool _areMarkers;

    /// <summary>Makes the marks.</summary>
    /// <param name="peaks">The peaks.</param>
    /// <param name="areMarkers">Whether each point shows its layout's marker, where no curve does; otherwise a dot.</param>
    public PeakLabels(IReadOnlyList<PeakMark> peaks, bool areMarkers = false)
    {
        (_peaks, _areMarkers) = (peaks, areMarkers);
        Layer = AnnotationLayer.AboveSeries;
    }

    /// <summary>Where the values stood when they were last drawn.</summary>
    internal IReadOnlyList<OxyRect> Drawn { get; private set; } = [];

    /// <inheritdoc/>
    public override void Render(IRenderContext rc)
    {
        var marks = _peaks.Select(peak => (peak.Label, peak.Style, Layout: LayoutOf(peak), At: Transform(new DataPoint(peak.X, peak.Y))))
            .OrderBy(mark => mark.At.Y).ToArray();
        var taken = Arrange([.. marks.Select(mark => (mark.Label, mark.At))], Curves(), PlotModel.PlotArea, Texts());
        Drawn = taken;
        for (var i = 0; i < marks.Length; i++)
        {
            var (_, style, layout, at) = marks[i];
            rc.SetToolTip(layout);
            var near = Nearest(taken[i], at);
            if (near.DistanceTo(at) > LeaderFrom)
                rc.DrawLine([at, near], style.Color, 1, EdgeRenderingMode.PreferGeometricAccuracy, null, LineJoin.Round);
        }
        for (var i = 0; i < marks.Length; i++)
        {
            var (text, style, layout, at) = marks[i];
            rc.SetToolTip(layout);
            if (_areMarkers)
                style.DrawMarker(rc, at);
            else
                rc.DrawCircle(at, DotSize, style.Color, OxyColors.White, 1, EdgeRenderingMode.PreferGeometricAccuracy);
            rc.DrawRectangle(taken[i], OxyColor.FromAColor(0xC0, OxyColors.White), OxyColors.Undefined, 0, EdgeRenderingMode.PreferGeometricAccuracy);
            rc.DrawText(taken[i].Center, text, Theme.Ink, null, Theme.LabelSize, PlotFont.Normal,
                0, HorizontalAlignment.Center, VerticalAlignment.Middle, null);
        }

        rc.SetToolTip("");
    }

    /// <summary>The layout whose curve has the style of a peak; "" where the panel has none.</summary>
    private string LayoutOf(PeakMark peak) =>
        PlotModel.Series.FirstOrDefault(series => Equals(series.Tag, peak.Style))?.ToolTip ?? "";

    /// <summary>The place of each value.</summary>
    /// <param name="marks">The values and their points, in the order in which they are placed.</param>
    /// <param name="curves">The curves that are not to be covered.</param>
    /// <param name="area">The plot area, which no value leaves.</param>
    /// <param name="texts">Where other texts stand.</param>
    internal static IReadOnlyList<OxyRect> Arrange(
        IReadOnlyList<(string Label, ScreenPoint At)> marks, IReadOnlyList<ScreenPoint[]> curves, OxyRect area, IReadOnlyList<OxyRect>? texts = null)
    {
        var taken = new List<OxyRect>();
        foreach (var mark in marks)
        {
            var near = FirstFree(mark.At, Places(mark.At, mark.Label, area, Near));
            // In a corner of the plot, or between curves, places near by may all be taken.
            taken.Add(Cost(mark.At, near) < CostWorthALeader ? near : FirstFree(mark.At, Places(mark.At, mark.Label, area, [.. Near, .. Far])));
        }

        return taken;

        OxyRect FirstFree(ScreenPoint at, IEnumerable<OxyRect> places)
        {
            var (best, least) = (new OxyRect(), double.PositiveInfinity);
            foreach (var place in places)
            {
                var cost = Cost(at, place);
                if (cost < least)
                    (best, least) = (place, cost);
                if (cost == 0)
                    break; // the rest need not be looked at: curves have thousands of points
            }

            return best;
        }

        double Cost(ScreenPoint at, OxyRect place) =>
            CostOfText * taken.Concat(texts ?? []).Count(other => Overlap(place, other))
            + CostOfDot * taken.Count(other => LeaderPasses(at, place, other))
            + CostOfDot * marks.Count(mark => place.Inflate(new OxyThickness(DotSize)).Contains(mark.At))
            + curves.Sum(curve => LengthWithin(place.Inflate(new OxyThickness(Clearance)), curve));
    }

    private static IEnumerable<OxyRect> Places(ScreenPoint at, string text, OxyRect area, IReadOnlyList<double> reaches)
    {
        var size = new OxySize(PlotFont.Width(text, Theme.LabelSize) + Gap, PlotFont.LineHeight(Theme.LabelSize) - 1);
        var (dx, dy) = (size.Width / 2 + DotSize + Gap / 2, size.Height / 2 + DotSize + Gap / 2);
        foreach (var reach in reaches)
        {
            foreach (var (x, y) in new[] { (0.0, -1.0), (0, 1), (1, 0), (-1, 0), (1, -0.8), (1, 0.8), (-1, -0.8), (-1, 0.8) })
            {
                var place = new OxyRect(at.X + x * dx * reach - size.Width / 2, at.Y + y * dy * reach - size.Height / 2, size.Width, size.Height);
                yield return new OxyRect(
                    Math.Clamp(place.Left, area.Left + Clearance, Math.Max(area.Left + Clearance, area.Right - Clearance - place.Width)),
                    Math.Clamp(place.Top, area.Top + Clearance, Math.Max(area.Top + Clearance, area.Bottom - Clearance - place.Height)),
                    place.Width, place.Height);
            }
        }
    }

    /// <summary>Whether the line from a point to its value passes through another text.</summary>
    private static bool LeaderPasses(ScreenPoint at, OxyRect place, OxyRect other)
    {
        const int steps = 16; // finer than a text is high, over the furthest reach
        var end = Nearest(place, at);
        return end.DistanceTo(at) > LeaderFrom
            && Enumerable.Range(1, steps).Any(i => other.Contains(new ScreenPoint(at.X + ((end.X - at.X) * i / steps), at.Y + ((end.Y - at.Y) * i / steps))));
    }

    private static ScreenPoint Nearest(OxyRect place, ScreenPoint to) =>
        new(Math.Clamp(to.X, place.Left - 1, place.Right + 1), Math.Clamp(to.Y, place.Top, place.Bottom));

    /// <summary>Whether two rectangles lie on each other.</summary>
    internal static bool Overlap(OxyRect a, OxyRect b) => a.Left < b.Right && b.Left < a.Right && a.Top < b.Bottom && b.Top < a.Bottom;

    /// <summary>Length of the pieces of a curve whose bounding box meets a rectangle: close enough for short pieces.</summary>
    internal static double LengthWithin(OxyRect place, ScreenPoint[] curve)
    {
        var length = 0.0;
        for (var i = 1; i < curve.Length; i++)
        {
            var (a, b) = (curve[i - 1], curve[i]);
            if (Math.Max(a.X, b.X) >= place.Left && Math.Min(a.X, b.X) <= place.Right
                && Math.Max(a.Y, b.Y) >= place.Top && Math.Min(a.Y, b.Y) <= place.Bottom)
                length += a.DistanceTo(b);
        }
        return length;
    }

    /// <summary>The curves, the paths that were run and the reference lines.</summary>
    private ScreenPoint[][] Curves()
    {
        var area = PlotModel.PlotArea;
        ScreenPoint[] Across(LineAnnotation line)
        {
            var height = Transform(new DataPoint(line.X, line.Y)).Y;
            return [new(area.Left, height), new(area.Right, height)];
        }

        return
        [
            .. CurvesOf(this),
            .. PlotModel.Annotations.OfType<LineAnnotation>().Where(line => line is { LineStyle: LineStyle.Dash, Type: LineAnnotationType.Horizontal }).Select(Across),
        ];
    }

    /// <summary>The curves of the panel that an annotation is in, and its upright reference lines.</summary>
    internal static ScreenPoint[][] CurvesOf(Annotation annotation)
    {
        var area = annotation.PlotModel.PlotArea;
        return
        [
            .. annotation.PlotModel.Series.OfType<LineSeries>().Where(series => series.LineStyle != LineStyle.None).Select(series => Thinned(series.Points.Select(annotation.Transform))),
            .. annotation.PlotModel.Annotations.OfType<LineAnnotation>().Where(line => line is { LineStyle: LineStyle.Dash, Type: LineAnnotationType.Vertical })
                .Select(line => annotation.Transform(new DataPoint(line.X, 0)).X).Select(x => new[] { new ScreenPoint(x, area.Top), new ScreenPoint(x, area.Bottom) }),
        ];
    }

    private static ScreenPoint[] Thinned(IEnumerable<ScreenPoint> points)
    {
        var kept = new List<ScreenPoint>();
        foreach (var point in points)
        {
            if (kept.Count == 0 || point.DistanceTo(kept[^1]) >= Grain)
                kept.Add(point);
        }

        return [.. kept];
    }

    /// <summary>Where the texts written into the panel stand.</summary>
    private OxyRect[] Texts() => [.. PlotModel.Annotations.OfType<TextAnnotation>().Select(BoxOf)];

    /// <summary>Where a text written into a panel stands.</summary>
    internal static OxyRect BoxOf(TextAnnotation text)
    {
        var at = text.Transform(text.TextPosition);
        var size = new OxySize(PlotFont.Width(text.Text ?? "", text.FontSize) + (2 * text.Padding.Left), PlotFont.LineHeight(text.FontSize) + (2 * text.Padding.Top));
        return new OxyRect(
            at.X - (size.Width * (1 + Math.Sign((int)text.TextHorizontalAlignment)) / 2),
            at.Y - (size.Height * (1 + Math.Sign((int)text.TextVerticalAlignment)) / 2),
            size.Width, size.Height);
    }
}
