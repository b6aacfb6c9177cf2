using OxyPlot;

namespace RollRide.Plots;

/// <summary>Sets texts side by side above a plot area: moved apart where they would overlap, and broken into lines where they are too long for the row.</summary>
internal static class TopLabels
{
    private const double Distance = 8;
    private const int MostLines = 3;

    // Sizes of letters that are tried, against the usual one, where a word is wider than its share of the row.
    private static readonly double[] Letters = [1, 0.9, 0.8, 0.7];

    /// <summary>Height of the texts.</summary>
    /// <param name="area">The plot area.</param>
    /// <param name="texts">The texts.</param>
    public static double Height(OxyRect area, IReadOnlyList<string> texts)
    {
        var (set, size) = Set(area.Width, texts);
        return set.Max(lines => lines.Count) * PlotFont.LineHeight(size);
    }

    /// <summary>Draws the texts.</summary>
    /// <param name="rc">Where to draw.</param>
    /// <param name="area">The plot area.</param>
    /// <param name="offset">Distance of the texts from the plot area.</param>
    /// <param name="labels">The texts and where their middles would stand alone.</param>
    public static void Draw(IRenderContext rc, OxyRect area, double offset, IReadOnlyList<(string Text, double Middle)> labels)
    {
        if (labels.Count == 0)
            return;
        var (texts, size) = Set(area.Width, [.. labels.Select(label => label.Text)]);
        double[] widths = [.. texts.Select(lines => Width(lines, size))];
        var middles = LabelSpreader.Spread([.. labels.Select(label => label.Middle)], widths, area.Left - Distance / 2, area.Right + Distance / 2);
        for (var i = 0; i < texts.Length; i++)
        {
            rc.DrawText(new ScreenPoint(middles[i], area.Top - offset), string.Join('\n', texts[i]), Theme.SoftInk, null, size, PlotFont.Normal,
                0, HorizontalAlignment.Center, VerticalAlignment.Bottom, null);
        }
    }

    /// <summary>
    /// The lines of each text, and the size of their letters. Texts that are too long for the row side by side are broken to equal shares of it. Only one that is too
    /// long even with the smallest letters is shortened: a phase may have any name.
    /// </summary>
    private static (IReadOnlyList<string>[] Texts, double Size) Set(double width, IReadOnlyList<string> texts)
    {
        // Before the first drawing a panel has no width.
        if (width <= 0 || texts.Sum(text => Width([text], Theme.LabelSize)) <= width + Distance)
            return ([.. texts.Select(text => new[] { text })], Theme.LabelSize);
        var share = (width / texts.Count) - Distance;
        var letters = Letters.FirstOrDefault(size => texts.All(text => PlotFont.Fits(text, size * Theme.LabelSize, share, MostLines)), Letters[^1]);
        return ([.. texts.Select(text => PlotFont.Wrap(text, letters * Theme.LabelSize, share, MostLines))], letters * Theme.LabelSize);
    }

    private static double Width(IReadOnlyList<string> lines, double size) => lines.Max(line => PlotFont.Width(line, size)) + Distance;
}
