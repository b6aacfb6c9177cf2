using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Vertical vibration as a seated person feels it, by ISO 2631-1:1997 with the weighting Wk.</summary>
/// <param name="WeightedRms">Weighted root-mean-square acceleration <c>aw</c>, m/s².</param>
/// <param name="VibrationDoseValue">Fourth-power vibration dose value, m/s^1.75.</param>
/// <param name="CrestFactor">Largest weighted acceleration over <paramref name="WeightedRms"/>; null where nothing vibrates.</param>
public sealed record Comfort(double WeightedRms, double VibrationDoseValue, double? CrestFactor);

/// <summary>What was gathered of one weighted acceleration, sampled at a fixed rate, over a span of time.</summary>
/// <param name="Count">Number of samples.</param>
/// <param name="Squares">Sum of their squares, m²/s⁴.</param>
/// <param name="Fourths">Sum of their fourth powers, m⁴/s⁸.</param>
/// <param name="Peak">The largest of them by size, m/s².</param>
internal readonly record struct ComfortTally(double Count, double Squares, double Fourths, double Peak)
{
    /// <summary>With what was gathered over another span of time.</summary>
    public ComfortTally With(in ComfortTally other) =>
        new(Count + other.Count, Squares + other.Squares, Fourths + other.Fourths, Math.Max(Peak, other.Peak));

    /// <summary>The measures of it.</summary>
    /// <param name="rate">Sampling rate, Hz.</param>
    public Comfort ToComfort(double rate)
    {
        var rms = Count == 0 ? 0 : Math.Sqrt(Squares / Count);
        return new Comfort(rms, Math.Pow(Fourths / rate, 0.25), rms > 0 ? Peak / rms : null);
    }
}

/// <summary>Gathers one weighted acceleration in each lane. Not thread-safe.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class ComfortSums<T>
    where T : struct, ILanes<T>
{
    private const int Squares = 0, Fourths = 1, Peak = 2;

    private readonly LaneBuffer<T> _sums = new(3);

    /// <summary>Adds a sample, which is zero in lanes that have none.</summary>
    /// <param name="weighted">The sample, m/s².</param>
    public void Add(in T weighted)
    {
        var square = weighted * weighted;
        _sums[Squares] += square;
        _sums[Fourths] += square * square;
        _sums[Peak] = T.Max(_sums[Peak], T.Abs(weighted));
    }

    /// <summary>Takes what a lane has gathered, and starts the lane again from nothing.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="count">Number of samples it has had.</param>
    public ComfortTally Take(int lane, double count)
    {
        var taken = new ComfortTally(count, _sums[Squares, lane], _sums[Fourths, lane], _sums[Peak, lane]);
        for (var i = 0; i < _sums.Length; i++)
            _sums[i, lane] = 0;
        return taken;
    }
}
