using OxyPlot;
using OxyPlot.SkiaSharp;
using SkiaSharp;

namespace RollRide.Plots;

/// <summary>Draws on a Skia canvas as OxyPlot does, but sets all text in <see cref="PlotFont"/> instead of a font of the machine.</summary>
/// <remarks>
/// OxyPlot's own context asks the machine for a font family: pictures would differ from machine to machine, and lose their text where
/// no font is installed. Only the two members that handle text are implemented again; the font family asked for is ignored.
/// </remarks>
internal sealed class EmbeddedFontRenderContext : SkiaRenderContext, IRenderContext
{
    OxySize IRenderContext.MeasureText(string text, string? fontFamily, double fontSize, double fontWeight)
    {
        if (string.IsNullOrEmpty(text))
            return OxySize.Empty;
        using var paint = PlotFont.Paint(fontSize * DpiScale, fontWeight);
        var lines = text.Split('\n');
        return new OxySize(lines.Max(line => paint.MeasureText(line)) / DpiScale, lines.Length * paint.FontSpacing / DpiScale);
    }

    void IRenderContext.DrawText(ScreenPoint p, string text, OxyColor fill, string? fontFamily, double fontSize, double fontWeight,
        double rotation, HorizontalAlignment horizontalAlignment, VerticalAlignment verticalAlignment, OxySize? maxSize)
    {
        if (string.IsNullOrEmpty(text) || !fill.IsVisible())
            return;
        using var paint = PlotFont.Paint(fontSize * DpiScale, fontWeight);
        paint.Color = fill.ToSKColor();
        using var restore = new SKAutoCanvasRestore(SkCanvas);
        SkCanvas.Translate((float)(p.X * DpiScale), (float)(p.Y * DpiScale));
        SkCanvas.RotateDegrees((float)rotation);
        foreach (var line in TextLines.Of(text, paint, horizontalAlignment, verticalAlignment))
            SkCanvas.DrawText(line.Text, line.Left, line.Baseline, paint);
    }
}
