namespace RollRide.Metrics;

/// <summary>Vertical vibration as a seated person feels it, by ISO 2631-1:1997 with the weighting Wk.</summary>
/// <param name="WeightedRms">Weighted root-mean-square acceleration <c>aw</c>, m/s².</param>
/// <param name="VibrationDoseValue">Fourth-power vibration dose value, m/s^1.75.</param>
/// <param name="CrestFactor">Largest weighted acceleration over <paramref name="WeightedRms"/>; null where nothing vibrates.</param>
public sealed record Comfort(double WeightedRms, double VibrationDoseValue, double? CrestFactor);

/// <summary>Gathers the measures of one weighted acceleration, sampled at a fixed rate, over a span of time.</summary>
internal struct ComfortAccumulator(double rate)
{
    private long _count;
    private double _squares;
    private double _fourths;
    private double _peak;

    /// <summary>Adds a sample, m/s².</summary>
    public void Add(double weighted)
    {
        _count++;
        var square = weighted * weighted;
        _squares += square;
        _fourths += square * square;
        _peak = Math.Max(_peak, Math.Abs(weighted));
    }

    /// <summary>Adds what was gathered over another span of time.</summary>
    public void Merge(in ComfortAccumulator other)
    {
        _count += other._count;
        _squares += other._squares;
        _fourths += other._fourths;
        _peak = Math.Max(_peak, other._peak);
    }

    /// <summary>The measures so far.</summary>
    public readonly Comfort ToComfort()
    {
        var rms = _count == 0 ? 0 : Math.Sqrt(_squares / _count);
        return new Comfort(rms, Math.Pow(_fourths / rate, 0.25), rms > 0 ? _peak / rms : null);
    }
}
