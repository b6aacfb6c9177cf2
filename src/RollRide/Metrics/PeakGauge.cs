using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The highest value of a quantity, and when it was reached, from the continuous solution.</summary>
/// <param name="quantity">The quantity.</param>
/// <typeparam name="TQuantity">Its kind.</typeparam>
internal sealed class PeakGauge<TQuantity>(TQuantity quantity) : Gauge
    where TQuantity : struct, IQuantity
{
    /// <inheritdoc/>
    public override Tally Nothing => new(double.NegativeInfinity);

    /// <inheritdoc/>
    public override Accumulator<T> NewAccumulator<T>() => new Highest<T>(quantity);

    /// <inheritdoc/>
    public override Tally Merge(in Tally earlier, in Tally later) => later.Value > earlier.Value ? later : earlier;

    private sealed class Highest<T>(TQuantity quantity) : Accumulator<T>
        where T : struct, ILanes<T>
    {
        private readonly LaneBuffer<T> _values = new(GaussLobatto.Count);
        private readonly LaneBuffer<T> _highest = Lowest();
        private readonly Peak<TQuantity>[] _peaks = NewPeaks(quantity);

        public override void Add(StepNodes<T> steps, int lanes, StepView[] views)
        {
            var value = quantity.Of(steps[0]);
            var (highest, lowest) = (value, value);
            _values[0] = value;
            for (var node = 1; node < GaussLobatto.Count; node++)
            {
                value = quantity.Of(steps[node]);
                _values[node] = value;
                (highest, lowest) = (T.Max(highest, value), T.Min(lowest, value));
            }

            // Beside its highest node a step rises by less than it falls from there.
            foreach (var lane in new LaneSet(T.Greater(highest + (highest - lowest), _highest[0]) & lanes))
                Look(lane, views[lane]);
        }

        public override Tally Take(int lane)
        {
            var peak = _peaks[lane];
            _peaks[lane] = new(quantity);
            _highest[0, lane] = double.NegativeInfinity;
            return new Tally(peak.Value, peak.Time);
        }

        [MethodImpl(MethodImplOptions.NoInlining)]
        private void Look(int lane, StepView view)
        {
            Span<double> values = stackalloc double[GaussLobatto.Count];
            for (var node = 0; node < values.Length; node++)
                values[node] = _values[node, lane];
            _peaks[lane].Add(view, values);
            _highest[0, lane] = _peaks[lane].Value;
        }

        private static Peak<TQuantity>[] NewPeaks(TQuantity quantity)
        {
            var peaks = new Peak<TQuantity>[T.Count];
            Array.Fill(peaks, new(quantity));
            return peaks;
        }

        private static LaneBuffer<T> Lowest()
        {
            var lowest = new LaneBuffer<T>(1);
            lowest[0] = T.All(double.NegativeInfinity);
            return lowest;
        }
    }
}
