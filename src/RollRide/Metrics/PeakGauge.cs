using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The highest value of a quantity, from the continuous solution.</summary>
/// <param name="quantity">The quantity.</param>
/// <typeparam name="TQuantity">Its kind.</typeparam>
internal sealed class PeakGauge<TQuantity>(TQuantity quantity) : Gauge
    where TQuantity : struct, IQuantity
{
    /// <summary>Whether the time of the peak is gathered too.</summary>
    public bool IsTimed { get; init; }

    /// <summary>A channel that is gathered too, as it is at the instant of the peak; null for none.</summary>
    public Channel? Beside { get; init; }

    /// <inheritdoc/>
    public override Tally Nothing => new(double.NegativeInfinity);

    /// <inheritdoc/>
    protected override Accumulator<OneLane> NewSingle() => new Highest<OneLane>(quantity, IsTimed, Beside);

    /// <inheritdoc/>
    protected override Accumulator<T> NewSideBySide<T>() => new Highest<T>(quantity, IsTimed, Beside);

    /// <inheritdoc/>
    public override Tally Merge(in Tally earlier, in Tally later) => later.Value > earlier.Value ? later : earlier;

    private sealed class Highest<T>(TQuantity quantity, bool isTimed, Channel? beside) : Accumulator<T>
        where T : struct, ILanes<T>
    {
        private readonly LaneBuffer<T> _values = new(GaussLobatto.Count);
        private readonly LaneBuffer<T> _highest = Lowest();
        private readonly double[]? _times = isTimed || beside is not null ? new double[T.Count] : null;
        private readonly double[]? _besides = beside is null ? null : new double[T.Count];
        private readonly TQuantity _quantity = quantity;

        public override void Add(StepNodes<T> steps, int lanes, StepView[] views)
        {
            var (first, second, third, fourth, last) =
                (_quantity.Of(steps[0]), _quantity.Of(steps[1]), _quantity.Of(steps[2]), _quantity.Of(steps[3]), _quantity.Of(steps[4]));
            var inner = T.Max(T.Max(second, fourth), third);
            var highest = T.Max(inner, T.Max(first, last));
            var lowest = T.Min(T.Min(T.Min(second, fourth), third), T.Min(first, last));

            // Beside its highest node a step rises by less than it falls from there; and it does not resolve a peak more than twice as high as that node.
            var reach = highest + (highest - lowest);
            var before = _highest[0];
            var candidates = T.Greater(reach, before) & T.Greater(highest, T.WhereGreater(before, default, before * T.All(Peak.Resolved), T.All(double.NegativeInfinity))) & lanes;
            _highest[0] = T.Where(lanes, T.Max(highest, before), before);
            if (_times is not null && (T.Greater(highest, before) & lanes) is not 0 and var risen)
            {
                Keep(first, second, third, fourth, last);
                foreach (var lane in new LaneSet(risen))
                {
                    var node = HighestNode(lane);
                    _times[lane] = views[lane].Time(node);
                    if (_besides is not null)
                        _besides[lane] = views[lane][node, beside!.Value];
                }
            }

            if (candidates == 0)
                return;

            // Where an end of the step is highest and the slope there rises outwards, the peak lies outside the step.
            var falls = T.All(Peak.Outwards);
            var rises = T.Greater(first, inner) & T.Greater(GaussLobatto.OutwardRise(first, second, third), falls * (first - second));
            rises |= T.Greater(last, inner) & T.Greater(GaussLobatto.OutwardRise(last, fourth, third), falls * (last - fourth));
            candidates &= ~rises;
            if (candidates == 0)
                return;
            Keep(first, second, third, fourth, last);
            foreach (var lane in new LaneSet(candidates))
                Search(lane, views[lane]);
        }

        public override Tally Take(int lane)
        {
            var highest = _highest[0, lane];
            _highest[0, lane] = double.NegativeInfinity;
            return new Tally(highest, Time: _times?[lane] ?? double.NaN, Beside: _besides?[lane] ?? double.NaN);
        }

        private void Keep(in T first, in T second, in T third, in T fourth, in T last) =>
            (_values[0], _values[1], _values[2], _values[3], _values[4]) = (first, second, third, fourth, last);

        private int HighestNode(int lane)
        {
            var best = 0;
            for (var node = 1; node < GaussLobatto.Count; node++)
                best = _values[node, lane] > _values[best, lane] ? node : best;
            return best;
        }

        [MethodImpl(MethodImplOptions.NoInlining)]
        private void Search(int lane, StepView view)
        {
            Span<double> values = stackalloc double[GaussLobatto.Count];
            for (var node = 0; node < values.Length; node++)
                values[node] = _values[node, lane];
            var peak = new Peak { Value = _highest[0, lane] };
            peak.Search(view, _quantity, values);
            _highest[0, lane] = peak.Value;
            if (_times is null || double.IsNaN(peak.Time))
                return;
            _times[lane] = peak.Time;
            if (_besides is not null)
                _besides[lane] = view.At(new Value(beside!.Value), peak.Time);
        }

        private static LaneBuffer<T> Lowest()
        {
            var lowest = new LaneBuffer<T>(1);
            lowest[0] = T.All(double.NegativeInfinity);
            return lowest;
        }
    }
}
