using OxyPlot;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>Sets the titles of panels and axes where the page has room for them.</summary>
internal static class PageTitles
{
    private const int MostAxisTitleLines = 2;

    // Sizes of letters that are tried, against the usual one, before a title is cut.
    private static readonly double[] Letters = [1, 0.9, 0.8, 0.7, 0.6];

    /// <summary>
    /// Sets the titles of the panels in a row at the same height, above whatever any of them has between title and plot, and tells each
    /// of the others, from which it must differ.
    /// </summary>
    public static void Align(Figure figure)
    {
        var titles = figure.Panels.SelectMany(panel => panel.Model.Annotations.OfType<PanelTitle>()).ToArray();
        foreach (var title in titles)
            title.Peers = [.. titles.Select(peer => peer.Text)];
        foreach (var row in figure.Panels.GroupBy(panel => panel.Row))
        {
            var annotations = row.SelectMany(panel => panel.Model.Annotations).ToArray();
            MarginAnnotation[] between = [.. annotations.OfType<MarginAnnotation>().Where(annotation => annotation is not PanelTitle)];
            foreach (var title in annotations.OfType<PanelTitle>())
                title.Between = between;
        }
    }

    /// <summary>
    /// Breaks the title of an axis into lines where it is too long for one along the axis; beside the plot its unit has a line of its own. Where its words are
    /// too long even so, it is set smaller.
    /// </summary>
    public static void FitAxes(PlotModel model, OxyRect area)
    {
        foreach (var axis in model.Axes.Where(axis => axis.Title is not null))
        {
            var text = "";
            foreach (var letters in Letters)
            {
                axis.TitleFontSize = letters * Theme.AxisTitleSize;
                text = Broken(axis, area);
                if (!text.Contains('…', StringComparison.Ordinal))
                    break;
            }

            axis.TitleFormatString = text.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal);
        }
    }

    private static string Broken(Axis axis, OxyRect area)
    {
        var isUpright = axis.Position is AxisPosition.Left or AxisPosition.Right;
        var length = isUpright ? area.Height : area.Width;
        var unit = axis.Unit.Length == 0 ? "" : $"[{axis.Unit}]";
        var text = $"{axis.Title} {unit}".TrimEnd();
        return PlotFont.Width(text, axis.TitleFontSize) <= length ? text
            : isUpright ? $"{string.Join('\n', PlotFont.Wrap(axis.Title, axis.TitleFontSize, length, MostAxisTitleLines))}\n{unit}".TrimEnd()
            : string.Join('\n', PlotFont.Wrap($"{axis.Title} {unit.Replace(' ', '\u00a0')}".TrimEnd(), axis.TitleFontSize, length, MostAxisTitleLines + 1));
    }
}
