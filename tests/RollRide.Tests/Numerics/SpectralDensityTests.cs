using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public class SpectralDensityTests
{
    private static double[] Noise(int seed, int count)
    {
        var samples = new double[count];
        Normal.Samples(new MersenneTwister(seed, false), samples, 0, 2);
        return samples;
    }

    [Fact]
    public void WhiteNoise_HasAFlatDensityOfTwiceItsVarianceOverTheRate()
    {
        var density = SpectralDensity.Of(Noise(1, 200_000), 50, 512);

        // Each band of 5 Hz holds 5 · 4000 independent values: 0.7 % a deviation.
        for (var low = 1.0; low < 20; low += 5)
            Assert.Equal(2 * 4 / 50.0, density.BandMean(new FrequencyBand(low, low + 2.5, low + 5)), 0.03 * 0.16);
    }

    [Fact]
    public void TheIntegralOfTheDensity_IsTheMeanSquare()
    {
        // Parseval, for one segment with a Hann window: Σ G df = Σ (w x)² / Σ w² exactly, x without its mean.
        var samples = Noise(2, 1024);
        var density = SpectralDensity.Of(samples, 100, 1024);
        var mean = samples.Average();
        var window = MathNet.Numerics.Window.HannPeriodic(1024);
        var weighted = samples.Select((x, i) => Math.Pow(window[i] * (x - mean), 2)).Sum() / window.Sum(w => w * w);
        Assert.Equal(weighted, density.Density.Sum() * density.Resolution, 1e-11);
    }

    [Fact]
    public void ASine_HoldsHalfItsAmplitudeSquared()
    {
        double[] sine = [.. Enumerable.Range(0, 8192).Select(i => 3 * Math.Sin(2 * Math.PI * 10 * i / 256.0))];
        var density = SpectralDensity.Of(sine, 256, 1024);
        Assert.Equal(4.5, Enumerable.Range(30, 20).Sum(i => density.Density[i]) * density.Resolution, 1e-9);
        Assert.Equal(15, density.Segments);
    }

    [Fact]
    public void Coherence_OfTwoMixedNoises_IsTheirMixture()
    {
        var (a, b) = (Noise(3, 200_000), Noise(4, 200_000));
        double[] mixed = [.. a.Zip(b, (x, y) => (0.6 * x) + (0.8 * y))];
        Assert.Equal(0.6, SpectralDensity.Of(a, mixed, 1, 256).BandCoherence(new FrequencyBand(0.1, 0.2, 0.4)), 0.01);
    }

    [Fact]
    public void ASegmentThatDoesNotFit_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SpectralDensity.Of(new double[100], 1, 128));
        Assert.Throws<ArgumentOutOfRangeException>(() => SpectralDensity.Of(new double[100], 1, 33));
        Assert.Throws<ArgumentOutOfRangeException>(() => SpectralDensity.Of(new double[100], 1, 4));
        Assert.Throws<ArgumentException>(() => SpectralDensity.Of(new double[100], new double[99], 1, 32));
    }

    [Fact]
    public void ThirdOctaves_LieSideBySide_TenToADecade()
    {
        var bands = ThirdOctave.Within(0.8, 80);
        Assert.Equal(1, bands[0].Centre, 1e-12);
        Assert.Equal(10, bands.Count(b => b.Centre is > 0.99 and < 9.99));
        for (var i = 1; i < bands.Length; i++) Assert.Equal(bands[i - 1].High, bands[i].Low, 1e-9);
        Assert.True(bands[^1].High <= 80);
    }
}
