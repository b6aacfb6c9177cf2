using OxyPlot;
using OxyPlot.Series;

namespace RollRide.Plots;

/// <summary>One layout's curve.</summary>
public sealed record PlotSeries
{
    private const int MarksOnCurve = 6;

    /// <summary>Makes a curve.</summary>
    /// <param name="name">Name of the layout.</param>
    /// <param name="styleIndex">Its style, see <see cref="Theme.For"/>.</param>
    /// <param name="x">Horizontal values; at least two, finite.</param>
    /// <param name="y">Vertical values; as many, finite. Both are kept, not copied.</param>
    /// <exception cref="ArgumentException">A value breaks these limits.</exception>
    public PlotSeries(string name, int styleIndex, IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        CheckPoints(x, y);
        if (x.Count < 2)
            throw new ArgumentException($"The curve '{name}' must have at least two points, not {x.Count}.", nameof(x));
        Style = Theme.For(styleIndex);
        (Name, StyleIndex, X, Y) = (name, styleIndex, x, y);
    }

    /// <summary>Name of the layout.</summary>
    public string Name { get; }

    /// <summary>Its style, see <see cref="Theme.For"/>.</summary>
    public int StyleIndex { get; }

    /// <summary>Horizontal values.</summary>
    public IReadOnlyList<double> X { get; }

    /// <summary>Vertical values.</summary>
    public IReadOnlyList<double> Y { get; }

    /// <summary>Where its markers stand, such as the points it was measured at; null for a few across the axis, which only tell it from others.</summary>
    public IReadOnlyList<(double X, double Y)>? Marks { get; init; }

    /// <summary>Whether every point is drawn, also one a pixel beside the one before: the corners of an outline.</summary>
    internal bool HasCorners { get; init; }

    /// <summary>How it is drawn.</summary>
    internal LayoutStyle Style { get; }

    /// <summary>Where the curve ends on the right.</summary>
    internal CurveEnd End
    {
        get
        {
            var right = 0;
            for (var i = 1; i < X.Count; i++)
                right = X[i] >= X[right] ? i : right;
            return new CurveEnd(Name, Style, X[right], Y[right]);
        }
    }

    /// <summary>Throws unless two lists are equally long and finite.</summary>
    internal static void CheckPoints(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        if (x.Count != y.Count)
            throw new ArgumentException($"There are {x.Count} horizontal but {y.Count} vertical values.", nameof(y));
        for (var i = 0; i < x.Count; i++)
        {
            if (!double.IsFinite(x[i]) || !double.IsFinite(y[i]))
                throw new ArgumentException(FormattableString.Invariant($"Point {i} is ({x[i]}, {y[i]}): all values to plot must be finite."), nameof(x));
        }
    }

    /// <summary>Adds the curve, drawn through given points of it, with a few markers.</summary>
    /// <param name="model">The panel.</param>
    /// <param name="points">The points to draw.</param>
    /// <param name="range">Limits of the horizontal axis, across which the markers are set.</param>
    /// <param name="logarithmic">Whether that axis is logarithmic.</param>
    internal void AddTo(PlotModel model, IEnumerable<DataPoint> points, PlotRange range, bool logarithmic = false)
    {
        var line = new LineSeries { Color = Style.Color, StrokeThickness = Style.Thickness, Dashes = Style.DashArray, LineJoin = LineJoin.Round, ToolTip = Name, Tag = StyleIndex };
        if (HasCorners)
            line.MinimumSegmentLength = 0;
        line.Points.AddRange(points);
        var marks = new LineSeries
        {
            LineStyle = LineStyle.None,
            MarkerType = Style.Marker,
            MarkerSize = Theme.MarkerSize,
            MarkerFill = Style.MarkerFill,
            MarkerStroke = Style.Color,
            MarkerStrokeThickness = Style.MarkerStroke,
            ToolTip = Name,
        };
        // Each style has its own places, so that markers of curves that run together do not hide each other.
        var shift = (StyleIndex + 0.5) / Theme.LayoutCount;
        if (Marks is not null)
            marks.Points.AddRange(Marks.Select(mark => new DataPoint(mark.X, mark.Y)));
        for (var mark = 0; Marks is null && mark < MarksOnCurve; mark++)
        {
            var share = (mark + shift) / MarksOnCurve;
            var place = logarithmic
                ? range.Minimum * Math.Pow(range.Maximum / range.Minimum, share)
                : range.Minimum + (range.Maximum - range.Minimum) * share;
            if (PointAt(line.Points, place) is { } point)
                marks.Points.Add(point);
        }
        model.Series.Add(line);
        model.Series.Add(marks);
    }

    /// <summary>The point of the drawn line at a horizontal place, on the first piece that passes it; null beside the line.</summary>
    private static DataPoint? PointAt(List<DataPoint> points, double x)
    {
        for (var i = 1; i < points.Count; i++)
        {
            var (a, b) = (points[i - 1], points[i]);
            if (a.X != b.X && (x - a.X) * (x - b.X) <= 0)
                return new DataPoint(x, a.Y + (b.Y - a.Y) * (x - a.X) / (b.X - a.X));
        }
        return null;
    }
}
