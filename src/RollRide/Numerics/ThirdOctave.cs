using System.Collections.Immutable;

namespace RollRide.Numerics;

/// <summary>Third-octave bands with the exact centres <c>10^(k/10)</c> (base ten, IEC 61260-1, from memory).</summary>
public static class ThirdOctave
{
    private static readonly double HalfBand = Math.Pow(10, 0.05);

    /// <summary>The bands that lie wholly within a range of frequency.</summary>
    /// <param name="low">Lower end of the range (Hz or cycle/m), above 0.</param>
    /// <param name="high">Upper end, above the lower.</param>
    public static ImmutableArray<FrequencyBand> Within(double low, double high)
    {
        Require.Positive(low);
        Require.Positive(high);
        var bands = ImmutableArray.CreateBuilder<FrequencyBand>();
        for (var k = (int)Math.Floor(10 * Math.Log10(low)); ; k++)
        {
            var centre = Math.Pow(10, k / 10.0);
            var band = new FrequencyBand(centre / HalfBand, centre, centre * HalfBand);
            if (band.High > high * (1 + 1e-9)) return bands.ToImmutable();
            if (band.Low >= low * (1 - 1e-9)) bands.Add(band);
        }
    }
}

/// <summary>A band of frequency.</summary>
/// <param name="Low">Lower end (Hz or cycle/m).</param>
/// <param name="Centre">Geometric centre.</param>
/// <param name="High">Upper end.</param>
public readonly record struct FrequencyBand(double Low, double Centre, double High)
{
    /// <summary>Width (Hz or cycle/m).</summary>
    public double Width => High - Low;
}
