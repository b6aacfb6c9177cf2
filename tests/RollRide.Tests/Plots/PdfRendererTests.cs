using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class PdfRendererTests
{
    [Fact]
    public void Render_figures_makes_a_page_each_with_the_typeface_embedded()
    {
        var bytes = PdfRenderer.Render("Two figures", SampleFigures.Roll(3), SampleFigures.Bars());

        var text = Encoding.Latin1.GetString(bytes);
        Assert.StartsWith("%PDF-", text, StringComparison.Ordinal);
        Assert.Contains("/Count 2", text, StringComparison.Ordinal);
        // 800 × 450 units of 1/96 inch are 600 × 337.5 points; pages are whole pixels of the 300 dpi at which what is no vector would be drawn.
        var box = Regex.Match(text, @"/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]");
        Assert.Equal(600, double.Parse(box.Groups[1].Value, CultureInfo.InvariantCulture), 72.0 / 300);
        Assert.Equal(337.5, double.Parse(box.Groups[2].Value, CultureInfo.InvariantCulture), 72.0 / 300);
        // The letters are carried as outlines (a Type 3 font), with the characters that they stand for; no font of the machine is named.
        Assert.Contains("/Subtype /Type3", text, StringComparison.Ordinal);
        Assert.Contains("/ToUnicode", text, StringComparison.Ordinal);
        Assert.DoesNotContain("/BaseFont", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Render_same_figure_has_the_same_bytes() =>
        Assert.Equal(PdfRenderer.Render("x", SampleFigures.Roll(1)), PdfRenderer.Render("x", SampleFigures.Roll(1)));
}
