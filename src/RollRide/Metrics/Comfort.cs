namespace RollRide.Metrics;

/// <summary>Vertical vibration as a seated person feels it, by ISO 2631-1:1997 with the weighting Wk.</summary>
/// <param name="WeightedRms">Weighted root-mean-square acceleration <c>aw</c>, m/s².</param>
/// <param name="VibrationDoseValue">Fourth-power vibration dose value, m/s^1.75.</param>
/// <param name="CrestFactor">Largest weighted acceleration over <paramref name="WeightedRms"/>; null where nothing vibrates.</param>
public sealed record Comfort(double WeightedRms, double VibrationDoseValue, double? CrestFactor);

/// <summary>
/// Weights the vertical acceleration at the centre of gravity and at the seat over a whole run, since the filters remember what came
/// before a phase, and hands each weighted sample to the phase it falls in.
/// </summary>
internal sealed class ComfortSampler(IReadOnlyList<PhaseRecorder> phases)
{
    // Fixed, so that the figures do not depend on the rate at which a user asks for output.
    private const double Rate = 1000;

    private readonly WeightingFilter _body = FrequencyWeighting.Wk.CreateFilter(Rate);
    private readonly WeightingFilter _seat = FrequencyWeighting.Wk.CreateFilter(Rate);
    private long _next;

    /// <summary>Takes the samples that fall in a step.</summary>
    public void Add(StepSamples step)
    {
        for (; _next / Rate <= step.End; _next++)
        {
            var time = Math.Max(_next / Rate, step.Start);
            var (body, seat) = step.VerticalAccelerations(time);
            var (weightedBody, weightedSeat) = (_body.Next(body), _seat.Next(seat));
            foreach (var phase in phases)
                phase.AddWeighted(time, 1 / Rate, weightedBody, weightedSeat);
        }
    }
}

/// <summary>Gathers the measures of one weighted acceleration over one phase.</summary>
internal sealed class ComfortAccumulator
{
    private long _count;
    private double _squares;
    private double _fourthPowerDose;
    private double _peak;

    /// <summary>Adds a sample, m/s², that stands for a span of time, s.</summary>
    public void Add(double weighted, double span)
    {
        _count++;
        var square = weighted * weighted;
        _squares += square;
        _fourthPowerDose += square * square * span;
        _peak = Math.Max(_peak, Math.Abs(weighted));
    }

    public Comfort ToComfort()
    {
        var rms = _count == 0 ? 0 : Math.Sqrt(_squares / _count);
        return new Comfort(rms, Math.Pow(_fourthPowerDose, 0.25), rms > 0 ? _peak / rms : null);
    }
}
