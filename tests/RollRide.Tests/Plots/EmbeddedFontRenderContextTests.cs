using OxyPlot;
using RollRide.Plots;
using SkiaSharp;

namespace RollRide.Tests.Plots;

public class EmbeddedFontRenderContextTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3.5f)]
    public void MeasureText_at_any_scale_is_the_width_the_page_was_laid_out_with(float scale)
    {
        using var canvas = new SKNoDrawCanvas(100, 100);
        using var context = new EmbeddedFontRenderContext { SkCanvas = canvas, DpiScale = scale };

        var size = ((IRenderContext)context).MeasureText("Roll angle [deg]", "no such family", 12, PlotFont.Normal);

        // Without hinting only the rounding of advances differs, a fraction of a unit over the whole text.
        Assert.Equal(PlotFont.Width("Roll angle [deg]", 12), size.Width, 0.25);
        Assert.Equal(PlotFont.LineHeight(12), size.Height, 0.25);
    }

    [Fact]
    public void MeasureText_of_two_lines_is_as_wide_as_the_wider_and_twice_as_high()
    {
        using var canvas = new SKNoDrawCanvas(100, 100);
        using var context = new EmbeddedFontRenderContext { SkCanvas = canvas, DpiScale = 1 };
        IRenderContext text = context;

        var two = text.MeasureText("Roll\nRoll angle", null, 12, PlotFont.Normal);
        var one = text.MeasureText("Roll angle", null, 12, PlotFont.Normal);

        Assert.Equal(one.Width, two.Width);
        Assert.Equal(2 * one.Height, two.Height, 1e-4); // single precision
    }

    [Theory]
    [InlineData(HorizontalAlignment.Left, VerticalAlignment.Top, 1, 1)]
    [InlineData(HorizontalAlignment.Right, VerticalAlignment.Bottom, -1, -1)]
    [InlineData(HorizontalAlignment.Left, VerticalAlignment.Bottom, 1, -1)]
    public void DrawText_puts_all_ink_on_the_side_of_the_point_that_the_alignment_names(
        HorizontalAlignment horizontal, VerticalAlignment vertical, int right, int down)
    {
        using var bitmap = new SKBitmap(200, 200);
        using var canvas = new SKCanvas(bitmap);
        using var context = new EmbeddedFontRenderContext { SkCanvas = canvas, DpiScale = 1 };
        canvas.Clear(SKColors.White);

        ((IRenderContext)context).DrawText(new ScreenPoint(100, 100), "EH", OxyColors.Black, null, 20, 400, 0, horizontal, vertical, null);

        var ink = (from x in Enumerable.Range(0, 200)
                   from y in Enumerable.Range(0, 200)
                   where bitmap.GetPixel(x, y).Red < 128
                   select (X: x - 100, Y: y - 100)).ToArray();
        Assert.NotEmpty(ink);
        Assert.All(ink, pixel => Assert.True(pixel.X * right >= 0 && pixel.Y * down >= 0));
    }
}
