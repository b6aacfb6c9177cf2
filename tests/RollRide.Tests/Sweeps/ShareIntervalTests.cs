using RollRide.Sweeps;

namespace RollRide.Tests.Sweeps;

public class ShareIntervalTests
{
    // None of n: (1 − p)ⁿ = 5 %; all of n the mirror image. 2 of 10: tables of the binomial 95 % limits, 2.52 % to 55.61 % (from memory).
    [Theory]
    [InlineData(0, 10, 0, 0.2588656)]
    [InlineData(10, 10, 0.7411344, 1)]
    [InlineData(0, 1, 0, 0.95)]
    [InlineData(2, 10, 0.0252107, 0.5560955)]
    public void Interval_is_that_of_the_binomial_distribution(int seen, int samples, double low, double high)
    {
        var interval = ShareInterval.Of(seen, samples);
        Assert.Equal(low, interval.Low, 1e-6);
        Assert.Equal(high, interval.High, 1e-6);
    }

    [Fact]
    public void At_the_limits_what_was_seen_has_a_chance_of_2_5_percent()
    {
        var interval = ShareInterval.Of(7, 40);
        double AtMost(int seen, double p) => Enumerable.Range(0, seen + 1).Sum(k => MathNet.Numerics.SpecialFunctions.Binomial(40, k) * Math.Pow(p, k) * Math.Pow(1 - p, 40 - k));
        Assert.Equal(0.025, AtMost(7, interval.High), 1e-8);
        Assert.Equal(0.025, 1 - AtMost(6, interval.Low), 1e-8);
    }

    [Theory]
    [InlineData(-1, 5)]
    [InlineData(6, 5)]
    [InlineData(0, 0)]
    public void Counts_that_cannot_be_are_refused(int seen, int samples) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ShareInterval.Of(seen, samples));
}
