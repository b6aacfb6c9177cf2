using OxyPlot;
using OxyPlot.Axes;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class ThemeTests
{
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
}
