using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public class SplitMix64Tests
{
    [Fact]
    public void At_gives_the_published_first_numbers()
    {
        // The generator's usual test vector for seed 1234567, from memory.
        ulong[] published = [6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821];
        Assert.Equal(published, Enumerable.Range(0, 5).Select(i => SplitMix64.At(1234567, (ulong)i)));
    }

    [Fact]
    public void UniformAt_stays_inside_and_fills_the_unit_interval_evenly()
    {
        double[] values = [.. Enumerable.Range(0, 10_000).Select(i => SplitMix64.UniformAt(SplitMix64.Stream(1, 3), (ulong)i))];

        Assert.All(values, value => Assert.True(value is > 0 and < 1));
        // A tenth each, give or take four standard deviations of a binomial count: 4·√(10000·0.1·0.9) = 120.
        for (var tenth = 0; tenth < 10; tenth++)
            Assert.InRange(values.Count(value => (int)(10 * value) == tenth), 880, 1120);
    }

    [Fact]
    public void Stream_differs_by_seed_and_number()
    {
        var seeds = from seed in Enumerable.Range(-2, 5) from stream in Enumerable.Range(0, 5) select SplitMix64.Stream(seed, stream);
        Assert.Equal(25, seeds.Distinct().Count());
    }
}
