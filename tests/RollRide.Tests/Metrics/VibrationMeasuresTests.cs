using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;
using RollRide.Metrics;

namespace RollRide.Tests.Metrics;

public class VibrationMeasuresTests
{
    private static VibrationMeasures Measure(int seconds, Func<double, double> acceleration)
    {
        const double Rate = 600;
        var meter = new OneSignal(FrequencyWeighting.Wk, Rate);
        for (var i = -6000; i < seconds * Rate; i++) meter.Add(acceleration(i / Rate), counts: i >= 0);
        return meter.ToMeasures();
    }

    [Fact]
    public void ASine_HasTheMeasuresOfItsClosedForms()
    {
        var measures = Measure(20, t => 2 * Math.Sin(2 * Math.PI * 5 * t));
        var amplitude = measures.Rms * Math.Sqrt(2);
        Assert.Equal(2 * FrequencyWeighting.Wk.Factor(5), amplitude, 2e-3); // bilinear transform at 600 Hz
        Assert.Equal(1.414213562, measures.CrestFactor!.Value, 1e-3); // 120 samples a period: cos(π/120) at worst
        Assert.Equal(0.7825422900 * amplitude * Math.Pow(20, 0.25), measures.DoseValue, 1e-6); // (3/8)^¼ A T^¼
        Assert.Equal(measures.Rms, measures.MaximumTransient, 1e-9); // five whole periods in the running second
        Assert.Equal(20, measures.Duration, 1e-12);
        Assert.False(measures.NeedsAdditionalMeasures);
    }

    [Fact]
    public void GaussianNoise_HasTheDoseOfItsClosedForm()
    {
        var random = new MersenneTwister(4, false);
        var measures = Measure(400, _ => Normal.Sample(random, 0, 1));

        // VDV/(aw T^¼) = 3^¼ (derived); some 20 000 independent values give the kurtosis to 2 %, its fourth root to 0.5 %.
        Assert.Equal(1.316074013, measures.DoseValue / (measures.Rms * Math.Pow(400, 0.25)), 0.02);
    }

    [Fact]
    public void AShock_RaisesTheRunningValue_AndAsksForMoreThanTheRms()
    {
        var measures = Measure(60, t => t is >= 30 and < 30.2 ? 10 * Math.Sin(2 * Math.PI * 5 * (t - 30)) : 0);

        // All the vibration lies within one second: MTVV² · 1 s = aw² · 60 s, up to the filter's ringing after that second.
        Assert.Equal(measures.Rms * Math.Sqrt(60), measures.MaximumTransient, 0.02 * measures.MaximumTransient);
        Assert.True(measures.NeedsAdditionalMeasures);
    }

    [Fact]
    public void Rest_HasNoCrestFactor() => Assert.Null(Measure(2, _ => 0).CrestFactor);

    // ISO 2631-1:1997, Annex C; the ranges overlap.
    [Theory]
    [InlineData(0.2, "not uncomfortable")]
    [InlineData(0.4, "a little uncomfortable")]
    [InlineData(0.55, "a little uncomfortable|fairly uncomfortable")]
    [InlineData(0.9, "fairly uncomfortable|uncomfortable")]
    [InlineData(1.4, "uncomfortable|very uncomfortable")]
    [InlineData(2.2, "very uncomfortable|extremely uncomfortable")]
    [InlineData(3, "extremely uncomfortable")]
    public void Reactions_AreThoseOfTheStandard(double total, string words) =>
        Assert.Equal(words, string.Join('|', ComfortReaction.Of(total).Select(r => r.Words)));

    [Fact]
    public void Histogram_GivesQuantilesAndWidens()
    {
        var accumulator = new HistogramAccumulator(0.5);
        for (var i = 0; i < 10_000; i++) accumulator.Add((i / 10.0) - 700, 1);
        var histogram = accumulator.ToHistogram();
        Assert.Equal(1, histogram.Shares.Sum(), 1e-12);
        Assert.Equal(-690, histogram.Quantile(0.01), 1e-9);
        Assert.Equal(-200, histogram.Quantile(0.5), 1e-9);
        Assert.Throws<ArgumentOutOfRangeException>(() => histogram.Quantile(1));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-1e9)]
    public void Histogram_refuses_what_no_bin_can_hold(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new HistogramAccumulator(0.5).Add(value, 1));

    [Fact]
    public void Histograms_merged_are_that_of_all_values_together()
    {
        var (all, early, late) = (new HistogramAccumulator(0.1), new HistogramAccumulator(0.1), new HistogramAccumulator(0.1));
        for (var i = 0; i < 100; i++)
        {
            var (value, seconds, energy) = (40 * Math.Sin(i), 0.25 + (i % 4), 2.0 * i);
            all.Add(value, seconds, energy);
            (i < 50 ? early : late).Add(value, seconds, energy);
        }

        early.Merge(late);
        Assert.Equal(all.ToVelocityHistogram().FirstBin, early.ToVelocityHistogram().FirstBin);
        Assert.Equal(all.ToVelocityHistogram().Seconds, early.ToVelocityHistogram().Seconds);
        Assert.Equal(all.ToVelocityHistogram().Energy, early.ToVelocityHistogram().Energy);
    }
}
