namespace RollRide.Metrics;

/// <summary>The measures of ISO 2631-1:1997 of one weighted acceleration (definitions from memory of clause 6).</summary>
/// <param name="Rms">Weighted root mean square <c>aw</c>, m/s² or rad/s².</param>
/// <param name="Peak">Largest weighted acceleration.</param>
/// <param name="MaximumTransient">Largest running root mean square over 1 s: the maximum transient vibration value, MTVV.</param>
/// <param name="DoseValue">Fourth-power vibration dose value, m/s^1.75.</param>
/// <param name="Duration">Time measured, s.</param>
public sealed record VibrationMeasures(double Rms, double Peak, double MaximumTransient, double DoseValue, double Duration)
{
    /// <summary>Peak over root mean square; null where nothing vibrates. Up to 9 the basic method usually suffices.</summary>
    public double? CrestFactor => Rms > 0 ? Peak / Rms : null;

    /// <summary>
    /// Whether the root mean square alone underrates the vibration: <c>MTVV/aw &gt; 1.5</c> or <c>VDV/(aw T^¼) &gt; 1.75</c>.
    /// </summary>
    public bool NeedsAdditionalMeasures =>
        Rms > 0 && (MaximumTransient > 1.5 * Rms || DoseValue > 1.75 * Rms * Math.Pow(Duration, 0.25));
}

/// <summary>Takes the <see cref="VibrationMeasures"/> of an acceleration that is weighted already.</summary>
internal sealed class VibrationAccumulator(double rate)
{
    private const double RunningTime = 1;

    private readonly double[] _recentSquares = new double[Math.Max(1, (int)Math.Round(RunningTime * rate))];
    private int _at;
    private long _count;
    private double _running;
    private double _largestRunning;
    private double _squares;
    private double _fourths;
    private double _peak;

    /// <summary>Adds a sample.</summary>
    public void Add(double weighted)
    {
        var square = weighted * weighted;
        _count++;
        _squares += square;
        _fourths += square * square;
        _peak = Math.Max(_peak, Math.Abs(weighted));
        _running += square - _recentSquares[_at];
        _recentSquares[_at] = square;
        if (++_at == _recentSquares.Length)
        {
            // Anew once a round, so that the rounding of the running sum does not gather.
            (_at, _running) = (0, _recentSquares.Sum());
        }

        _largestRunning = Math.Max(_largestRunning, _running);
    }

    /// <summary>The measures so far. Before one second the running value counts what is missing as rest.</summary>
    public VibrationMeasures ToMeasures() => new(
        _count == 0 ? 0 : Math.Sqrt(_squares / _count),
        _peak,
        Math.Sqrt(_largestRunning / _recentSquares.Length),
        Math.Pow(_fourths / rate, 0.25),
        _count / rate);
}
