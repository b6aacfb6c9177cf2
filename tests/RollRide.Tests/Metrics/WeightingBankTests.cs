using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Tests.Metrics;

public sealed class WeightingBankTests
{
    [Fact]
    public void EachLane_IsWeightedAsByItself()
    {
        const double Rate = 640;
        FrequencyWeighting[] weightings = [FrequencyWeighting.Wk, FrequencyWeighting.Wd, FrequencyWeighting.We, FrequencyWeighting.Wf];
        var bank = new WeightingBank(Rate, weightings);
        PlainFilter[] alone = [.. weightings.Select(weighting => new PlainFilter(weighting.Discretise(Rate)))];
        var random = new Random(3);
        var samples = new KeptOctet[8];
        for (var block = 0; block < 200; block++)
        {
            for (var i = 0; i < samples.Length; i++)
                samples[i] = Octet.Of([.. Enumerable.Range(0, GaussLobatto.Lanes).Select(_ => random.NextDouble() - 0.5)]);
            var count = 1 + (block % samples.Length);
            var weighted = samples[..count];
            bank.Filter(weighted);
            for (var i = 0; i < count; i++)
            {
                // Roundings differ, since the bank multiplies and adds in one operation; slow poles keep them for some thousand samples.
                for (var lane = 0; lane < alone.Length; lane++)
                    Assert.Equal(alone[lane].Next(samples[i][lane]), weighted[i][lane], 1e-11);
                Assert.Equal(samples[i][5], weighted[i][5]);
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
