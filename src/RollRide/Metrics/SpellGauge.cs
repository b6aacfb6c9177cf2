using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// The spans of time in which a quantity was above zero; the instants of change are found on the continuous solution. The tally's value is 1 where
/// it was above zero already when gathering began.
/// </summary>
/// <param name="quantity">The quantity.</param>
/// <typeparam name="TQuantity">Its kind.</typeparam>
internal sealed class SpellGauge<TQuantity>(TQuantity quantity) : Gauge
    where TQuantity : struct, IQuantity
{
    /// <inheritdoc/>
    public override Tally Nothing => new(0);

    /// <inheritdoc/>
    protected override Accumulator<OneLane> NewSingle() => new Positive<OneLane>(quantity);

    /// <inheritdoc/>
    protected override Accumulator<T> NewSideBySide<T>() => new Positive<T>(quantity);

    /// <inheritdoc/>
    public override Tally Merge(in Tally earlier, in Tally later) => new(earlier.Value, Spans: Spells.Joined([.. earlier.Spans ?? [], .. later.Spans ?? []]));

    private sealed class Positive<T>(TQuantity quantity) : Accumulator<T>
        where T : struct, ILanes<T>
    {
        private readonly LaneBuffer<T> _values = new(GaussLobatto.Count);
        private readonly List<(double Start, double End)>?[] _spans = new List<(double, double)>?[T.Count];
        private readonly bool[] _startsAbove = new bool[T.Count];
        private int _fresh = -1; // a bit for each lane that has gathered nothing yet

        public override void Add(StepNodes<T> steps, int lanes, StepView[] views)
        {
            var highest = quantity.Of(steps[0]);
            if ((_fresh & lanes) != 0)
                Begin(highest, _fresh & lanes);
            for (var node = 1; node < GaussLobatto.Count; node++)
                highest = T.Max(highest, quantity.Of(steps[node]));
            if ((T.Greater(highest, default) & lanes) is not 0 and var above)
                Look(steps, above, views);
        }

        public override Tally Take(int lane)
        {
            var spans = _spans[lane];
            _spans[lane] = null;
            _fresh |= 1 << lane;
            return new Tally(_startsAbove[lane] ? 1 : 0, Spans: spans);
        }

        private void Begin(in T first, int lanes)
        {
            foreach (var lane in new LaneSet(lanes))
                _startsAbove[lane] = LaneMath.Get(first, lane) > 0;
            _fresh &= ~lanes;
        }

        [MethodImpl(MethodImplOptions.NoInlining)]
        private void Look(StepNodes<T> steps, int lanes, StepView[] views)
        {
            for (var node = 0; node < GaussLobatto.Count; node++)
                _values[node] = quantity.Of(steps[node]);
            foreach (var lane in new LaneSet(lanes))
                Look(lane, views[lane]);
        }

        private void Look(int lane, StepView view)
        {
            var spans = _spans[lane] ??= [];
            for (var node = 1; node < GaussLobatto.Count; node++)
            {
                var (before, after) = (_values[node - 1, lane], _values[node, lane]);
                if (before <= 0 && after <= 0)
                    continue;
                var (start, end) = (view.Time(node - 1), view.Time(node));
                var change = before > 0 && after > 0 ? double.NaN
                    : before == 0 ? start
                    : after == 0 ? end
                    : view.Crossing(quantity, start, end);
                Spells.Add(spans, before > 0 ? start : change, after > 0 ? end : change);
            }
        }
    }
}

/// <summary>Spans of time, s, in their order.</summary>
internal static class Spells
{
    // Where a quantity is zero to rounding, as at the end of a step that ends where it reaches zero, its sign may change and change back. Shorter
    // than this, s, neither a spell nor a gap between two counts: no part of a vehicle makes and breaks contact within 0.1 µs.
    private const double Instant = 1e-7;

    /// <summary>Adds a span that begins where the last one ended, or later.</summary>
    public static void Add(List<(double Start, double End)> spans, double start, double end)
    {
        if (spans.Count > 0 && start - spans[^1].End <= Instant)
            spans[^1] = (spans[^1].Start, end);
        else
            spans.Add((start, end));
    }

    /// <summary>The spans, those that follow without a gap put together.</summary>
    public static List<(double Start, double End)> Joined(List<(double Start, double End)> spans)
    {
        var joined = new List<(double, double)>(spans.Count);
        foreach (var (start, end) in spans)
            Add(joined, start, end);
        return joined;
    }

    /// <summary>Those spans that are more than an instant.</summary>
    public static IEnumerable<(double Start, double End)> Of(in Tally tally) => (tally.Spans ?? []).Where(span => span.End - span.Start > Instant);

    /// <summary>How many there are.</summary>
    public static int Count(in Tally tally) => Of(tally).Count();

    /// <summary>How many begin: without the one that lasts from before.</summary>
    public static int Beginnings(in Tally tally) => Count(tally) - (tally is { Value: > 0, Spans: [var (start, end), ..] } && end - start > Instant ? 1 : 0);

    /// <summary>How long they last together, s.</summary>
    public static double Duration(in Tally tally) => Of(tally).Sum(span => span.End - span.Start);
}
