using System.Numerics;
using MathNet.Numerics.IntegralTransforms;
using MathNet.Numerics.Random;
using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class RoadAnalysisTests
{
    [Theory]
    [InlineData(RoadClass.A, 2.0)]
    [InlineData(RoadClass.D, 2.0)]
    [InlineData(RoadClass.C, 2.4)]
    public void Fit_RecoversTheLineTheRoadWasMadeFrom(RoadClass roadClass, double waviness)
    {
        var spectrum = RoughnessSpectrum.Of(roadClass) with { Waviness = waviness };
        var road = new RandomRoad { Spectrum = spectrum, Coherence = TrackCoherence.Isotropic(1.5), Seed = 11 };
        var analysis = RoadAnalysis.Of(road.ToProfile(10_000, 0.1));
        var found = analysis.Spectrum!;

        // Twenty-odd bands, of which the widest hold thousands of values: the line is good to some 4 % in level and 0.02 in slope.
        Assert.Equal(1, found.ReferenceDensity / spectrum.ReferenceDensity, 0.1);
        Assert.Equal(waviness, found.Waviness, 0.06);
        Assert.Equal(roadClass, found.Class);
        Assert.True(analysis.MeanProfileIndex < analysis.MeanIndex, "averaging two tracks that differ takes roughness away");
        Assert.InRange(found.FitDeviationDb, 0, 1);
    }

    [Fact]
    public void WavesThatAProfileIsTooShortToResolve_AreLeftOut()
    {
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.5), Seed = 1 };
        Assert.True(RoadAnalysis.Of(road.ToProfile(500, 0.1)).Spectrum!.Bands[0].Low > 0.011);
    }

    [Theory]
    [InlineData(60, true)]
    [InlineData(2000, false)]
    public void ClassOfAProfileTooShortForTenMetres_IsCalledExtrapolated(double length, bool extrapolated)
    {
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.5), Seed = 1 };
        var analysis = RoadAnalysis.Of(road.ToProfile(length, 0.1));
        Assert.Equal(extrapolated, analysis.Spectrum!.Bands[0].Low > 0.1);
        Assert.Equal(extrapolated, RollRide.Findings.RoadConclusions.Of(analysis).Any(sentence => sentence.Contains("extrapolated", StringComparison.Ordinal)));
    }

    [Fact] // The index needs 11 m and no spectrum.
    public void AProfileTooShortForASpectrum_HasItsIndexAndNoClass()
    {
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.5), Seed = 1 };
        var profile = road.ToProfile(30, 0.1);
        var analysis = RoadAnalysis.Of(profile);
        Assert.Null(analysis.Spectrum);
        Assert.Contains("fewer than five third-octave bands", analysis.WhyNoSpectrum, StringComparison.Ordinal);
        Assert.Equal(RoughnessIndex.Of(profile.Left, profile.Step), analysis.LeftIndex);
        Assert.Equal(RoughnessIndex.Of(profile.Right, profile.Step), analysis.RightIndex);
    }

    [Theory]
    [InlineData(127, true)]
    [InlineData(128, false)]
    public void TheFewestSamples_AreThoseThatTheReasonNames(int count, bool tooFew)
    {
        double[] track = [.. Enumerable.Range(0, count).Select(i => Math.Sin(i * i))];
        Assert.Equal(tooFew, RoadAnalysis.Of(new RoadProfile(0.1, track, track)).WhyNoSpectrum!.Contains("128 are the least", StringComparison.Ordinal));
    }

    [Fact]
    public void ClassDensity_OfRoadsOfKnownDensity_IsThatDensity()
    {
        const double Density = 64e-6;
        var found = Enumerable.Range(0, 3).Select(seed =>
            RoadAnalysis.Of(new RoadProfile(0.1, KnownTrack(Density, 2 * seed), KnownTrack(Density, (2 * seed) + 1))).Spectrum!).ToArray();

        // What is left of the window's spreading is 0.05 %; the sines' beats leave some 0.3 % a track, and here are six.
        Assert.Equal(1, found.Average(spectrum => spectrum.ClassDensity) / Density, 0.003);
        Assert.Equal(2, found.Average(spectrum => spectrum.Waviness), 0.005);
    }

    /// <summary>
    /// A track of waviness 2 of which each wave has the very amplitude of its density, and a random phase: a sine on every 1/13.1 km. So the
    /// density is known without chance.
    /// </summary>
    private static double[] KnownTrack(double density, int seed)
    {
        const int Samples = 1 << 17;
        const double Length = Samples * 0.1, Lowest = 0.002, Highest = 2.9;
        var random = new MersenneTwister(seed, false);
        var waves = new Complex[Samples];
        for (var k = (int)(Lowest * Length); k < Highest * Length; k++)
        {
            // A line of width 1/L holds G/L, and a sine of amplitude a holds a²/2.
            var amplitude = Math.Sqrt(2 * density * Math.Pow(k / Length / 0.1, -2) / Length);
            waves[k] = Complex.FromPolarCoordinates(0.5 * amplitude, 2 * Math.PI * random.NextDouble());
            waves[Samples - k] = Complex.Conjugate(waves[k]);
        }

        Fourier.Inverse(waves, FourierOptions.NoScaling);
        return [.. waves.Select(z => z.Real)];
    }

    [Fact]
    public void AFlatProfile_IsRefused() =>
        Assert.Throws<ArgumentException>(() => RoadAnalysis.Of(new RoadProfile(0.1, new double[5000], new double[5000])));
}
