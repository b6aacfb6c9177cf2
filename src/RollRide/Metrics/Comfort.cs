namespace RollRide.Metrics;

/// <summary>Vertical vibration as a seated person feels it, by ISO 2631-1:1997 with the weighting Wk.</summary>
/// <param name="WeightedRms">Weighted root-mean-square acceleration <c>aw</c>, m/s².</param>
/// <param name="VibrationDoseValue">Fourth-power vibration dose value, m/s^1.75.</param>
/// <param name="CrestFactor">Largest weighted acceleration over <paramref name="WeightedRms"/>; null where nothing vibrates.</param>
public sealed record Comfort(double WeightedRms, double VibrationDoseValue, double? CrestFactor);

/// <summary>Weights an acceleration over a whole run and gathers its measures over one phase.</summary>
internal sealed class ComfortAccumulator : IAccumulator
{
    // Fixed, so that the figures do not depend on the rate at which a user asks for output.
    private const double Rate = 1000;

    private readonly Quantity _acceleration;
    private readonly double _start;
    private readonly double _end;
    private readonly WeightingFilter _filter = FrequencyWeighting.Wk.CreateFilter(Rate);
    private long _next;
    private long _count;
    private double _squares;
    private double _fourths;
    private double _peak;

    public ComfortAccumulator(Quantity acceleration, double start, double end)
    {
        _acceleration = acceleration;
        _start = start;
        _end = end;
    }

    public void Add(StepSamples step)
    {
        for (; _next / Rate <= step.End; _next++)
        {
            var time = Math.Max(_next / Rate, step.Start);
            var weighted = _filter.Next(_acceleration(step.At(time)));
            if (time < _start || time > _end)
                continue;
            _count++;
            var square = weighted * weighted;
            _squares += square;
            _fourths += square * square;
            _peak = Math.Max(_peak, Math.Abs(weighted));
        }
    }

    public Comfort ToComfort()
    {
        var rms = _count == 0 ? 0 : Math.Sqrt(_squares / _count);
        return new Comfort(rms, Math.Pow(_fourths / Rate, 0.25), rms > 0 ? _peak / rms : null);
    }
}
