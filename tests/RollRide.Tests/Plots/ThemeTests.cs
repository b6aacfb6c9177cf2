using OxyPlot;
using OxyPlot.Axes;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class ThemeTests
{
    private static readonly LayoutStyle[] Styles = [.. Enumerable.Range(0, Theme.LayoutCount).Select(Theme.For)];

    [Fact]
    public void For_any_two_layouts_differs_in_dash_and_in_marker()
    {
        Assert.Equal(Styles.Length, Styles.Select(style => string.Join(' ', style.Dashes)).Distinct().Count());
        Assert.Equal(Styles.Length, Styles.Select(style => (style.Marker, style.Filled)).Distinct().Count());
        Assert.Equal(Styles.Length, Styles.Select(style => style.Color).Distinct().Count());
    }

    [Fact]
    public void For_first_three_layouts_are_told_apart_in_greyscale()
    {
        // Lightness L* of CIE 1976; a difference of 20 is a plain step of grey, one that survives a poor printer (common practice, no source).
        var lightness = Styles.Take(3).Select(style => Lightness(style.Color)).Order().ToArray();

        Assert.True(lightness[1] - lightness[0] > 20);
        Assert.True(lightness[2] - lightness[1] > 20);
    }

    [Fact]
    public void For_every_layout_stands_out_from_white() =>
        // WCAG 2.1 contrast ratio (L1 + 0.05)/(L2 + 0.05). Its 3:1 for graphics is met by all but the two lightest hues, whose lines are thick
        // and carry markers; below 2:1 a line on white is lost.
        Assert.All(Styles, style => Assert.True(1.05 / (Luminance(style.Color) + 0.05) > 2));

    [Theory]
    [InlineData(-1)]
    [InlineData(8)]
    public void For_index_outside_the_styles_throws(int index) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Theme.For(index));

    [Fact]
    public void Panel_is_white() => Assert.Equal(OxyColors.White, Theme.Panel().Background);

    [Theory]
    [InlineData(-1, 1, 1)]
    [InlineData(0, 1, 0)]
    [InlineData(1, 2, 0)]
    public void AddZeroLine_is_drawn_only_where_zero_lies_between_the_limits(double low, double high, int lines)
    {
        var model = Theme.Panel();
        Theme.AddZeroLine(model, PlotAxis.Linear(AxisPosition.Left, "Roll angle", "deg", new PlotRange(low, high)));

        Assert.Equal(lines, model.Annotations.Count);
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
