using OxyPlot;
using OxyPlot.Annotations;

namespace RollRide.Plots;

/// <summary>
/// Draws the bars of a <see cref="BarPanel"/>, each with its layout's marker at its foot and its value at its end, and the limits of its
/// categories: over the bars, and under the values.
/// </summary>
/// <param name="groups">The layouts.</param>
/// <param name="limits">The limits.</param>
/// <param name="decimals">Decimals of the values.</param>
/// <param name="upright">Whether the bars stand.</param>
/// <param name="oneEach">Whether each layout has a place of its own on the axis of names, instead of one in every category.</param>
internal sealed class Bars(IReadOnlyList<BarGroup> groups, IReadOnlyList<BarLimit> limits, int decimals, bool upright, bool oneEach) : Annotation, INamesLayouts
{
    private const double GroupWidth = 0.84;
    private const double ThickestBar = 0.62;
    private const double Gap = 3;
    private const double RoomForMarker = 2 * (Theme.MarkerSize + Gap);

    /// <summary>The limits drawn.</summary>
    public IReadOnlyList<BarLimit> Limits => limits;

    /// <inheritdoc/>
    public IEnumerable<string> LayoutNames => groups.Select(group => group.Name);

    /// <inheritdoc/>
    public override void Render(IRenderContext rc)
    {
        var thickness = oneEach ? ThickestBar : Math.Min(ThickestBar, GroupWidth / groups.Count);
        ForEach((group, value, middle) => DrawBar(rc, group, value, middle, thickness));
        foreach (var limit in Limits)
            DrawLimit(rc, limit);
        ForEach((_, value, middle) => DrawValue(rc, value, middle));

        void ForEach(Action<BarGroup, double, double> draw)
        {
            for (var g = 0; g < groups.Count; g++)
            {
                rc.SetToolTip(groups[g].Name);
                for (var category = 0; category < groups[g].Values.Count; category++)
                    draw(groups[g], groups[g].Values[category], oneEach ? g : category + ((g - ((groups.Count - 1) / 2.0)) * thickness));
            }

            rc.SetToolTip("");
        }
    }

    private void DrawLimit(IRenderContext rc, BarLimit limit)
    {
        const double half = 0.46; // of the place of a category, with a gap to the next
        ScreenPoint[] line = [Place(limit.Value, limit.Category - half), Place(limit.Value, limit.Category + half)];
        var thickness = OtherStyles.Reference.Thickness;
        // On a strip of white it shows on bars of any colour.
        rc.DrawLine(line, OxyColors.White, 2 * thickness, EdgeRenderingMode.PreferGeometricAccuracy, null, LineJoin.Miter);
        rc.DrawLine(line, Theme.Ink, thickness, EdgeRenderingMode.PreferGeometricAccuracy, LineStyle.Dash.GetDashArray(), LineJoin.Miter);
    }

    private void DrawBar(IRenderContext rc, BarGroup group, double value, double middle, double thickness)
    {
        const double filled = 0.88; // leaves a line of white between bars that touch
        var foot = Place(0, middle - filled * thickness / 2);
        var tip = Place(value, middle + filled * thickness / 2);
        rc.DrawRectangle(new OxyRect(foot, tip), group.Style.Color, OxyColors.Undefined, 0, EdgeRenderingMode.PreferGeometricAccuracy);

        var (start, end) = (Place(0, middle), Place(value, middle));
        var away = value < 0 ? -1 : 1;
        // Inside the bar at its foot, where it cannot be taken for a value; a bar too low for it goes by its place.
        if (start.DistanceTo(end) > RoomForMarker)
            group.Style.DrawMarkerOnColor(rc, upright ? new(start.X, start.Y - (away * RoomForMarker / 2)) : new(start.X + (away * RoomForMarker / 2), start.Y));
    }

    private void DrawValue(IRenderContext rc, double value, double middle)
    {
        const double distance = Gap;
        var end = Place(value, middle);
        var away = value < 0 ? -1 : 1;
        var text = PlotText.NotZero(value, decimals);
        var (at, horizontal, vertical) = upright
            ? (new ScreenPoint(end.X, end.Y - away * distance), HorizontalAlignment.Center, value < 0 ? VerticalAlignment.Top : VerticalAlignment.Bottom)
            : (new ScreenPoint(end.X + away * distance, end.Y), value < 0 ? HorizontalAlignment.Right : HorizontalAlignment.Left, VerticalAlignment.Middle);
        if (Limits.Count > 0)
        {
            // A limit that passes behind a value must not strike it out.
            var size = new OxySize(PlotFont.Width(text, Theme.LabelSize), PlotFont.LineHeight(Theme.LabelSize));
            var corner = new ScreenPoint(at.X - (size.Width * (1 + Math.Sign((int)horizontal)) / 2), at.Y - (size.Height * (1 + Math.Sign((int)vertical)) / 2));
            rc.DrawRectangle(new OxyRect(corner, size), OxyColors.White, OxyColors.Undefined, 0, EdgeRenderingMode.PreferGeometricAccuracy);
        }

        rc.DrawText(at, text, Theme.Ink, null, Theme.LabelSize, PlotFont.Normal, 0, horizontal, vertical, null);
    }

    private ScreenPoint Place(double value, double along) =>
        Transform(upright ? new DataPoint(along, value) : new DataPoint(value, along));
}
