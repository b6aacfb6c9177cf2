using OxyPlot;
using OxyPlot.Series;

namespace RollRide.Plots;

/// <summary>One curve: a layout's, or one of something else.</summary>
public sealed record PlotSeries
{
    /// <summary>Makes a curve.</summary>
    /// <param name="name">Name of the layout, or of what else it shows.</param>
    /// <param name="style">How it is drawn: <see cref="LayoutStyles"/> has the layout's, <see cref="OtherStyles"/> those of all else.</param>
    /// <param name="x">Horizontal values; at least two, finite.</param>
    /// <param name="y">Vertical values; as many, finite. Both are kept, not copied.</param>
    /// <exception cref="ArgumentException">A value breaks these limits.</exception>
    public PlotSeries(string name, SeriesStyle style, IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        CheckPoints(x, y);
        if (x.Count < 2)
            throw new ArgumentException($"The curve “{name}” must have at least two points, not {x.Count}.", nameof(x));
        (Name, Style, X, Y) = (name, style, x, y);
    }

    /// <summary>Name of the layout, or of what else it shows.</summary>
    public string Name { get; }

    /// <summary>How it is drawn.</summary>
    public SeriesStyle Style { get; }

    /// <summary>Horizontal values.</summary>
    public IReadOnlyList<double> X { get; }

    /// <summary>Vertical values.</summary>
    public IReadOnlyList<double> Y { get; }

    /// <summary>Where its markers stand: points that were given or computed one by one. None on a curve of many.</summary>
    public IReadOnlyList<(double X, double Y)> Marks { get; init; } = [];

    /// <summary>Whether every point is drawn, also one a pixel beside the one before: the corners of an outline.</summary>
    internal bool HasCorners { get; init; }

    /// <summary>The same curve with a marker at each of its points.</summary>
    internal PlotSeries Marked => this with { Marks = [.. X.Zip(Y)] };

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

    /// <summary>Adds the curve, drawn through given points of it, and its markers.</summary>
    /// <param name="model">The panel.</param>
    /// <param name="points">The points to draw.</param>
    internal void AddTo(PlotModel model, IEnumerable<DataPoint> points)
    {
        var line = new LineSeries { Color = Style.Color, StrokeThickness = Style.Thickness, Dashes = Style.DashArray, LineJoin = LineJoin.Round, ToolTip = Name, Tag = Style };
        if (HasCorners)
            line.MinimumSegmentLength = 0;
        line.Points.AddRange(points);
        model.Series.Add(line);
        if (Marks.Count == 0)
            return;
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
        marks.Points.AddRange(Marks.Select(mark => new DataPoint(mark.X, mark.Y)));
        model.Series.Add(marks);
    }
}
