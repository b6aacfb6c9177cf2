using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace RollRide.Plots;

/// <summary>
/// A map of one quantity over two others: labelled contour lines, a broad line where the quantity is at a target, and a dot at each
/// point that was computed: full where the target is reached, hollow where it is missed, a cross where there is no value.
/// </summary>
public sealed record ContourPanel
{
    private const int MostLines = 9;
    private const double DotSize = 2.6;

    // Each cell between computed points is divided into so many each way: lines then follow the bilinear surface through the points,
    // and are long enough in points for OxyPlot to label them.
    private const int Divisions = 8;

    /// <summary>Makes a panel.</summary>
    /// <param name="title">Its title, or null.</param>
    /// <param name="x">Axis of the columns: what it shows, its unit, its values ascending, at least two.</param>
    /// <param name="y">Axis of the rows: what it shows, its unit, its values ascending, at least two.</param>
    /// <param name="values">The quantity by column and row; NaN where there is none.</param>
    /// <exception cref="ArgumentException">The counts do not match.</exception>
    public ContourPanel(string? title, ContourAxis x, ContourAxis y, double[,] values)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        ArgumentNullException.ThrowIfNull(values);
        if (x.Values.Count < 2 || y.Values.Count < 2 || values.GetLength(0) != x.Values.Count || values.GetLength(1) != y.Values.Count)
            throw new ArgumentException("A map needs at least two columns and rows, and a value for each of their crossings.", nameof(values));
        (Title, X, Y, Values) = (title, x, y, values);
    }

    /// <summary>Its title, or null.</summary>
    public string? Title { get; }

    /// <summary>Axis of the columns.</summary>
    public ContourAxis X { get; }

    /// <summary>Axis of the rows.</summary>
    public ContourAxis Y { get; }

    /// <summary>The quantity by column and row.</summary>
    public double[,] Values { get; }

    /// <summary>The targets: their limits, and whether the quantity should not be above them.</summary>
    public IReadOnlyList<(double Limit, bool IsUpper)> Targets { get; init; } = [];

    /// <summary>Round values over a range, at most nine.</summary>
    /// <param name="low">Least value.</param>
    /// <param name="high">Greatest value.</param>
    public static IReadOnlyList<double> RoundLevels(double low, double high)
    {
        if (!(high > low))
            return [];
        var rough = (high - low) / MostLines;
        var power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        var step = power * new[] { 1, 2, 2.5, 5, 10 }.First(factor => factor * power >= rough);
        var first = Math.Ceiling(low / step);
        return [.. Enumerable.Range(0, (int)(Math.Floor(high / step) - first) + 1).Select(i => (first + i) * step)];
    }

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel(Title);
        model.Axes.Add(X.Build(AxisPosition.Bottom));
        model.Axes.Add(Y.Build(AxisPosition.Left));
        AddDots(model); // below the labels
        double[] defined = [.. Values.Cast<double>().Where(double.IsFinite)];
        if (defined.Length > 0)
        {
            AddLines(model, [.. RoundLevels(defined.Min(), defined.Max()).Where(level => level > defined.Min() && level < defined.Max() && Targets.All(target => target.Limit != level))], Theme.Ink, 1.1, LineStyle.Solid);
            AddLines(model, [.. Targets.Select(target => target.Limit).Where(limit => limit > defined.Min() && limit < defined.Max()).Distinct()], Theme.Ink, 3.2, LineStyle.Dash);
        }

        return model;
    }

    private void AddLines(PlotModel model, double[] levels, OxyColor color, double thickness, LineStyle style)
    {
        // OxyPlot takes no empty list of levels for none.
        if (levels.Length == 0)
            return;
        model.Series.Add(new ContourSeries
        {
            ColumnCoordinates = Fine(X),
            RowCoordinates = Fine(Y),
            Data = FineValues(),
            ContourLevels = levels,
            ContourColors = [color],
            Color = color,
            StrokeThickness = thickness,
            LineStyle = style,
        });
        for (var i = 0; i < levels.Length; i++)
            AddLabel(model, levels[i], i, color);
    }

    /// <summary>Writes a level on its line, where the line crosses a column; neighbouring levels on different columns.</summary>
    private void AddLabel(PlotModel model, double level, int place, OxyColor color)
    {
        var (x, y, values) = (Fine(X), Fine(Y), FineValues());
        // From a different column for each of three neighbours, to the right and around until one crosses the line.
        for (var n = 0; n < x.Length - 2; n++)
        {
            var i = 1 + (((place % 3 * x.Length / 3) + (x.Length / 6) + n) % (x.Length - 2));
            for (var j = 2; j < y.Length - 1; j++)
            {
                var (below, above) = (values[i, j - 1] - level, values[i, j] - level);
                if (!(below * above <= 0 && below != above))
                    continue;
                model.Annotations.Add(new TextAnnotation
                {
                    Text = PlotText.Number(level, PlotText.DecimalsFor(Math.Abs(level))),
                    TextPosition = new DataPoint(x[i], y[j - 1] + ((y[j] - y[j - 1]) * below / (below - above))),
                    TextHorizontalAlignment = HorizontalAlignment.Center,
                    TextVerticalAlignment = VerticalAlignment.Middle,
                    Background = OxyColors.White,
                    Padding = new OxyThickness(2, 0, 2, 0),
                    StrokeThickness = 0,
                    FontSize = Theme.LabelSize,
                    TextColor = color,
                    Layer = AnnotationLayer.AboveSeries,
                });
                return;
            }
        }
    }

    private static double[] Fine(ContourAxis axis) =>
        [.. Enumerable.Range(0, ((axis.Values.Count - 1) * Divisions) + 1).Select(i => axis.Between(i / Divisions, (double)(i % Divisions) / Divisions))];

    private double[,] FineValues()
    {
        var fine = new double[((X.Values.Count - 1) * Divisions) + 1, ((Y.Values.Count - 1) * Divisions) + 1];
        for (var i = 0; i < fine.GetLength(0); i++)
        {
            for (var j = 0; j < fine.GetLength(1); j++)
            {
                var (column, row) = (Math.Min(i / Divisions, X.Values.Count - 2), Math.Min(j / Divisions, Y.Values.Count - 2));
                var (u, v) = (((double)i / Divisions) - column, ((double)j / Divisions) - row);
                fine[i, j] = ((1 - u) * (((1 - v) * Values[column, row]) + (v * Values[column, row + 1])))
                    + (u * (((1 - v) * Values[column + 1, row]) + (v * Values[column + 1, row + 1])));
            }
        }

        return fine;
    }

    private void AddDots(PlotModel model)
    {
        for (var i = 0; i < X.Values.Count; i++)
        {
            for (var j = 0; j < Y.Values.Count; j++)
            {
                var value = Values[i, j];
                var reached = double.IsFinite(value) && Targets.All(target => target.IsUpper ? value <= target.Limit : value >= target.Limit);
                model.Annotations.Add(new PointAnnotation
                {
                    X = X.Values[i],
                    Y = Y.Values[j],
                    Shape = double.IsFinite(value) ? MarkerType.Circle : MarkerType.Cross,
                    Size = DotSize,
                    Fill = reached ? Theme.SoftInk : OxyColors.White,
                    Stroke = Theme.SoftInk,
                    StrokeThickness = 1,
                });
            }
        }
    }
}
