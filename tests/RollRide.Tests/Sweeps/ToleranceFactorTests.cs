using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;
using MathNet.Numerics.Statistics;
using RollRide.Sweeps;

namespace RollRide.Tests.Sweeps;

public class ToleranceFactorTests
{
    [Theory] // Printed with two decimals.
    [InlineData(4, 0.9, 5.37)]
    [InlineData(4, 0.95, 6.34)]
    [InlineData(4, 0.99, 8.22)]
    [InlineData(5, 0.9, 4.29)]
    [InlineData(5, 0.95, 5.08)]
    [InlineData(5, 0.99, 6.6)]
    [InlineData(10, 0.9, 2.86)]
    [InlineData(10, 0.95, 3.39)]
    [InlineData(10, 0.99, 4.44)]
    [InlineData(20, 0.9, 2.32)]
    [InlineData(20, 0.95, 2.76)]
    [InlineData(20, 0.99, 3.62)]
    [InlineData(40, 0.9, 2.06)]
    [InlineData(40, 0.95, 2.45)]
    [InlineData(40, 0.99, 3.22)]
    [InlineData(60, 0.9, 1.96)]
    [InlineData(60, 0.95, 2.34)]
    [InlineData(60, 0.99, 3.07)]
    public void Factor_with_95_percent_confidence_is_that_of_the_table(int measured, double coverage, double factor) => Validation.Row(
        FormattableString.Invariant($"{measured} measured, {100 * coverage:0} % of all"), "standard deviations around the mean of those measured, two-sided, 95 % confidence",
        Evidence.Printed + "P. M. Berthouex, L. C. Brown, Statistics for Environmental Engineers, table 21.1, p. 176, after G. J. Hahn, J. Qual. Technol., 1970",
        factor, ToleranceFactor.TwoSided(measured, coverage, 0.95), 0.0051); // half a unit of the last digit, and 2.855 printed as 2.86

    [Fact] // The handbook's own 2.2173 is an approximation.
    public void Factor_with_99_percent_confidence_is_that_of_quadrature() => Validation.Row(
        "43 measured, 90 % of all", "standard deviations around the mean of those measured, two-sided, 99 % confidence",
        Evidence.Derived + "NIST/SEMATECH e-Handbook 7.2.6.3, its example by quadrature of the exact integral",
        2.222825174, ToleranceFactor.TwoSided(43, 0.9, 0.99), 1e-6);

    [Fact] // Many parts tell mean and deviation: 95 % of all lie within 1.96 of them.
    public void Factor_of_very_many_parts_is_the_quantile_of_the_distribution() =>
        Assert.Equal(Normal.InvCDF(0, 1, 0.975), ToleranceFactor.TwoSided(100_000, 0.95, 0.5), 1e-4); // as 1/n

    [Fact] // Drawn 20,000 times; the share scatters by √(0.05 · 0.95/20,000) = 0.15 %, and four of it are allowed.
    public void Interval_of_ten_drawn_parts_holds_the_coverage_as_often_as_said()
    {
        const int draws = 20_000;
        var (random, factor, parts, held) = (new MersenneTwister(1, false), ToleranceFactor.TwoSided(10, 0.9, 0.95), new double[10], 0);
        for (var draw = 0; draw < draws; draw++)
        {
            Normal.Samples(random, parts, 0, 1);
            var (mean, deviation) = parts.MeanStandardDeviation();
            if (Normal.CDF(0, 1, mean + (factor * deviation)) - Normal.CDF(0, 1, mean - (factor * deviation)) >= 0.9)
                held++;
        }

        Assert.Equal(0.95, held / (double)draws, 0.006);
    }

    [Theory]
    [InlineData(1, 0.9, 0.95)]
    [InlineData(10, 1, 0.95)]
    [InlineData(10, 0.9, 0)]
    public void What_no_measurement_shows_is_refused(int measured, double coverage, double confidence) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ToleranceFactor.TwoSided(measured, coverage, confidence));
}
