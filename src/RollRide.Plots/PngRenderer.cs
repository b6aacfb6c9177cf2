using OxyPlot;
using OxyPlot.SkiaSharp;
using SkiaSharp;

namespace RollRide.Plots;

/// <summary>Turns figures into PNG pictures, the same bytes every time.</summary>
/// <remarks>While a picture is made its plot models are in use: do not render one model on two threads at once.</remarks>
public static class PngRenderer
{
    // Large even areas and thin lines: a filter for each row of pixels, as photographs need, takes three times as long and makes larger files.
    private static readonly SKPngEncoderOptions Compression = new(SKPngEncoderFilterFlags.None, zLibLevel: 4);

    /// <summary>Renders a figure.</summary>
    /// <param name="figure">The figure.</param>
    /// <returns>The bytes of a PNG file.</returns>
    /// <exception cref="InvalidOperationException">A plot cannot be drawn, or the picture is too small for its panels.</exception>
    public static byte[] Render(Figure figure)
    {
        using var page = new Page(figure);
        page.Arrange();
        using var bitmap = new SKBitmap(figure.Size.WidthPx, figure.Size.HeightPx);
        using var canvas = new SKCanvas(bitmap);
        using var context = new EmbeddedFontRenderContext { SkCanvas = canvas, DpiScale = (float)figure.Size.Scale };
        canvas.Clear(OxyColors.White.ToSKColor());
        page.Draw(context);
        using var pixels = bitmap.PeekPixels();
        using var data = pixels.Encode(Compression);
        return data.ToArray();
    }

    /// <summary>Renders a single plot, without the title and footer of a figure.</summary>
    /// <param name="model">The plot.</param>
    /// <param name="size">Size of the picture.</param>
    /// <returns>The bytes of a PNG file.</returns>
    /// <exception cref="InvalidOperationException">The plot cannot be drawn, or the picture is too small for it.</exception>
    public static byte[] Render(PlotModel model, PlotSize size) =>
        Render(new Figure("plot.png", "", "", "", [new Panel(model)]) { Size = size });
}
