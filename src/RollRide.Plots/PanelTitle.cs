using OxyPlot;

namespace RollRide.Plots;

/// <summary>The title of a panel, flush left with its plot area.</summary>
/// <param name="text">The title, one line; shortened where the panel is too narrow, unless it <see cref="RunsOn"/>.</param>
internal sealed class PanelTitle(string text) : MarginAnnotation
{
    private const double Gap = 5;

    // Sizes of letters that are tried, against the usual one, before a title is shortened.
    private static readonly double[] Letters = [1, 0.9, 0.8, 0.7];

    /// <summary>The title.</summary>
    public string Text => text;

    /// <summary>The titles of all panels of the figure, its own among them; set by the page.</summary>
    public string[] Peers { get; set; } = [text];

    /// <summary>Height of what stands between it and the plot area; set by the page.</summary>
    public double Offset { get; set; }

    /// <summary>Whether it goes on above the panels to the right, which have no title: it is that of the row, and the page draws it.</summary>
    public bool RunsOn { get; init; }

    /// <inheritdoc/>
    public override OxyThickness Room => new(0, Offset + Gap + PlotFont.LineHeight(Theme.PanelTitleSize), 0, 0);

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
        bool Fits(string title, double letters) => RunsOn || PlotFont.Width(title, letters * Theme.PanelTitleSize, PlotFont.Bold) <= area.Width;
        var letters = Letters.First(size => Fits(text, size) || size == Letters[^1]);
        var titles = DistinctNames.Shorten(Peers, shortened => Fits(shortened, letters));
        var title = titles[Array.IndexOf(Peers, text)];
        rc.DrawText(new ScreenPoint(area.Left, area.Top - Offset - Gap), title, Theme.Ink, null, letters * Theme.PanelTitleSize, PlotFont.Bold,
            0, HorizontalAlignment.Left, VerticalAlignment.Bottom, null);
    }
}
