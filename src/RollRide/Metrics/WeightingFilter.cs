namespace RollRide.Metrics;

/// <summary>A frequency weighting of one signal. Not thread-safe.</summary>
internal sealed class WeightingFilter
{
    private readonly FrequencyWeighting.Biquad[] _sections;
    private readonly double[] _memory;

    /// <summary>Prepares the filter, at rest.</summary>
    /// <param name="weighting">The weighting.</param>
    /// <param name="rate">Sampling rate, Hz.</param>
    public WeightingFilter(FrequencyWeighting weighting, double rate)
    {
        _sections = weighting.Discretise(rate);
        _memory = new double[2 * _sections.Length];
    }

    /// <summary>Weights the next sample (transposed direct form II).</summary>
    /// <param name="sample">The sample.</param>
    public double Next(double sample)
    {
        var (sections, memory) = (_sections, _memory);
        for (var i = 0; i < sections.Length && (2 * i) + 1 < memory.Length; i++)
        {
            ref readonly var section = ref sections[i];
            var output = Math.FusedMultiplyAdd(section.B0, sample, memory[2 * i]);
            memory[2 * i] = Math.FusedMultiplyAdd(-section.A1, output, Math.FusedMultiplyAdd(section.B1, sample, memory[(2 * i) + 1]));
            memory[(2 * i) + 1] = Math.FusedMultiplyAdd(-section.A2, output, section.B2 * sample);
            sample = output;
        }

        return sample;
    }
}
