using RollRide.Live.Answers;
using RollRide.Numerics;

namespace RollRide.Tests.Live.Answers;

public class ThinnedTests
{
    [Theory]
    [InlineData(2)]
    [InlineData(400)]
    [InlineData(401)]
    [InlineData(8001)]
    [InlineData(240_001)]
    public void A_channel_of_any_length_has_few_enough_points(int count)
    {
        var drawn = Thinned.Of(new double[count], Unit.One, 3);
        Assert.InRange(drawn.Length, Math.Min(count, 200), 400);
        Assert.True((drawn.Length - 1) * Thinned.Stride(count) <= count - 1);
    }

    [Fact]
    public void A_short_channel_is_drawn_as_it_is() => Assert.Equal([0, 1.5, -2], Thinned.Of([0, 1.5, -2], Unit.One, 3));

    // A ramp with one needle of a single sample: the ramp is drawn at its own places, and the needle with its own height.
    [Fact]
    public void A_needle_keeps_its_height_and_a_ramp_its_place()
    {
        double[] samples = [.. Enumerable.Range(0, 6001).Select(i => (double)i)];
        samples[3333] = 1e6;
        var drawn = Thinned.Of(samples, Unit.One, 3);
        var stride = Thinned.Stride(samples.Length);
        Assert.Equal(1e6, drawn.Max());
        var needle = Array.IndexOf(drawn, 1e6);
        Assert.InRange(needle * stride, 3333 - stride, 3333 + stride);
        for (var i = 0; i < drawn.Length; i++)
            Assert.Equal(i == needle ? 1e6 : i * stride, drawn[i]);
    }
}
