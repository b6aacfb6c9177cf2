using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class RandomRoadTests
{
    // Long enough that the lowest third octave holds near a hundred independent values.
    private const double Length = 30_000;

    /// <summary>A chance of 1 in 150 000 a band: the seeds are fixed, so the test does not change from run to run.</summary>
    private const double Deviations = 4.5;

    // Leakage of the Hann window past a steep spectrum, fading of the blocks, and the spline: together below 3 %.
    private const double MethodError = 0.03;

    private static RandomRoad ClassC(int seed = 1) => new()
    {
        Spectrum = RoughnessSpectrum.Of(RoadClass.C),
        Coherence = TrackCoherence.Isotropic(1.5),
        Seed = seed,
    };

    public static TheoryData<string> Spectra => ["class C", "two slopes", "waviness 2.5"];

    private static RoughnessSpectrum Spectrum(string name) => name switch
    {
        "class C" => RoughnessSpectrum.Of(RoadClass.C),
        "two slopes" => new RoughnessSpectrum { ReferenceDensity = 1e-4, Waviness = 3, BreakWavenumber = 0.16, WavinessAboveBreak = 1.5 },
        _ => new RoughnessSpectrum { ReferenceDensity = 3e-4, Waviness = 2.5, LowestWavenumber = 0.02, HighestWavenumber = 4 },
    };

    [Theory]
    [MemberData(nameof(Spectra))]
    public void Spectrum_InEveryThirdOctaveBand_IsTheOneAskedFor(string name)
    {
        var spectrum = Spectrum(name);
        var profile = (ClassC(7) with { Spectrum = spectrum }).ToProfile(Length, 0.1);
        var density = SpectralDensity.Of(profile.Left.AsSpan(), profile.Right.AsSpan(), 10, 16_384);
        foreach (var band in ThirdOctave.Within(spectrum.LowestWavenumber * 1.1, spectrum.HighestWavenumber / 1.1))
        {
            var expected = Enumerable.Range(0, 200).Average(i => spectrum.Density(band.Low + (band.Width * (i + 0.5) / 200)));
            var spread = (Deviations / Math.Sqrt(band.Width * Length)) + MethodError;
            Assert.InRange(density.BandMean(band) / expected, 1 - spread, 1 + spread);
            Assert.InRange(density.SecondBandMean(band) / expected, 1 - spread, 1 + spread);
        }
    }

    [Fact]
    public void Coherence_InEveryThirdOctaveBand_IsThatOfTheIsotropicSurface()
    {
        var road = ClassC(3);
        var profile = road.ToProfile(Length, 0.1);
        var density = SpectralDensity.Of(profile.Left.AsSpan(), profile.Right.AsSpan(), 10, 16_384);
        foreach (var band in ThirdOctave.Within(0.013, 2.5))
        {
            // Over a band the spectra weigh γ with the density.
            var n = Enumerable.Range(0, 200).Select(i => band.Low + (band.Width * (i + 0.5) / 200)).ToArray();
            var gamma = n.Sum(x => road.Spectrum.Density(x) * road.Coherence.Gamma(x)) / n.Sum(road.Spectrum.Density);

            // Standard deviation of an estimated γ: (1 − γ²)/√(2 B L) for its real part (J. S. Bendat, A. G. Piersol, Random
            // Data, from memory).
            var spread = Deviations * (1 - (gamma * gamma)) / Math.Sqrt(2 * band.Width * Length);
            Assert.Equal(gamma, density.BandCoherence(band), spread + (0.5 * MethodError));
        }
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(1.0)]
    public void Coherence_OfNoneAndOfAll_IsMet(double gamma)
    {
        var profile = (ClassC() with { Coherence = TrackCoherence.Constant(gamma) }).ToProfile(10_000, 0.1);
        var density = SpectralDensity.Of(profile.Left.AsSpan(), profile.Right.AsSpan(), 10, 8192);
        if (gamma == 1)
            Assert.All(profile.Left.Zip(profile.Right), pair => Assert.Equal(pair.First, pair.Second, 1e-14)); // rounding of the transform
        else
            Assert.Equal(0, density.BandCoherence(new FrequencyBand(0.1, 0.5, 2)), Deviations / Math.Sqrt(2 * 1.9 * 10_000));
    }

    [Fact]
    public void Coherence_OfAGivenCurve_IsMet()
    {
        var coherence = TrackCoherence.Curve([0.05, 0.5], [0.9, 0.3]);
        var profile = (ClassC() with { Coherence = coherence }).ToProfile(Length, 0.1);
        var density = SpectralDensity.Of(profile.Left.AsSpan(), profile.Right.AsSpan(), 10, 16_384);

        // Below its first point the curve is held at 0.9, and above its last at 0.3.
        Assert.Equal(0.9, density.BandCoherence(new FrequencyBand(0.015, 0.03, 0.05)), (Deviations * 0.19 / Math.Sqrt(2 * 0.035 * Length)) + 0.015);
        Assert.Equal(0.3, density.BandCoherence(new FrequencyBand(0.6, 1, 2)), (Deviations * 0.91 / Math.Sqrt(2 * 1.4 * Length)) + 0.015);
    }

    [Fact]
    public void ContactLength_AveragesTheRoadOverTheContact()
    {
        var point = ClassC();
        var tyre = point with { ContactLength = 0.2 };
        var p = point.ToProfile(10_000, 0.1);
        var t = tyre.ToProfile(10_000, 0.1);
        foreach (var band in ThirdOctave.Within(0.1, 2.5))
        {
            // |sinc(n L)|² of the moving average; the two roads are made of the same random numbers, so little spread is left.
            var n = Enumerable.Range(0, 50).Select(i => band.Low + (band.Width * (i + 0.5) / 50)).ToArray();
            var expected = n.Sum(x => point.Spectrum.Density(x) * Math.Pow(Math.Sin(Math.PI * x * 0.2) / (Math.PI * x * 0.2), 2)) / n.Sum(point.Spectrum.Density);
            var ratio = SpectralDensity.Of(t.Left.AsSpan(), 10, 8192).BandMean(band) / SpectralDensity.Of(p.Left.AsSpan(), 10, 8192).BandMean(band);
            Assert.Equal(expected, ratio, 0.02);
        }
    }

    [Fact]
    public void Cursor_GivesTheSameRoad_HoweverItIsRead()
    {
        var road = ClassC();
        var forward = road.CreateCursor();
        var jumping = road.CreateCursor();
        double[] places = [30, 5000, 5000.01, 4999.5, 31, 60_000, 59_000, 2.5];
        var expected = places.Order().ToDictionary(x => x, forward.At);
        foreach (var place in places)
            Assert.Equal(expected[place], jumping.At(place));
    }

    [Fact]
    public void Cursor_NeverRepeatsItself()
    {
        // Blocks are about a kilometre: correlation of a stretch of 400 m with every later one. A repetition gives 1. Of stretches that have
        // nothing to do with each other it spreads about 0 by 1/√(2 B L), with the width B = (∫G)²/∫G² = 0.28 cycle/m of a density that falls as
        // n⁻² from 0.1 to 2.83 cycle/m: 0.067. Of some 10 000 such stretches none departs by 5.5 times that but by a chance of 1 in 2000.
        const double Low = 0.1, High = 2.83, Stretch = 400;
        var width = Math.Pow((1 / Low) - (1 / High), 2) / ((Math.Pow(Low, -3) - Math.Pow(High, -3)) / 3);
        var largest = 5.5 / Math.Sqrt(2 * width * Stretch);
        var road = ClassC() with { Spectrum = RoughnessSpectrum.Of(RoadClass.C) with { LowestWavenumber = 0.1 } };
        var profile = road.ToProfile(20_000, 0.25).Left;
        var first = profile.AsSpan(0, 1600).ToArray();
        var power = first.Sum(z => z * z);
        for (var lag = 400; lag + 1600 < profile.Length; lag += 3)
        {
            double product = 0, other = 0;
            for (var i = 0; i < 1600; i++)
            {
                product += first[i] * profile[i + lag];
                other += profile[i + lag] * profile[i + lag];
            }

            Assert.InRange(product / Math.Sqrt(power * other), -largest, largest);
        }
    }

    [Fact]
    public void Cursor_IsSmooth_AcrossSamplesAndBlocks()
    {
        // The slope is the derivative of the elevation, and itself continuous with a continuous derivative: central differences
        // over 2e-4 m agree to the third derivative times h²/6, some 1e-6 m/m here.
        var cursor = ClassC().CreateCursor();
        const double H = 1e-4;
        for (var x = 25.0; x < 1500; x += 0.0317)
        {
            var (before, at, after) = (cursor.At(x - H), cursor.At(x), cursor.At(x + H));
            Assert.Equal((after.Left - before.Left) / (2 * H), at.LeftRate, 2e-6);
            Assert.Equal((after.Right - before.Right) / (2 * H), at.RightRate, 2e-6);
            Assert.Equal(at.LeftRate - before.LeftRate, after.LeftRate - at.LeftRate, 2e-5);
        }
    }

    [Fact]
    public void LeadIn_StartsFlatAndLevel()
    {
        var cursor = ClassC().CreateCursor();
        Assert.Equal(default, cursor.At(0));
        Assert.Equal(default, cursor.At(-5));
        var little = cursor.At(1e-3);
        Assert.Equal(0, little.Left, 1e-8);
        Assert.Equal(0, little.LeftRate, 1e-5);
    }

    [Fact]
    public void Seeds_GiveRoadsThatHaveNothingToDoWithEachOther()
    {
        var a = ClassC(1).ToProfile(20_000, 0.25).Left;
        var b = ClassC(2).ToProfile(20_000, 0.25).Left;
        var density = SpectralDensity.Of(a.AsSpan(), b.AsSpan(), 4, 4096);

        // Over the band γ is weighed with the density, which falls as n⁻²: what counts of its width is (∫G)²/∫G² = 0.26 cycle/m.
        const double Low = 0.1, High = 1.5;
        var width = Math.Pow((1 / Low) - (1 / High), 2) / ((Math.Pow(Low, -3) - Math.Pow(High, -3)) / 3);
        Assert.Equal(0, density.BandCoherence(new FrequencyBand(Low, 0.5, High)), Deviations / Math.Sqrt(2 * width * 20_000));
    }

    [Fact]
    public void Reading_AllocatesNothingWithinABlock()
    {
        var cursor = ClassC().CreateCursor();
        cursor.At(100);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var x = 100.0; x < 400; x += 0.1) cursor.At(x);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    [Theory]
    [InlineData(3, 2.83)]
    [InlineData(2.83, 2.83)]
    [InlineData(1, 1.005)]
    public void ABandThatIsEmptyOrAlmost_IsRefused(double low, double high) =>
        Assert.Throws<ArgumentException>(() => ClassC() with
        {
            Spectrum = RoughnessSpectrum.Of(RoadClass.C) with { LowestWavenumber = low, HighestWavenumber = high },
        });

    [Theory]
    [InlineData(1.00, 1.02)]
    [InlineData(0.47, 1.00)]
    [InlineData(0.011, 2.83)]
    public void MeanSquare_OfAnyBand_IsThatOfTheSpectrum(double low, double high)
    {
        // The road is a sum of independent blocks, so its mean square is known but for chance; half a bin at the lower end of the second
        // band would be 4 %. Independent values: of a band B over L, at least B·L, weighed with the slope of 2 some low·L.
        const double Stretch = 200_000;
        var spectrum = RoughnessSpectrum.Of(RoadClass.E) with { LowestWavenumber = low, HighestWavenumber = high };
        var profile = (ClassC(5) with { Spectrum = spectrum }).ToProfile(Stretch, 0.4 / high);
        var meanSquare = profile.Left.Concat(profile.Right).Average(z => z * z);
        var independent = Math.Min(high - low, low) * Stretch;
        Assert.Equal(1, meanSquare / spectrum.MeanSquare(low, high), Deviations / Math.Sqrt(independent));
        if (low == 0.47) Assert.InRange(Deviations / Math.Sqrt(independent), 0, 0.02);
    }

    [Fact]
    public void ToProfile_WithAStepTooWideForTheShortestWaves_LeavesThemOut()
    {
        // Waves of 0.5 to 1 m alone, sampled every 2 m: taken as they come they would show in full strength as waves of 4 m and more.
        var road = ClassC() with { Spectrum = RoughnessSpectrum.Of(RoadClass.C) with { LowestWavenumber = 1, HighestWavenumber = 2 } };
        var profile = road.ToProfile(4000, 2);
        Assert.Equal((2, 2001), (profile.Step, profile.Count));
        Assert.InRange(profile.Left.Average(z => z * z) / road.Spectrum.MeanSquare(1, 2), 0, 1e-3);
    }
}
