using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Frequency weightings of up to eight signals running side by side, a lane each. Not thread-safe.</summary>
internal sealed class WeightingBank
{
    // As many second-order sections as a weighting has; one with fewer is filled up with sections that change nothing.
    private readonly Section _first, _second, _third, _fourth;
    private Memory _ofFirst, _ofSecond, _ofThird, _ofFourth;

    /// <summary>Prepares the filters, at rest.</summary>
    /// <param name="rate">Sampling rate, Hz.</param>
    /// <param name="weightings">The weighting of each lane; a lane without one passes unchanged.</param>
    public WeightingBank(double rate, params ReadOnlySpan<FrequencyWeighting> weightings)
    {
        var lanes = new FrequencyWeighting.Biquad[GaussLobatto.Lanes][];
        for (var lane = 0; lane < lanes.Length; lane++)
            lanes[lane] = lane < weightings.Length ? weightings[lane].Discretise(rate) : [];
        _first = new Section(lanes, 0);
        _second = new Section(lanes, 1);
        _third = new Section(lanes, 2);
        _fourth = new Section(lanes, 3);
    }

    /// <summary>Weights the next samples of all signals, in place.</summary>
    /// <param name="samples">A vector for each sample.</param>
    public void Filter(Span<KeptOctet> samples)
    {
        // Copies, so that they stay in registers.
        var (first, second, third, fourth) = (_first, _second, _third, _fourth);
        var (ofFirst, ofSecond, ofThird, ofFourth) = (_ofFirst, _ofSecond, _ofThird, _ofFourth);
        for (var i = 0; i < samples.Length; i++)
        {
            var sample = first.Next(samples[i], ref ofFirst);
            sample = second.Next(sample, ref ofSecond);
            sample = third.Next(sample, ref ofThird);
            samples[i] = fourth.Next(sample, ref ofFourth);
        }

        (_ofFirst, _ofSecond, _ofThird, _ofFourth) = (ofFirst, ofSecond, ofThird, ofFourth);
    }

    private readonly struct Section
    {
        private readonly KeptOctet _b0, _b1, _b2, _minusA1, _minusA2;

        public Section(FrequencyWeighting.Biquad[][] lanes, int section)
        {
            KeptOctet Coefficients(Func<FrequencyWeighting.Biquad, double> coefficient) => Octet.Of(
                lanes.Map(sections => coefficient(section < sections.Length ? sections[section] : new FrequencyWeighting.Biquad(1, 0, 0, 0, 0))));
            (_b0, _b1, _b2) = (Coefficients(s => s.B0), Coefficients(s => s.B1), Coefficients(s => s.B2));
            (_minusA1, _minusA2) = (Coefficients(s => -s.A1), Coefficients(s => -s.A2));
        }

        /// <summary>Filters the next sample (transposed direct form II).</summary>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Octet Next(Octet sample, ref Memory memory)
        {
            var output = Octet.Fma(_b0, sample, memory.First);
            memory.First = Octet.Fma(_minusA1, output, Octet.Fma(_b1, sample, memory.Second));
            memory.Second = Octet.Fma(_minusA2, output, (Octet)_b2 * sample);
            return output;
        }
    }

    private struct Memory
    {
        public KeptOctet First, Second;
    }
}
