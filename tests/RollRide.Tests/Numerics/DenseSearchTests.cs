using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class DenseSearchTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(1e-9)]
    [InlineData(1e9)]
    public void Crossing_AnyScaleOfTheFunction_IsExactTo1e12OfTheSpan(double scale) =>
        Assert.Equal(Math.PI, DenseSearch.Crossing(t => scale * Math.Sin(t), 2, 4), 4e-12);

    [Fact]
    public void Crossing_ZeroAtAnEnd_IsThatEnd()
    {
        Assert.Equal(2, DenseSearch.Crossing(t => t - 2, 2, 3));
        Assert.Equal(3, DenseSearch.Crossing(t => t - 3, 2, 3));
    }

    [Fact]
    public void Crossing_NoChangeOfSign_IsRefused() =>
        Assert.Throws<ArgumentException>(() => DenseSearch.Crossing(t => 1 + t * t, -1, 1));

    [Fact]
    public void Crossing_NotANumberAtAnEnd_IsRefused() =>
        Assert.Throws<ArgumentException>(() => DenseSearch.Crossing(t => t > 0 ? double.NaN : -1, 0, 1));

    [Fact]
    public void Maximum_SmoothPeak_IsFoundToTheRootOfRounding()
    {
        (double time, double value) = DenseSearch.Maximum(t => Math.Exp(-t) * Math.Sin(t), 0, 3);
        // sin t − cos t = 0. Near it the function differs from its peak by less than rounding over √(2·1e-16) ≈ 1.5e-8.
        Assert.Equal(Math.PI / 4, time, 5e-8);
        Assert.Equal(Math.Exp(-Math.PI / 4) / Math.Sqrt(2), value, 1e-15);
    }

    [Theory]
    [InlineData(0.03, 2, -0.5)]
    [InlineData(0.37, 2, -3)]
    [InlineData(0.5, 1, -1)]
    [InlineData(0.99, 0.5, -8)]
    public void Maximum_AtAKink_IsFoundToTheAccuracyAsked(double kink, double rise, double fall)
    {
        (double time, double value) = DenseSearch.Maximum(t => (t < kink ? rise : fall) * (t - kink) - 0.2 * t * t, 0, 1, 1e-5);
        Assert.Equal(kink, time, 1e-5);
        Assert.Equal(-0.2 * kink * kink, value, 1e-5 * (rise - fall + 0.4));
    }

    [Theory]
    [InlineData(1, 5)]
    [InlineData(-1, 2)]
    public void Maximum_Monotonic_IsTheEnd(double slope, double expected)
    {
        (double time, double value) = DenseSearch.Maximum(t => slope * t, 2, 5);
        Assert.Equal(expected, time);
        Assert.Equal(slope * expected, value);
    }

    [Fact]
    public void AnySearch_SpanNotInOrder_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DenseSearch.Crossing(t => t, 1, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => DenseSearch.Maximum(t => t, 1, 1));
    }
}
