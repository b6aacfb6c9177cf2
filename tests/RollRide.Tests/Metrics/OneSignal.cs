using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Tests.Metrics;

/// <summary>One signal through a weighting filter of the program.</summary>
internal sealed class OneSignal(FrequencyWeighting weighting, double rate)
{
    private readonly WeightingFilter<OneLane> _filter = new(weighting, rate);
    private readonly VibrationAccumulator _measures = new(rate);

    /// <summary>Weights the next sample.</summary>
    public double Next(double sample)
    {
        _filter.Next(new OneLane(sample), 1, out var weighted);
        return weighted.Value;
    }

    /// <summary>Weights the next sample; it is measured, or it only settles the filter.</summary>
    public void Add(double acceleration, bool counts)
    {
        var weighted = Next(acceleration);
        if (counts)
            _measures.Add(weighted);
    }

    /// <summary>The measures of the samples that counted.</summary>
    public VibrationMeasures ToMeasures() => _measures.ToMeasures();
}
