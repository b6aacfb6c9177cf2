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
    public void UniformAt_of_the_largest_number_stays_below_one()
    {
        // The mixer can be undone; the seed that gives all ones as its first number follows. With 53 bits it would round up to 1.
        const ulong AllOnes = ulong.MaxValue, Gamma = 0x9E3779B97F4A7C15;
        var seed = unchecked(Unmixed(AllOnes) - Gamma);
        Assert.Equal(AllOnes, SplitMix64.At(seed, 0));
        Assert.InRange(SplitMix64.UniformAt(seed, 0), 0.999, Math.BitDecrement(1.0));
    }

    private static ulong Unmixed(ulong z)
    {
        static ulong UndoShift(ulong y, int shift)
        {
            var x = y;
            for (var known = shift; known < 64; known += shift) x = y ^ (x >> shift);
            return x;
        }

        // Newton's iteration for the inverse of an odd number modulo 2^64 doubles the correct bits, from three.
        static ulong Inverse(ulong a)
        {
            var x = a;
            for (var i = 0; i < 5; i++) x = unchecked(x * (2 - (a * x)));
            return x;
        }

        z = UndoShift(z, 31);
        z = UndoShift(unchecked(z * Inverse(0x94D049BB133111EB)), 27);
        return UndoShift(unchecked(z * Inverse(0xBF58476D1CE4E5B9)), 30);
    }

    [Fact]
    public void Stream_differs_by_seed_and_number()
    {
        var seeds = from seed in Enumerable.Range(-2, 5) from stream in Enumerable.Range(0, 5) select SplitMix64.Stream(seed, stream);
        Assert.Equal(25, seeds.Distinct().Count());
    }
}
