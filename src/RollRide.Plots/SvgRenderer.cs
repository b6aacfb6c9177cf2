using System.Globalization;
using OxyPlot;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>Turns figures into SVG pictures: the same page as <see cref="PngRenderer"/> draws.</summary>
/// <remarks>
/// Each panel over time stands in a group of class <c>time-panel</c> that carries its plot area in picture units (<c>data-area</c>: left,
/// top, width, height), the limits of its axes (<c>data-time</c>, <c>data-range</c>) and its quantity and unit; the curve of a layout is
/// the longest polyline in its groups. While a picture is made its plot models are in use: do not render one model on two threads.
/// </remarks>
public static class SvgRenderer
{
    /// <summary>Renders a figure.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="text">How text is written.</param>
    /// <param name="prefix">Begins every id in the picture; the stem of the figure's file name if null.</param>
    /// <returns>An SVG document without an XML declaration, which can stand in a file or in a page.</returns>
    /// <exception cref="InvalidOperationException">A plot cannot be drawn, or the picture is too small for its panels.</exception>
    public static string Render(Figure figure, SvgText text, string? prefix = null)
    {
        ArgumentNullException.ThrowIfNull(figure);
        using var page = new Page(figure);
        page.Arrange();
        var context = new SvgRenderContext(text, prefix ?? Path.GetFileNameWithoutExtension(figure.FileName));
        var (width, height) = (figure.Size.Width, figure.Size.Height);
        context.DrawRectangle(new OxyRect(0, 0, width, height), OxyColors.White, OxyColors.Undefined, 0, EdgeRenderingMode.Automatic);
        page.DrawTexts(context);
        for (var i = 0; i < figure.Panels.Count; i++)
        {
            var model = figure.Panels[i].Model;
            var time = model.Axes.FirstOrDefault(axis => axis.Key == PlotAxis.TimeKey);
            var group = context.Begin();
            page.DrawPanel(context, i);
            if (time is not null)
                context.End(group, TimeAttributes(model, time));
        }

        var name = SvgRenderContext.Escape(figure.Title);
        var family = text == SvgText.Letters ? $" font-family=\"{WebFont.Family}\"" : "";
        return string.Create(CultureInfo.InvariantCulture,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" role=\"img\" aria-label=\"{name}\"{family}>\n<title>{name}</title>\n{context.Finish()}</svg>\n");
    }

    private static string TimeAttributes(PlotModel model, Axis time)
    {
        var area = model.PlotArea;
        var value = model.Axes.First(axis => axis.Position == AxisPosition.Left);
        return string.Create(CultureInfo.InvariantCulture,
            $"class=\"time-panel\" data-area=\"{area.Left:F2} {area.Top:F2} {area.Width:F2} {area.Height:F2}\" data-time=\"{time.ActualMinimum:R} {time.ActualMaximum:R}\" data-range=\"{value.ActualMinimum:R} {value.ActualMaximum:R}\" data-quantity=\"{SvgRenderContext.Escape(value.Title)}\" data-unit=\"{SvgRenderContext.Escape(value.Unit ?? "")}\"");
    }
}
