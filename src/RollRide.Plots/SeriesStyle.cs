using OxyPlot;

namespace RollRide.Plots;

/// <summary>How a series is drawn: a layout by its <see cref="LayoutStyles"/>, anything else by one of <see cref="OtherStyles"/>.</summary>
/// <param name="Color">Colour of its line, marker and bar.</param>
/// <param name="Dashes">Lengths of dashes and gaps in multiples of the thickness; empty for a solid line.</param>
/// <param name="Marker">The shape of its marker, which stands at points given or computed.</param>
/// <param name="Filled">Whether the marker is filled, or hollow.</param>
/// <param name="Thickness">Thickness of its line, plot units.</param>
public sealed record SeriesStyle(OxyColor Color, IReadOnlyList<double> Dashes, MarkerType Marker, bool Filled, double Thickness)
{
    private const double HollowStroke = 1.5;

    /// <summary>The dashes as OxyPlot takes them: null for a solid line.</summary>
    internal double[]? DashArray => Dashes.Count == 0 ? null : [.. Dashes];

    /// <summary>Fill of the marker.</summary>
    internal OxyColor MarkerFill => Filled ? Color : OxyColors.White;

    /// <summary>Thickness of the marker's outline, which has the colour of the line.</summary>
    internal double MarkerStroke => Filled ? 0 : HollowStroke;

    /// <summary>Draws the marker.</summary>
    internal void DrawMarker(IRenderContext rc, ScreenPoint at) =>
        rc.DrawMarker(at, Marker, null, Theme.MarkerSize, MarkerFill, Color, MarkerStroke, EdgeRenderingMode.PreferGeometricAccuracy);

    /// <summary>Draws the marker in white, on a ground of the line's colour.</summary>
    internal void DrawMarkerOnColor(IRenderContext rc, ScreenPoint at) =>
        rc.DrawMarker(at, Marker, null, Theme.MarkerSize, Filled ? OxyColors.White : Color, OxyColors.White, MarkerStroke, EdgeRenderingMode.PreferGeometricAccuracy);

    /// <summary>Draws a straight piece of the line with the marker at its middle: the key of the series.</summary>
    internal void DrawKey(IRenderContext rc, ScreenPoint from, double length)
    {
        rc.DrawLine([from, new ScreenPoint(from.X + length, from.Y)], Color, Thickness,
            EdgeRenderingMode.PreferGeometricAccuracy, DashArray, LineJoin.Miter);
        DrawMarker(rc, new ScreenPoint(from.X + length / 2, from.Y));
    }
}
