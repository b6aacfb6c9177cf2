using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Vertical vibration after ISO 2631-1 at the body's centre of gravity or at a seat beside it.</summary>
/// <param name="atSeat">Whether at the seat.</param>
internal sealed class ComfortGauge(bool atSeat) : Gauge
{
    /// <inheritdoc/>
    public override Tally Nothing => new(0, Vibration: new ComfortAccumulator(WeightedMotion.Rate));

    /// <inheritdoc/>
    public override Accumulator<T> NewAccumulator<T>() => new Weighted<T>(atSeat);

    /// <inheritdoc/>
    public override Tally Merge(in Tally earlier, in Tally later)
    {
        var both = earlier.Vibration;
        both.Merge(later.Vibration);
        return new Tally(0, Vibration: both);
    }

    private sealed class Weighted<T>(bool atSeat) : Accumulator<T>
        where T : struct, ILanes<T>
    {
        private readonly LaneBuffer<T> _numbers = new(4);

        private ref T Count => ref _numbers[0];

        private ref T Squares => ref _numbers[1];

        private ref T Fourths => ref _numbers[2];

        private ref T Largest => ref _numbers[3];

        public override void Add(WeightedMotion<T> weighted, int lanes)
        {
            var value = atSeat ? weighted.Seat : weighted.Body;
            var square = value * value;
            Count = T.Where(lanes, Count + T.All(1), Count);
            Squares = T.Where(lanes, Squares + square, Squares);
            Fourths = T.Where(lanes, T.Fma(square, square, Fourths), Fourths);
            Largest = T.Where(lanes, T.Max(T.Abs(value), Largest), Largest);
        }

        public override Tally Take(int lane)
        {
            var taken = new ComfortAccumulator(WeightedMotion.Rate, (long)_numbers[0, lane], _numbers[1, lane], _numbers[2, lane], _numbers[3, lane]);
            for (var i = 0; i < _numbers.Length; i++)
                _numbers[i, lane] = 0;
            return new Tally(0, Vibration: taken);
        }
    }
}
