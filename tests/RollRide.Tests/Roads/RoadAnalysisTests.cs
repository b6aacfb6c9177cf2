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

        // Twenty-odd bands, of which the widest hold thousands of values: the line is good to some 4 % in level and 0.02 in slope.
        Assert.Equal(1, analysis.ReferenceDensity / spectrum.ReferenceDensity, 0.1);
        Assert.Equal(waviness, analysis.Waviness, 0.06);
        Assert.Equal(roadClass, analysis.Class);
        Assert.True(analysis.MeanProfileIndex < analysis.MeanIndex, "averaging two tracks that differ takes roughness away");
        Assert.InRange(analysis.FitDeviationDb, 0, 1);
    }

    [Fact]
    public void WavesThatAProfileIsTooShortToResolve_AreLeftOut()
    {
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.5), Seed = 1 };
        Assert.True(RoadAnalysis.Of(road.ToProfile(500, 0.1)).Bands[0].Low > 0.011);
    }

    [Theory]
    [InlineData(60, true)]
    [InlineData(2000, false)]
    public void ClassOfAProfileTooShortForTenMetres_IsCalledExtrapolated(double length, bool extrapolated)
    {
        var road = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.5), Seed = 1 };
        var analysis = RoadAnalysis.Of(road.ToProfile(length, 0.1));
        Assert.Equal(extrapolated, analysis.Bands[0].Low > 0.1);
        Assert.Equal(extrapolated, RollRide.Studies.RoadConclusions.Of(analysis).Any(sentence => sentence.Contains("extrapolated", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData(127, true)]
    [InlineData(128, false)]
    public void TheFewestSamples_AreThoseThatTheMessageNames(int count, bool tooFew)
    {
        double[] track = [.. Enumerable.Range(0, count).Select(i => Math.Sin(i * i))];
        var fault = Record.Exception(() => RoadAnalysis.Of(new RoadProfile(0.1, track, track)));
        Assert.Equal(tooFew, fault is ArgumentException { Message: var message } && message.Contains("128 are the least", StringComparison.Ordinal));
    }

    [Fact]
    public void AFlatProfile_IsRefused() =>
        Assert.Throws<ArgumentException>(() => RoadAnalysis.Of(new RoadProfile(0.1, new double[5000], new double[5000])));
}
