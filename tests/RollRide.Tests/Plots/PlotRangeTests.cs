using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class PlotRangeTests
{
    [Fact]
    public void Of_values_adds_padding_at_both_ends() => Assert.Equal(new PlotRange(-3, 12), PlotRange.Of([0, 9, 4, 2.5], 1.0 / 3));

    [Theory]
    [InlineData(0, -1, 1)]
    [InlineData(-10, -11, -9)]
    public void Of_equal_values_opens_around_them(double value, double low, double high) =>
        Assert.Equal(new PlotRange(low, high), PlotRange.Of([value, value]));

    [Fact]
    public void Of_value_that_is_not_finite_throws() => Assert.Throws<ArgumentException>(() => PlotRange.Of([1, double.NaN]));

    [Fact]
    public void Of_no_value_throws() => Assert.Throws<ArgumentException>(() => PlotRange.Of([]));

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(double.NegativeInfinity, 1)]
    public void Limits_out_of_order_or_infinite_throw(double low, double high) => Assert.Throws<ArgumentException>(() => new PlotRange(low, high));
}
