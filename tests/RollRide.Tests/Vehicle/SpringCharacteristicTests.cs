using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Tests.Vehicle;

public sealed class SpringCharacteristicTests
{
    private static readonly PiecewiseLinear Progressive = PiecewiseLinear.Through([0, 0.05, 0.15], [0, 1000, 5000]);

    // A few roundings of forces of 5 kN.
    private const double Rounding = 1e-11;

    [Fact]
    public void LinearSpring_CarriesItsPreloadAtRideHeight()
    {
        var force = new LinearSpring(20e3).AtRideHeight(3000);
        Assert.Equal(3000, force.Value(0), Rounding);
        Assert.Equal(3000 + (20e3 * 2.5), force.Value(2.5), Rounding);
        Assert.Equal(3000 - (20e3 * 0.2), force.Value(-0.2), Rounding);
        Assert.Equal(20e3, force.Slope(0), Rounding);
    }

    [Fact]
    public void TableFromFreeLength_IsCountedFromWhereItCarriesThePreload()
    {
        // 3000 N at 0.05 + 0.10·(2000/4000) = 0.10 m from free length.
        var force = new FreeLengthSpringTable(Progressive).AtRideHeight(3000);
        Assert.Equal(3000, force.Value(0), Rounding);
        Assert.Equal(1000, force.Value(-0.05), Rounding);
        Assert.Equal(0, force.Value(-0.10), Rounding);
        Assert.Equal(5000, force.Value(0.05), Rounding);
        Assert.Equal(7000, force.Value(0.10), Rounding); // Beyond the table its end slope goes on.
        Assert.Equal(-200, force.Value(-0.11), Rounding); // A captive spring pulls beyond its free length.
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1000)]
    [InlineData(5000)]
    public void TableFromFreeLength_PreloadOnAPoint_IsMet(double preload) =>
        Assert.Equal(preload, new FreeLengthSpringTable(Progressive).AtRideHeight(preload).Value(0), Rounding);

    [Theory]
    [InlineData(-1)]
    [InlineData(5001)]
    public void TableFromFreeLength_PreloadOutsideIt_IsRefused(double preload) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new FreeLengthSpringTable(Progressive).AtRideHeight(preload));

    [Fact]
    public void TableFromFreeLength_LevelAtThePreload_IsRefused()
    {
        // Where a tender spring is level, the ride height could be anywhere.
        var level = new FreeLengthSpringTable(PiecewiseLinear.Through([0, 0.05, 0.15], [1000, 1000, 5000]));
        Assert.Throws<ArgumentOutOfRangeException>(() => level.AtRideHeight(1000));
        Assert.Equal(1001, level.AtRideHeight(1001).Value(0), Rounding);
    }

    [Fact]
    public void TableFromRideHeight_AddsToThePreload()
    {
        var change = PiecewiseLinear.Through([-0.1, 0, 0.1], [-1500, 0, 3000]);
        var force = new RideHeightSpringTable(change).AtRideHeight(4000);
        Assert.Equal(4000, force.Value(0), Rounding);
        Assert.Equal(2500, force.Value(-0.1), Rounding);
        Assert.Equal(7000, force.Value(0.1), Rounding);
    }

    [Fact]
    public void Tables_ThatFallOrMissTheOrigin_AreRefused()
    {
        var falling = PiecewiseLinear.Through([-0.1, 0, 0.1], [-10, 0, -20]);
        Assert.Contains("falls from 0 N to -20 N at 0.1 m", Assert.Throws<ArgumentException>(() => new FreeLengthSpringTable(falling)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new RideHeightSpringTable(falling));
        var offset = PiecewiseLinear.Through([-0.1, 0.1], [-10, 20]);
        Assert.Contains("0 N at 0 m", Assert.Throws<ArgumentException>(() => new RideHeightSpringTable(offset)).Message, StringComparison.Ordinal);
        var above = PiecewiseLinear.Through([0.1, 0.2], [10, 20]);
        Assert.Throws<ArgumentException>(() => new RideHeightSpringTable(above));
    }
}
