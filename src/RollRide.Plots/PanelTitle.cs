using OxyPlot;

namespace RollRide.Plots;

/// <summary>The title of a panel, flush left with its plot area, in as many lines as it takes.</summary>
/// <param name="text">The title.</param>
internal sealed class PanelTitle(string text) : MarginAnnotation
{
    private const double Gap = 5;
    private const int MostLines = 3;

    // Sizes of letters that are tried, against the usual one, where the lines are too many or a word is wider than the panel.
    private static readonly double[] Letters = [1, 0.9, 0.8, 0.7];

    /// <summary>The title.</summary>
    public string Text => text;

    /// <summary>The titles of all panels of the figure, its own among them; set by the page.</summary>
    public string[] Peers { get; set; } = [text];

    /// <summary>What the panels of its row have between title and plot area; set by the page.</summary>
    public IReadOnlyList<MarginAnnotation> Between { get; set; } = [];

    /// <summary>Whether it goes on above the panels to the right, which have no title: it is that of the row, and the page draws it.</summary>
    public bool RunsOn { get; init; }

    /// <inheritdoc/>
    public override OxyThickness Room
    {
        get
        {
            var (lines, size) = Set(PlotModel.PlotArea.Width);
            return new OxyThickness(0, Offset + Gap + (lines.Count * PlotFont.LineHeight(size)), 0, 0);
        }
    }

    private double Offset => Between.Select(annotation => annotation.Room.Top).DefaultIfEmpty().Max();

    /// <inheritdoc/>
    public override void Render(IRenderContext rc)
    {
        // A panel is clipped to its place.
        if (!RunsOn)
            Draw(rc, PlotModel.PlotArea);
    }

    /// <summary>Draws it above a plot area.</summary>
    public void Draw(IRenderContext rc, OxyRect area)
    {
        var (lines, size) = Set(area.Width);
        rc.DrawText(new ScreenPoint(area.Left, area.Top - Offset - Gap), string.Join('\n', lines), Theme.Ink, null, size, PlotFont.Bold,
            0, HorizontalAlignment.Left, VerticalAlignment.Bottom, null);
    }

    /// <summary>
    /// Its lines, and the size of their letters. Only a title that is too long even with the smallest, or one with a longer word, is shortened: a layout may have any name.
    /// </summary>
    private (IReadOnlyList<string> Lines, double Size) Set(double width)
    {
        // Before the first drawing a panel has no width.
        if (RunsOn || width <= 0)
            return ([text], Theme.PanelTitleSize);
        bool Fits(string title, double letters) => PlotFont.Fits(title, letters * Theme.PanelTitleSize, width, MostLines, PlotFont.Bold);
        var letters = Letters.FirstOrDefault(size => Fits(text, size), Letters[^1]);
        var title = DistinctNames.Shorten(Peers, shortened => Fits(shortened, letters))[Array.IndexOf(Peers, text)];
        return (PlotFont.Wrap(title, letters * Theme.PanelTitleSize, width, MostLines, PlotFont.Bold), letters * Theme.PanelTitleSize);
    }
}
