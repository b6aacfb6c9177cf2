using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>A frequency weighting of one signal in every lane. Not thread-safe.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class WeightingFilter<T>
    where T : struct, ILanes<T>
{
    private readonly FrequencyWeighting.Biquad[] _sections;
    private readonly LaneBuffer<T> _memory;

    /// <summary>Prepares the filter, at rest.</summary>
    /// <param name="weighting">The weighting.</param>
    /// <param name="rate">Sampling rate, Hz.</param>
    public WeightingFilter(FrequencyWeighting weighting, double rate)
    {
        _sections = weighting.Discretise(rate);
        _memory = new(2 * _sections.Length);
    }

    /// <summary>Weights the next sample (transposed direct form II).</summary>
    /// <param name="sample">The sample.</param>
    /// <param name="lanes">A bit for each lane that has one; the filters of the others stay as they are.</param>
    public T Next(in T sample, int lanes)
    {
        var signal = sample;
        for (var i = 0; i < _sections.Length; i++)
        {
            ref readonly var section = ref _sections[i];
            ref var first = ref _memory[2 * i];
            ref var second = ref _memory[(2 * i) + 1];
            var output = T.Fma(T.All(section.B0), signal, first);
            first = T.Where(lanes, T.NegatedFma(T.All(section.A1), output, T.Fma(T.All(section.B1), signal, second)), first);
            second = T.Where(lanes, T.NegatedFma(T.All(section.A2), output, T.All(section.B2) * signal), second);
            signal = output;
        }

        return signal;
    }

    /// <summary>Puts a lane to rest.</summary>
    public void Reset(int lane)
    {
        for (var i = 0; i < _memory.Length; i++)
            _memory[i, lane] = 0;
    }
}
