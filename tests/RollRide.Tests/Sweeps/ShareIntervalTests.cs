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

    [Theory] // The k-th largest of n bounds the 95 % quantile where k − 1 of n beyond it leave less than 5 % beyond it for sure.
    [InlineData(1, 59)]
    [InlineData(2, 93)]
    [InlineData(3, 124)]
    [InlineData(4, 153)]
    [InlineData(5, 181)]
    [InlineData(6, 208)]
    [InlineData(10, 311)]
    [InlineData(14, 410)]
    [InlineData(27, 717)]
    [InlineData(35, 900)]
    [InlineData(41, 1036)]
    public void Number_of_vehicles_that_shows_where_95_percent_lie_is_that_of_the_tables(int rank, int samples) => Validation.Row(
        FormattableString.Invariant($"rank {rank}"), "samples that bound the 95 % quantile with 95 % confidence",
        Evidence.Printed + "S. S. Wilks, Ann. Math. Stat. 12, 1941, 91–96; numbers as in the OpenTURNS test of quantile confidence ranks",
        samples, ShareInterval.Fewest(rank - 1, 0.05, 0.95), 0);

    [Theory] // pⁿ is at most 1 − confidence.
    [InlineData(0.10, 0.90, 22)]
    [InlineData(0.10, 0.95, 29)]
    [InlineData(0.10, 0.999, 66)]
    [InlineData(0.05, 0.95, 59)]
    [InlineData(0.05, 0.99, 90)]
    [InlineData(0.01, 0.95, 299)]
    [InlineData(0.01, 0.99, 459)]
    public void Number_of_vehicles_without_a_miss_is_that_of_the_closed_form(double share, double confidence, int samples) => Validation.Row(
        Covered(share, confidence), "samples without a miss that show a coverage with a confidence", Evidence.Derived + "pⁿ ≤ 1 − confidence",
        samples, ShareInterval.Fewest(0, share, confidence), 0);

    [Theory] // 1 − pⁿ − n (1 − p) pⁿ⁻¹ reaches the confidence: two of n at most lie outside the others.
    [InlineData(0.05, 0.95, 93)]
    [InlineData(0.10, 0.95, 46)]
    [InlineData(0.01, 0.95, 473)]
    [InlineData(0.05, 0.99, 130)]
    [InlineData(0.10, 0.90, 38)]
    [InlineData(0.01, 0.99, 662)]
    public void Number_of_vehicles_whose_least_and_greatest_hold_a_share_is_that_of_the_closed_form(double share, double confidence, int samples) => Validation.Row(
        Covered(share, confidence), "samples whose least and greatest hold a coverage with a confidence", Evidence.Derived + "1 − pⁿ − n (1 − p) pⁿ⁻¹ ≥ confidence",
        samples, ShareInterval.Fewest(1, share, confidence), 0);

    [Theory]
    [InlineData(-1, 5)]
    [InlineData(6, 5)]
    [InlineData(0, 0)]
    public void Counts_that_cannot_be_are_refused(int seen, int samples) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ShareInterval.Of(seen, samples));

    [Theory]
    [InlineData(-1, 0.05)]
    [InlineData(0, 0)]
    public void Numbers_that_no_samples_show_are_refused(int seen, double share) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ShareInterval.Fewest(seen, share, 0.95));

    private static string Covered(double share, double confidence) => FormattableString.Invariant($"{100 * (1 - share):0} % with {100 * confidence:0.#} %");
}
