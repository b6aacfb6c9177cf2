using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>
/// Lying bars about a common line, the longest on top: how far each input moves a quantity. The end that belongs to the input's lowest
/// level is open, that of its highest filled.
/// </summary>
public sealed record TornadoPanel
{
    private const double HalfHeight = 0.3;
    private const double Room = 0.36;

    /// <summary>Makes a panel.</summary>
    /// <param name="title">Its title, or null.</param>
    /// <param name="quantity">What the bars show.</param>
    /// <param name="unit">Its unit; "" for none.</param>
    /// <param name="centre">Where the bars start.</param>
    /// <param name="bars">The bars, at least one, all finite.</param>
    public TornadoPanel(string? title, string quantity, string unit, double centre, IReadOnlyList<TornadoBar> bars)
    {
        if (bars.Count == 0)
            throw new ArgumentException("A tornado chart must have at least one bar.", nameof(bars));
        if (!double.IsFinite(centre) || bars.Any(bar => !double.IsFinite(bar.Low) || !double.IsFinite(bar.High)))
            throw new ArgumentException("All bars must be finite.", nameof(bars));
        (Title, Quantity, Unit, Centre, Bars) = (title, quantity, unit, centre, bars);
    }

    /// <summary>Its title, or null.</summary>
    public string? Title { get; }

    /// <summary>What the bars show.</summary>
    public string Quantity { get; }

    /// <summary>Its unit.</summary>
    public string Unit { get; }

    /// <summary>Where the bars start.</summary>
    public double Centre { get; }

    /// <summary>The bars.</summary>
    public IReadOnlyList<TornadoBar> Bars { get; }

    /// <summary>Decimals of the values written at the bars.</summary>
    public int Decimals { get; init; } = 1;

    /// <summary>Whether names stand at the axis; panels to the right leave them out.</summary>
    public bool WithNames { get; init; } = true;

    /// <summary>Limits of the axis, common to several panels; if null, from the bars.</summary>
    public PlotRange? Range { get; init; }

    /// <summary>The limits that some bars need, with room for their values.</summary>
    /// <param name="values">The ends of the bars and their starts.</param>
    public static PlotRange RangeOf(IEnumerable<double> values) => PlotRange.Of(values, Room);

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel(Title);
        model.Axes.Add(PlotAxis.Names(AxisPosition.Left, [.. Bars.Select(bar => WithNames ? bar.Name : "")]));
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Bottom, Quantity, Unit, Range ?? RangeOf([Centre, .. Bars.SelectMany(bar => new[] { bar.Low, bar.High })])));
        for (var i = 0; i < Bars.Count; i++)
        {
            // Where both ends lie on one side, the shorter bar stands in front of the longer one.
            (double End, OxyColor Fill)[] drawn = [(Bars[i].Low, OxyColors.White), (Bars[i].High, Theme.SoftInk)];
            foreach (var (end, fill) in drawn.OrderByDescending(bar => Math.Abs(bar.End - Centre)))
                AddBar(model, i, end, fill);
            AddValues(model, i);
        }

        model.Annotations.Add(new LineAnnotation { Type = LineAnnotationType.Vertical, X = Centre, Color = Theme.Ink, LineStyle = LineStyle.Solid, StrokeThickness = 1.4 });
        return model;
    }

    private void AddBar(PlotModel model, int row, double end, OxyColor fill)
    {
        if (end != Centre)
        {
            model.Annotations.Add(new RectangleAnnotation
            {
                MinimumX = Math.Min(Centre, end),
                MaximumX = Math.Max(Centre, end),
                MinimumY = row - HalfHeight,
                MaximumY = row + HalfHeight,
                Fill = fill,
                Stroke = Theme.SoftInk,
                StrokeThickness = 1,
            });
        }
    }

    private void AddValues(PlotModel model, int row)
    {
        var (left, right) = (Math.Min(Bars[row].Low, Bars[row].High), Math.Max(Bars[row].Low, Bars[row].High));
        string Text(double value) => PlotText.Number(value, Decimals);
        if (right < Centre)
            AddValue(model, row, left, Text(left) == Text(right) ? Text(left) : $"{Text(left)}, {Text(right)}", HorizontalAlignment.Right);
        else if (left > Centre)
            AddValue(model, row, right, Text(left) == Text(right) ? Text(left) : $"{Text(left)}, {Text(right)}", HorizontalAlignment.Left);
        else
        {
            if (left < Centre)
                AddValue(model, row, left, Text(left), HorizontalAlignment.Right);
            if (right > Centre || left == Centre)
                AddValue(model, row, right, Text(right), HorizontalAlignment.Left);
        }
    }

    private static void AddValue(PlotModel model, int row, double value, string text, HorizontalAlignment side) => model.Annotations.Add(new TextAnnotation
    {
        Text = text,
        TextPosition = new DataPoint(value, row),
        TextHorizontalAlignment = side,
        TextVerticalAlignment = VerticalAlignment.Middle,
        Offset = new ScreenVector(side == HorizontalAlignment.Left ? 4 : -4, 0),
        StrokeThickness = 0,
        FontSize = Theme.LabelSize,
        TextColor = Theme.Ink,
    });
}

/// <summary>One bar of a tornado chart.</summary>
/// <param name="Name">The input.</param>
/// <param name="Low">The quantity at the input's lowest level.</param>
/// <param name="High">The quantity at the input's highest level.</param>
public sealed record TornadoBar(string Name, double Low, double High);
