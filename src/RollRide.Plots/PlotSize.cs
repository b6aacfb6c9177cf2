namespace RollRide.Plots;

/// <summary>The size of a picture and how large its text and lines are drawn.</summary>
/// <remarks>
/// Everything in a figure is measured in plot units of 1/96 inch, and a unit is <see cref="Scale"/> pixels wide. The default makes
/// text that can be read from the back of a room when the picture fills a slide: 22 px of 900 for the smallest label on an axis.
/// </remarks>
public sealed record PlotSize
{
    private const double SmallestScale = 0.5;
    private const double LargestScale = 8;

    // A slide in plot units.
    private const double SlideWidth = 800;
    private const double SlideHeight = 450;

    /// <summary>A picture that fills one slide: 1600 × 900 px.</summary>
    public static PlotSize Slide { get; } = new(1600, 900);

    /// <summary>Makes a size.</summary>
    /// <param name="widthPx">Width, px, 200 to 10000.</param>
    /// <param name="heightPx">Height, px, 200 to 10000.</param>
    /// <param name="scale">
    /// Pixels in a plot unit, 0.5 to 8; if left out, such that a smaller or larger picture shows what a slide shows.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its limits.</exception>
    public PlotSize(int widthPx = 1600, int heightPx = 900, double? scale = null)
    {
        WidthPx = Pixels(widthPx, nameof(widthPx));
        HeightPx = Pixels(heightPx, nameof(heightPx));
        if (!(scale is null or (>= SmallestScale and <= LargestScale)))
            throw new ArgumentOutOfRangeException(nameof(scale), scale, "The scale must be 0.5 to 8 px a unit.");
        Scale = scale ?? Math.Clamp(Math.Min(widthPx / SlideWidth, heightPx / SlideHeight), SmallestScale, LargestScale);
    }

    /// <summary>Width, px.</summary>
    public int WidthPx { get; }

    /// <summary>Height, px.</summary>
    public int HeightPx { get; }

    /// <summary>Pixels in a plot unit.</summary>
    public double Scale { get; }

    /// <summary>Width, plot units.</summary>
    public double Width => WidthPx / Scale;

    /// <summary>Height, plot units.</summary>
    public double Height => HeightPx / Scale;

    private static int Pixels(int value, string name) => value is >= 200 and <= 10000
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "A picture must be 200 to 10000 px wide and high.");
}
