using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The integral of a quantity over time.</summary>
/// <param name="quantity">The quantity.</param>
/// <typeparam name="TQuantity">Its kind.</typeparam>
internal sealed class IntegralGauge<TQuantity>(TQuantity quantity) : Gauge
    where TQuantity : struct, IQuantity
{
    /// <inheritdoc/>
    public override Tally Nothing => new(0);

    /// <inheritdoc/>
    public override Accumulator<T> NewAccumulator<T>() => new Sum<T>(quantity);

    /// <inheritdoc/>
    public override Tally Merge(in Tally earlier, in Tally later) => new(earlier.Value + later.Value);

    private sealed class Sum<T>(TQuantity quantity) : Accumulator<T>
        where T : struct, ILanes<T>
    {
        private readonly LaneBuffer<T> _sum = new(1);

        public override void Add(StepNodes<T> steps, int lanes, StepView[] views)
        {
            var mean = default(T);
            for (var node = 0; node < GaussLobatto.Count; node++)
                mean = T.Fma(T.All(GaussLobatto.Weights[node]), quantity.Of(steps[node]), mean);
            _sum[0] = T.Where(lanes, T.Fma(steps.Length, mean, _sum[0]), _sum[0]);
        }

        public override Tally Take(int lane)
        {
            var sum = _sum[0, lane];
            _sum[0, lane] = 0;
            return new Tally(sum);
        }
    }
}
