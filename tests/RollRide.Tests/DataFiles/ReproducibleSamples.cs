using System.Globalization;
using CsCheck;

namespace RollRide.Tests.DataFiles;

/// <summary>Checks a property on the same samples in every run.</summary>
internal static class ReproducibleSamples
{
    // Gen.Sample takes its seed for the first sample only, and the others from the clock.
    private static PCG FixedSource => new(stream: 1, seed: 20_260_101);

    public static void SampleSame<T>(this Gen<T> generator, int count, Action<T> check)
    {
        var source = FixedSource;
        for (var i = 0; i < count; i++)
        {
            var sample = generator.Generate(source, null, out _);
            try
            {
                check(sample);
            }
            catch (Exception e)
            {
                throw new InvalidOperationException(
                    string.Create(CultureInfo.InvariantCulture, $"Sample {i} of {count} fails: {Check.Print(sample)}"), e);
            }
        }
    }
}
