using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Tests.Metrics;

public sealed class WeightingFilterTests
{
    private const double Rate = 640;

    [Fact]
    public void FourLanes_EachLane_IsWeightedAsByItself() => AssertWeighsEachLane<FourLanes>();

    [Fact]
    public void EightLanes_EachLane_IsWeightedAsByItself() => AssertWeighsEachLane<EightLanes>();

    private static void AssertWeighsEachLane<T>()
        where T : struct, ILanes<T>
    {
        var random = new Random(3);
        foreach (var weighting in (FrequencyWeighting[])[FrequencyWeighting.Wk, FrequencyWeighting.Wd, FrequencyWeighting.We, FrequencyWeighting.Wf])
        {
            var filter = new WeightingFilter<T>(weighting, Rate);
            var alone = Enumerable.Range(0, T.Count).Select(_ => new PlainFilter(weighting.Discretise(Rate))).ToArray();
            var single = Enumerable.Range(0, T.Count).Select(_ => new WeightingFilter<OneLane>(weighting, Rate)).ToArray();
            var sample = default(T);
            for (var i = 0; i < 1000; i++)
            {
                // Some lanes have no sample: their filters stay as they are. One is put to rest in between.
                var lanes = random.Next(1 << T.Count);
                for (var lane = 0; lane < T.Count; lane++)
                    LaneMath.Lane(ref sample, lane) = random.NextDouble() - 0.5;
                if (i == 500)
                {
                    filter.Reset(1);
                    single[1].Reset(0);
                    alone[1] = new PlainFilter(weighting.Discretise(Rate));
                }

                var weighted = filter.Next(sample, lanes);
                for (var lane = 0; lane < T.Count; lane++)
                {
                    if ((lanes >> lane & 1) == 0)
                        continue;

                    // Roundings differ, since the filter multiplies and adds in one operation; slow poles keep them for some thousand samples.
                    Assert.Equal(alone[lane].Next(LaneMath.Get(sample, lane)), LaneMath.Get(weighted, lane), 1e-11);
                    Assert.Equal(single[lane].Next(new(LaneMath.Get(sample, lane)), 1).Value, LaneMath.Get(weighted, lane));
                }
            }
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
