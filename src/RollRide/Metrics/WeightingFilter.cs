using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>A frequency weighting of one signal in each lane. Not thread-safe.</summary>
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

    /// <summary>Forgets what a lane has heard.</summary>
    public void Rest(int lane)
    {
        for (var i = 0; i < _memory.Length; i++)
            _memory[i, lane] = 0;
    }

    /// <summary>Weights the next sample (transposed direct form II).</summary>
    /// <param name="sample">The sample.</param>
    /// <param name="lanes">A bit for each lane that has one; the others keep their memory.</param>
    /// <param name="weighted">Receives the weighted sample.</param>
    public void Next(in T sample, int lanes, out T weighted)
    {
        var signal = sample;
        ref var memory = ref _memory[0];
        foreach (ref readonly var section in _sections.AsSpan())
        {
            ref var second = ref Unsafe.Add(ref memory, 1);
            var output = T.Fma(T.All(section.B0), signal, memory);
            memory = T.Where(lanes, T.NegatedFma(T.All(section.A1), output, T.Fma(T.All(section.B1), signal, second)), memory);
            second = T.Where(lanes, T.NegatedFma(T.All(section.A2), output, T.All(section.B2) * signal), second);
            signal = output;
            memory = ref Unsafe.Add(ref memory, 2);
        }

        weighted = signal;
    }
}
