using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace RollRide.Plots;

/// <summary>One cell of a scatter matrix: a point a variant, in the style of its layout.</summary>
/// <param name="X">Horizontal axis: what it shows and its limits.</param>
/// <param name="Y">Vertical axis: what it shows and its limits.</param>
/// <param name="Layouts">The layouts' names and points, in the order of their styles.</param>
/// <param name="NamesX">Whether the horizontal axis is named here; only the lowest row does.</param>
/// <param name="NamesY">Whether the vertical axis is named here; only the first column does.</param>
/// <param name="NamesLayouts">Whether this cell names the layouts above the figure.</param>
internal sealed record ScatterPanel(
    (string Quantity, string Unit, PlotRange Range) X, (string Quantity, string Unit, PlotRange Range) Y,
    IReadOnlyList<(string Name, IReadOnlyList<DataPoint> Points)> Layouts, bool NamesX, bool NamesY, bool NamesLayouts)
{
    private const double Size = 1.7;
    private const double WidestTitle = 112;

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel();
        model.Axes.Add(AxisOf(AxisPosition.Bottom, X, NamesX));
        model.Axes.Add(AxisOf(AxisPosition.Left, Y, NamesY));
        for (var i = 0; i < Layouts.Count; i++)
        {
            var style = Theme.For(i);
            var series = new ScatterSeries
            {
                MarkerType = style.Marker,
                MarkerSize = Size,
                MarkerFill = style.MarkerFill,
                MarkerStroke = style.Color,
                MarkerStrokeThickness = style.MarkerStroke / 2,
            };
            series.Points.AddRange(Layouts[i].Points.Select(point => new ScatterPoint(point.X, point.Y)));
            model.Series.Add(series);
        }

        if (NamesLayouts)
            model.Annotations.Add(new DirectLabels([.. Layouts.Select((layout, i) => new CurveEnd(layout.Name, Theme.For(i), 0, 0))], LabelPlacement.AbovePanels, []));
        return model;
    }

    private static string TitleOf(string quantity, string unit) => string.Join(
        '\n', PlotFont.Wrap(unit.Length == 0 ? quantity : $"{quantity} [{unit}]", Theme.AxisTitleSize, WidestTitle, maxLines: 2));

    private static LinearAxis AxisOf(AxisPosition position, (string Quantity, string Unit, PlotRange Range) axis, bool named)
    {
        var result = PlotAxis.Linear(position, named ? TitleOf(axis.Quantity, axis.Unit) : "", "", axis.Range);
        if (!named)
            result.LabelFormatter = _ => "";
        return result;
    }
}
