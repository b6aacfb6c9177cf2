using RollRide.Plots;

namespace RollRide.Report;

/// <summary>Where a figure stands on the page, and so how large it is drawn. Letters are the same size everywhere: those of labels 7 points on A4 in landscape.</summary>
/// <param name="Name">Its class in report.css, which gives it its width.</param>
/// <param name="WidthPx">Width at which it is drawn, px.</param>
/// <param name="HeightPx">Height at which it is drawn, px.</param>
internal sealed record FigurePlace(string Name, int WidthPx, int HeightPx)
{
    private const double Scale = 2;
    private const int Height = 560;

    // Of a figure that needs height, beside another and alone: lower, dimensions and names would lie on each other.
    private const int Higher = 800, HigherAlone = 680;

    // Heights that are tried where a figure has no room for its text.
    private static readonly double[] Heights = [1, 1.25, 1.5, 2];

    /// <summary>One of two beside each other.</summary>
    public static FigurePlace Half { get; } = new("half", 1212, Height);

    /// <summary>The only one of its row.</summary>
    public static FigurePlace Alone { get; } = new("alone", 1636, Height);

    /// <summary>As wide as the page.</summary>
    public static FigurePlace Whole { get; } = new("whole", 2444, Height);

    /// <summary>Places figures in rows, in their order: two beside each other where they are of one height, and alone where one is left over.</summary>
    /// <param name="figures">The figures of a chapter.</param>
    public static IEnumerable<(Figure Figure, FigurePlace Place)> Of(IReadOnlyList<Figure> figures)
    {
        for (var i = 0; i < figures.Count; i++)
        {
            var figure = figures[i];
            if (figure.NeedsWidth)
            {
                yield return (figure, Whole.For(figure));
            }
            else if (i + 1 < figures.Count && !figures[i + 1].NeedsWidth && figures[i + 1].NeedsHeight == figure.NeedsHeight)
            {
                yield return (figure, Half.For(figure));
                yield return (figures[++i], Half.For(figure));
            }
            else
            {
                yield return (figure, Alone.For(figure));
            }
        }
    }

    /// <summary>Draws a figure at this place; where it has no room for its text there, it becomes higher, and at last as wide as the page. The page itself says where its numbers come from.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="prefix">What the names inside the picture begin with.</param>
    /// <exception cref="PictureTooSmallException">It has no room even so.</exception>
    public Html Picture(Figure figure, string prefix)
    {
        foreach (var place in new[] { this, Whole })
        {
            foreach (var height in Heights)
            {
                try
                {
                    var drawn = SvgRenderer.Render(figure with { Footer = "", Size = new PlotSize(place.WidthPx, (int)(height * HeightPx), Scale) }, SvgText.Letters, prefix);
                    return Html.Of($"<figure class=\"{place.Name}\">{Html.Trusted(drawn)}</figure>\n");
                }
                catch (PictureTooSmallException)
                {
                    // Tried again larger.
                }
            }
        }

        throw new PictureTooSmallException();
    }

    private FigurePlace For(Figure figure) => figure.NeedsHeight ? this with { HeightPx = this == Half ? Higher : HigherAlone } : this;
}
