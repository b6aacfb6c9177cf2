using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace RollRide.Plots;

/// <summary>One cell of a scatter matrix: one point per variant, in the style of its layout.</summary>
/// <param name="X">Horizontal axis: what it shows and its limits.</param>
/// <param name="Y">Vertical axis: what it shows and its limits.</param>
/// <param name="Layouts">The layouts' names, styles and points.</param>
/// <param name="NamesX">Whether the horizontal axis is named here; only the lowest row does.</param>
/// <param name="NamesY">Whether the vertical axis is named here, above the row, which is too low for long names beside it; only the first column does.</param>
/// <param name="NamesLayouts">Whether this cell names the layouts above the figure.</param>
internal sealed record ScatterPanel(
    (string Quantity, string Unit, PlotRange Range) X, (string Quantity, string Unit, PlotRange Range) Y,
    IReadOnlyList<(string Name, SeriesStyle Style, IReadOnlyList<DataPoint> Points)> Layouts, bool NamesX, bool NamesY, bool NamesLayouts)
{
    private const double Size = 1.7;
    private const double WidestTitle = 112;
    private const int MostTitleLines = 3;

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel();
        model.Axes.Add(AxisOf(AxisPosition.Bottom, X.Range, NamesX, NamesX ? Wrapped(NameOf(X)) : ""));
        model.Axes.Add(AxisOf(AxisPosition.Left, Y.Range, NamesY, ""));
        if (NamesY)
            model.Annotations.Add(new PanelTitle(NameOf(Y)) { RunsOn = true });
        foreach (var (_, style, points) in Layouts)
        {
            var series = new ScatterSeries
            {
                MarkerType = style.Marker,
                MarkerSize = Size,
                MarkerFill = style.MarkerFill,
                MarkerStroke = style.Color,
                MarkerStrokeThickness = style.MarkerStroke / 2,
            };
            series.Points.AddRange(points.Select(point => new ScatterPoint(point.X, point.Y)));
            model.Series.Add(series);
        }

        if (NamesLayouts)
            model.Annotations.Add(new DirectLabels([.. Layouts.Select(layout => new CurveEnd(layout.Name, layout.Style, 0, 0))], LabelPlacement.AbovePanels, []));
        return model;
    }

    private static string NameOf((string Quantity, string Unit, PlotRange Range) axis) =>
        axis.Unit.Length == 0 ? axis.Quantity : $"{axis.Quantity} [{axis.Unit}]";

    private static string Wrapped(string name)
    {
        // A path that is too long for its column is broken behind its dots; it has no spaces.
        var breakable = PlotFont.Fits(name, Theme.AxisTitleSize, WidestTitle, MostTitleLines) ? name : name.Replace(".", ".\n", StringComparison.Ordinal);
        return string.Join('\n', PlotFont.Wrap(breakable, Theme.AxisTitleSize, WidestTitle, MostTitleLines));
    }

    private static LinearAxis AxisOf(AxisPosition position, PlotRange range, bool labelled, string title)
    {
        var result = PlotAxis.Linear(position, title, "", range);
        if (!labelled)
            result.LabelFormatter = _ => "";
        return result;
    }
}
