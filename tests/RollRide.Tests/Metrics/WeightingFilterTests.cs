using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Tests.Metrics;

public sealed class WeightingFilterTests
{
    private const double Rate = 640;

    [Fact]
    public void Next_RandomSamples_AreThoseOfPlainSections()
    {
        var random = new Random(3);
        foreach (var weighting in (FrequencyWeighting[])[FrequencyWeighting.Wk, FrequencyWeighting.Wd, FrequencyWeighting.We, FrequencyWeighting.Wf])
        {
            var filter = new OneSignal(weighting, Rate);
            var plain = new PlainFilter(weighting.Discretise(Rate));
            for (var i = 0; i < 1000; i++)
            {
                // Roundings differ, since the filter multiplies and adds in one operation; slow poles keep them for some thousand samples.
                var sample = random.NextDouble() - 0.5;
                Assert.Equal(plain.Next(sample), filter.Next(sample), 1e-11);
            }
        }
    }

    [Fact]
    public void Next_LanesWithoutSample_KeepTheirMemory()
    {
        var random = new Random(5);
        var filter = new WeightingFilter<FourLanes>(FrequencyWeighting.Wk, Rate);
        OneSignal[] alone = [.. Enumerable.Range(0, FourLanes.Count).Select(_ => new OneSignal(FrequencyWeighting.Wk, Rate))];
        var sample = new LaneBuffer<FourLanes>(1);
        for (var i = 0; i < 500; i++)
        {
            var lanes = random.Next(1 << FourLanes.Count);
            for (var lane = 0; lane < FourLanes.Count; lane++)
                sample[0, lane] = random.NextDouble() - 0.5;
            filter.Next(sample[0], lanes, out var weighted);
            foreach (var lane in new LaneSet(lanes))
                Assert.Equal(alone[lane].Next(sample[0, lane]), LaneMath.Get(weighted, lane));
        }
    }

    /// <summary>Second-order sections one after the other in the transposed direct form II, without vectors.</summary>
    private sealed class PlainFilter(FrequencyWeighting.Biquad[] sections)
    {
        private readonly double[] _memory = new double[2 * sections.Length];

        public double Next(double sample)
        {
            for (var i = 0; i < sections.Length; i++)
            {
                var s = sections[i];
                var output = (s.B0 * sample) + _memory[2 * i];
                _memory[2 * i] = (s.B1 * sample) - (s.A1 * output) + _memory[(2 * i) + 1];
                _memory[(2 * i) + 1] = (s.B2 * sample) - (s.A2 * output);
                sample = output;
            }

            return sample;
        }
    }
}
