using OxyPlot;
using OxyPlot.Annotations;

namespace RollRide.Plots;

/// <summary>Draws the bars of a <see cref="BarPanel"/>, each with its layout's marker at its foot and its value at its end.</summary>
/// <param name="groups">The layouts.</param>
/// <param name="decimals">Decimals of the values.</param>
/// <param name="upright">Whether the bars stand.</param>
/// <param name="oneEach">Whether each layout has a place of its own on the axis of names, instead of one in every category.</param>
internal sealed class Bars(IReadOnlyList<BarGroup> groups, int decimals, bool upright, bool oneEach) : Annotation
{
    private const double GroupWidth = 0.84;
    private const double ThickestBar = 0.62;
    private const double Gap = 3;
    private const double RoomForMarker = 2 * (Theme.MarkerSize + Gap);

    /// <inheritdoc/>
    public override void Render(IRenderContext rc)
    {
        var thickness = oneEach ? ThickestBar : Math.Min(ThickestBar, GroupWidth / groups.Count);
        for (var g = 0; g < groups.Count; g++)
        {
            rc.SetToolTip(groups[g].Name);
            for (var category = 0; category < groups[g].Values.Count; category++)
            {
                var middle = oneEach ? g : category + (g - (groups.Count - 1) / 2.0) * thickness;
                Draw(rc, groups[g], groups[g].Values[category], middle, thickness);
            }
        }

        rc.SetToolTip("");
    }

    private void Draw(IRenderContext rc, BarGroup group, double value, double middle, double thickness)
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
        const double distance = Gap;
        var (at, horizontal, vertical) = upright
            ? (new ScreenPoint(end.X, end.Y - away * distance), HorizontalAlignment.Center, value < 0 ? VerticalAlignment.Top : VerticalAlignment.Bottom)
            : (new ScreenPoint(end.X + away * distance, end.Y), value < 0 ? HorizontalAlignment.Right : HorizontalAlignment.Left, VerticalAlignment.Middle);
        rc.DrawText(at, PlotText.Number(value, decimals), Theme.Ink, null, Theme.LabelSize, PlotFont.Normal, 0, horizontal, vertical, null);
    }

    private ScreenPoint Place(double value, double along) =>
        Transform(upright ? new DataPoint(along, value) : new DataPoint(value, along));
}
