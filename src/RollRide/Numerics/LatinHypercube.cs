namespace RollRide.Numerics;

/// <summary>
/// A Latin hypercube: as many points as strata, and in every coordinate one point in each stratum (McKay, Beckman and Conover 1979).
/// </summary>
/// <remarks>Immutable and thread-safe; keeps one whole number a point and dimension.</remarks>
public sealed class LatinHypercube
{
    private readonly int[][] _strata;
    private readonly ulong[] _seeds;

    /// <summary>Draws a hypercube.</summary>
    /// <param name="count">The number of points, at least 1.</param>
    /// <param name="dimensions">The number of coordinates, at least 1.</param>
    /// <param name="seed">Seed of the random order and places.</param>
    public LatinHypercube(int count, int dimensions, int seed)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(dimensions, 1);
        _seeds = [.. Enumerable.Range(0, dimensions).Select(d => SplitMix64.Stream(seed, 2 * d))];
        _strata = [.. Enumerable.Range(0, dimensions).Select(d => Shuffled(count, SplitMix64.Stream(seed, (2 * d) + 1)))];
    }

    /// <summary>The number of points.</summary>
    public int Count => _strata[0].Length;

    /// <summary>Gives a point.</summary>
    /// <param name="index">Which, from 0.</param>
    /// <param name="point">Takes its coordinates, between 0 and 1, both excluded.</param>
    public void Point(int index, Span<double> point)
    {
        for (var d = 0; d < _strata.Length; d++)
        {
            // Beside a large stratum the last bits of the place within it are lost: it could round up to the end.
            var place = (_strata[d][index] + SplitMix64.UniformAt(_seeds[d], (ulong)index)) / Count;
            point[d] = Math.Min(place, Math.BitDecrement(1.0));
        }
    }

    /// <summary>Fisher and Yates's shuffle, in Durstenfeld's form.</summary>
    private static int[] Shuffled(int count, ulong seed)
    {
        var order = Enumerable.Range(0, count).ToArray();
        for (var i = count - 1; i > 0; i--)
        {
            var j = (int)(SplitMix64.UniformAt(seed, (ulong)i) * (i + 1));
            (order[i], order[j]) = (order[j], order[i]);
        }

        return order;
    }
}
