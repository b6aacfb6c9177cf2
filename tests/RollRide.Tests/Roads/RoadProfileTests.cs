using RollRide.Results;
using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class RoadProfileTests
{
    private static RoadProfile Profile(double step, int count, Func<double, double> elevation) =>
        new(step, [.. Enumerable.Range(0, count).Select(i => elevation(i * step))], [.. Enumerable.Range(0, count).Select(i => -elevation(i * step))]);

    [Fact]
    public void Resampled_ToAFinerSpacing_FollowsASmoothProfile()
    {
        var profile = Profile(0.25, 800, x => 0.02 * Math.Sin(2 * Math.PI * x / 5) + (0.01 * x)).Resampled(0.1);
        for (var i = 200; i < profile.Count - 200; i++)
        {
            var x = profile.Distance(i);

            // Twenty samples a wave and twelve lobes of Lanczos: some 1e-4 of the wave's 20 mm.
            Assert.Equal((0.02 * Math.Sin(2 * Math.PI * x / 5)) + (0.01 * x), profile.Left[i], 1e-5);
        }
    }

    [Fact]
    public void Resampled_ToACoarserSpacing_ShowsNoFalseWave()
    {
        // Waves of 0.3 m read every 0.25 m would pass for waves of 1.5 m.
        var fine = Profile(0.05, 4000, x => 0.01 * Math.Sin(2 * Math.PI * x / 0.3));
        var coarse = fine.Resampled(0.25);
        var middle = coarse.Left.AsSpan(50, coarse.Count - 100).ToArray();
        Assert.True(middle.Max(Math.Abs) < 1e-4, $"{middle.Max(Math.Abs)} m of 0.01 m is left"); // 40 dB down

        // What the coarse spacing can show stays.
        var slow = Profile(0.05, 4000, x => 0.01 * Math.Sin(2 * Math.PI * x / 2)).Resampled(0.25);
        for (var i = 50; i < slow.Count - 50; i++)
            Assert.Equal(0.01 * Math.Sin(2 * Math.PI * slow.Distance(i) / 2), slow.Left[i], 1e-4);
    }

    [Fact]
    public void Detrended_TakesOffLevelAndGradient_AndNothingElse()
    {
        var wave = Profile(0.1, 1001, x => 0.02 * Math.Cos(2 * Math.PI * x / 10));
        var tilted = Profile(0.1, 1001, x => (0.02 * Math.Cos(2 * Math.PI * x / 10)) + 3 + (0.05 * x));
        var (a, b) = (wave.Detrended(), tilted.Detrended());
        for (var i = 0; i < a.Count; i++) Assert.Equal(a.Left[i], b.Left[i], 1e-12);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.13)]
    [InlineData(0.5)]
    public void Enveloped_IsTheMovingAverageOfTheTyre(double contact)
    {
        var profile = Profile(0.01, 2001, x => 0.01 * Math.Sin(2 * Math.PI * x / 1)).Enveloped(contact);
        var gain = Math.Sin(Math.PI * contact) / (Math.PI * contact);
        for (var i = 100; i < 1900; i++)
        {
            // Straight lines between samples 100 to a wave: 1 − sinc² = 3e-4 of the wave.
            Assert.Equal(0.01 * gain * Math.Sin(2 * Math.PI * profile.Distance(i)), profile.Left[i], 4e-6);
        }
    }

    [Fact]
    public void Enveloped_LeavesAStraightGradientAlone()
    {
        var slope = Profile(0.1, 200, x => 0.04 * x);
        var enveloped = slope.Enveloped(0.35);
        for (var i = 0; i < slope.Count; i++) Assert.Equal(slope.Left[i], enveloped.Left[i], 1e-14);
    }

    [Fact]
    public void LargestDeparture_OfMillimetresTakenForMetres_TellsThem() =>
        Assert.Equal(50, Profile(0.1, 2001, x => 50 * Math.Cos(2 * Math.PI * x / 10)).LargestDeparture, 1.0);

    [Fact]
    public void ToRoad_StartsAtZeroAndKeepsTheShape()
    {
        var profile = Profile(0.1, 100, x => 0.3 + (0.01 * Math.Sin(x)));
        var road = profile.ToRoad(10);
        Assert.Equal(0, road.Left.Value(0));
        Assert.Equal(profile.Left[40] - 0.3, road.Left.Value(4), 1e-12);
        Assert.Equal(2, road.Left.Breakpoints.Length);
    }

    [Fact]
    public void BadSamples_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => new RoadProfile(0.1, [0, 1], [0, 1]));
        Assert.Throws<ArgumentException>(() => new RoadProfile(0.1, [0, 1, 2], [0, 1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoadProfile(0.1, [0, double.NaN, 2], [0, 1, 2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoadProfile(0, [0, 1, 2], [0, 1, 2]));
    }

    [Fact]
    public void Written_HasEverySampleFromTheFirstInMillimetres()
    {
        using var output = new StringWriter { NewLine = "\n" };
        RoadTables.WriteProfile(output, new RoadProfile(0.25, [0.011, -0.02, 0.03], [0.004, 0.005, -0.006]));
        Assert.Equal("distance_m,left_mm,right_mm\n0,11,4\n0.25,-20,5\n0.5,30,-6\n", output.ToString());
    }
}
