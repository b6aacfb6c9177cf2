using OxyPlot;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class LayoutStylesTests
{
    private static readonly IReadOnlyList<SeriesStyle> Styles = LayoutStyles.All;

    [Fact]
    public void Any_two_layouts_differ_in_dash_and_in_marker()
    {
        Assert.Equal(Styles.Count, Styles.Select(style => string.Join(' ', style.Dashes)).Distinct().Count());
        Assert.Equal(Styles.Count, Styles.Select(style => (style.Marker, style.Filled)).Distinct().Count());
        Assert.Equal(Styles.Count, Styles.Select(style => style.Color).Distinct().Count());
    }

    [Fact]
    public void First_three_layouts_are_told_apart_in_greyscale()
    {
        // Lightness L* of CIE 1976; a difference of 20 is a plain step of grey, one that survives a poor printer (common practice, no source).
        var lightness = Styles.Take(3).Select(style => Lightness(style.Color)).Order().ToArray();

        Assert.True(lightness[1] - lightness[0] > 20);
        Assert.True(lightness[2] - lightness[1] > 20);
    }

    [Fact]
    public void Every_layout_stands_out_from_white() =>
        // WCAG 2.1 contrast ratio (L1 + 0.05)/(L2 + 0.05). Its 3:1 for graphics is met by all but the two lightest hues, whose lines are thick
        // and carry markers; below 2:1 a line on white is lost.
        Assert.All(Styles, style => Assert.True(1.05 / (Luminance(style.Color) + 0.05) > 2));

    [Fact]
    public void A_layout_keeps_its_style_when_only_some_are_shown()
    {
        var all = new LayoutStyles(["A", "B", "C"], ["A", "B", "C"]);
        var some = new LayoutStyles(["A", "B", "C"], ["C"]);

        Assert.Same(all["C"], some["C"]);
        Assert.NotSame(all["A"], all["C"]);
    }

    [Fact]
    public void Of_more_layouts_than_styles_those_shown_get_one_each()
    {
        string[] names = [.. Enumerable.Range(0, LayoutStyles.Count + 1).Select(i => $"Layout {i}")];

        Assert.Same(LayoutStyles.All[0], new LayoutStyles(names, [names[^1]])[names[^1]]);
        Assert.Contains($"can tell {LayoutStyles.Count} layouts apart", Assert.Throws<ArgumentException>(() => new LayoutStyles(names, names)[names[^1]]).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_no_layout_gets_no_layouts_style()
    {
        Assert.Contains("“Left wheel” is no layout", Assert.Throws<ArgumentException>(() => new LayoutStyles(["A"], ["A"])["Left wheel"]).Message, StringComparison.Ordinal);

        // A solid line is no code; colours, other dashes and markers are.
        foreach (var other in OtherStyles.All)
        {
            Assert.DoesNotContain(other.Color, Styles.Select(style => style.Color));
            Assert.DoesNotContain((other.Marker, other.Filled), Styles.Select(style => (style.Marker, style.Filled)));
            Assert.DoesNotContain(string.Join(' ', other.Dashes), Styles.Where(style => style.Dashes.Count > 0).Select(style => string.Join(' ', style.Dashes)));
        }
    }

    // Relative luminance of sRGB, IEC 61966-2-1 (from memory).
    private static double Luminance(OxyColor color)
    {
        return 0.2126 * Linear(color.R) + 0.7152 * Linear(color.G) + 0.0722 * Linear(color.B);

        static double Linear(byte channel)
        {
            var c = channel / 255.0;
            return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
        }
    }

    private static double Lightness(OxyColor color)
    {
        var y = Luminance(color);
        return y <= 216.0 / 24389 ? y * 24389.0 / 27 : 116 * Math.Cbrt(y) - 16;
    }
}
