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

    /// <summary>Decimals of the labels on the lines.</summary>
    public int Decimals { get; init; } = 1;

    /// <summary>The values of the quantity for which the contour lines stand; if empty, round ones over its range.</summary>
    public IReadOnlyList<double> Levels { get; init; } = [];

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
        double[] defined = [.. Values.Cast<double>().Where(double.IsFinite)];
        if (defined.Length > 0)
        {
            var levels = Levels.Count > 0 ? Levels : RoundLevels(defined.Min(), defined.Max());
            AddLines(model, [.. levels.Where(level => level > defined.Min() && level < defined.Max() && Targets.All(target => target.Limit != level))], Theme.Ink, 1.1, LineStyle.Solid);
            AddLines(model, [.. Targets.Select(target => target.Limit).Where(limit => limit > defined.Min() && limit < defined.Max()).Distinct()], Theme.For(4).Color, 3.2, LineStyle.Dash);
        }

        AddDots(model);
        return model;
    }

    private void AddLines(PlotModel model, double[] levels, OxyColor color, double thickness, LineStyle style)
    {
        // OxyPlot takes no empty list of levels for none.
        if (levels.Length == 0)
            return;
        model.Series.Add(new ContourSeries
        {
            ColumnCoordinates = [.. X.Values],
            RowCoordinates = [.. Y.Values],
            Data = Values,
            ContourLevels = levels,
            ContourColors = [color],
            Color = color,
            StrokeThickness = thickness,
            LineStyle = style,
            FontSize = Theme.LabelSize,
            TextColor = color,
            LabelBackground = OxyColors.White,
            LabelStep = 1,
            LabelSpacing = 180,
            LabelFormatString = $"F{Math.Max(Decimals, levels.Length < 2 ? Decimals : PlotText.DecimalsFor(levels[1] - levels[0]))}",
        });
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
