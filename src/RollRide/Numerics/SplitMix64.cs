namespace RollRide.Numerics;

/// <summary>Random numbers that are the same on every machine and in every version: the generator SplitMix64.</summary>
/// <remarks>
/// Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014 (constants from memory, checked against published
/// first values). Any number of a stream can be had at once, so samples do not depend on the order in which they are drawn.
/// </remarks>
public static class SplitMix64
{
    private const ulong GoldenGamma = 0x9E3779B97F4A7C15;

    /// <summary>A number of a stream, all 64 bits random.</summary>
    /// <param name="seed">The stream.</param>
    /// <param name="index">The number's place in it, from 0.</param>
    public static ulong At(ulong seed, ulong index) => Mix(unchecked(seed + ((index + 1) * GoldenGamma)));

    /// <summary>
    /// A number of a stream, evenly distributed between 0 and 1, both excluded: of 52 bits, since with one more the half added to
    /// the largest would round up to 1.
    /// </summary>
    /// <param name="seed">The stream.</param>
    /// <param name="index">The number's place in it, from 0.</param>
    public static double UniformAt(ulong seed, ulong index) => ((At(seed, index) >> 12) + 0.5) / (1UL << 52);

    /// <summary>The seed of one of several independent streams.</summary>
    /// <param name="seed">The user's seed.</param>
    /// <param name="stream">Which stream.</param>
    public static ulong Stream(int seed, int stream) => At(At((ulong)(uint)seed, 0), (ulong)(uint)stream);

    private static ulong Mix(ulong z)
    {
        unchecked
        {
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }
}
