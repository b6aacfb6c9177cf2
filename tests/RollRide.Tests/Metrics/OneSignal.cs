using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Tests.Metrics;

/// <summary>One signal through the weighting filters of the program, which weight eight side by side.</summary>
internal sealed class OneSignal(FrequencyWeighting weighting, double rate)
{
    private readonly WeightingBank _bank = new(rate, weighting);
    private readonly VibrationAccumulator _measures = new(rate);

    /// <summary>Weights the next sample.</summary>
    public double Next(double sample)
    {
        Span<KeptOctet> samples = [Octet.All(sample)];
        _bank.Filter(samples);
        return samples[0][0];
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
