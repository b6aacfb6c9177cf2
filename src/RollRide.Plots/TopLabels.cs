using OxyPlot;

namespace RollRide.Plots;

/// <summary>Draws a row of texts above a plot area, moved apart where they would overlap.</summary>
internal static class TopLabels
{
    private const double Distance = 8;

    /// <summary>Draws the row.</summary>
    /// <param name="rc">Where to draw.</param>
    /// <param name="area">The plot area.</param>
    /// <param name="offset">Distance of the row from the plot area.</param>
    /// <param name="labels">The texts and where their middles would stand alone.</param>
    public static void Draw(IRenderContext rc, OxyRect area, double offset, IReadOnlyList<(string Text, double Middle)> labels)
    {
        if (labels.Count == 0)
            return;
        // Texts too long for the row are shortened to equal shares of it.
        var share = area.Width / labels.Count - Distance;
        var tooLong = labels.Sum(label => PlotFont.Width(label.Text, Theme.LabelSize) + Distance) > area.Width + Distance;
        var texts = labels.Select(label => tooLong ? PlotFont.Ellipsize(label.Text, Theme.LabelSize, share) : label.Text).ToArray();
        double[] widths = [.. texts.Select(text => PlotFont.Width(text, Theme.LabelSize) + Distance)];
        var middles = LabelSpreader.Spread([.. labels.Select(label => label.Middle)], widths, area.Left - Distance / 2, area.Right + Distance / 2);
        for (var i = 0; i < texts.Length; i++)
        {
            rc.DrawText(new ScreenPoint(middles[i], area.Top - offset), texts[i], Theme.SoftInk, null, Theme.LabelSize, PlotFont.Normal,
                0, HorizontalAlignment.Center, VerticalAlignment.Bottom, null);
        }
    }
}
