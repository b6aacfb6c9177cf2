using System.Globalization;
using CsCheck;

namespace RollRide.Tests;

/// <summary>The same random cases in every run. (A seed given to CsCheck's own sampling fixes its first case only.)</summary>
internal static class FixedSamples
{
    /// <summary>The first cases of a generator from a fixed seed.</summary>
    public static IEnumerable<T> Samples<T>(this Gen<T> gen, int count)
    {
        var random = new PCG(1, 20_260_101);
        for (int i = 0; i < count; i++)
            yield return gen.Generate(random, null, out _);
    }

    /// <summary>Checks a property on the first cases of a generator; a failure shows its case.</summary>
    public static void SampleSame<T>(this Gen<T> gen, int count, Action<T> check)
    {
        foreach (var sample in gen.Samples(count))
        {
            try
            {
                check(sample);
            }
            catch (Exception e)
            {
                throw new InvalidOperationException(
                    string.Create(CultureInfo.InvariantCulture, $"This sample fails: {Check.Print(sample)}"), e);
            }
        }
    }

    /// <summary>Checks that a condition holds for the first cases of a generator; a failure shows its case.</summary>
    public static void SampleSame<T>(this Gen<T> gen, int count, Func<T, bool> holds) => gen.SampleSame(count, (T sample) => Assert.True(holds(sample)));
}
