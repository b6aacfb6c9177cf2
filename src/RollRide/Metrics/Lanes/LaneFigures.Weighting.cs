using System.Numerics;
using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Metrics.Lanes;

/// <content>The weighted accelerations: samples at a fixed rate through the filters of Wk, and their measures.</content>
internal sealed partial class LaneFigures<T>
{
    private const double Rate = MotionSamples.Rate;

    // Samples weighted at a time.
    private const int Chunk = 32;
    private const int Sections = 4;
    private const int Coefficients = 5;

    // For the polynomial written out below; another order does not compile.
    private const int AccelerationOrder = 9 / (SeriesRow.AccelerationOrder == 9 ? 1 : 0);

    // A signal's measures: squares, fourth powers, largest.
    private const int Measures = 3;

    // Of the body, and of roll for its part in the acceleration at a seat.
    private readonly LaneBuffer<T> _memory = new(2 * 2 * Sections);
    private readonly LaneBuffer<T> _filter = new(Sections * Coefficients);
    private readonly LaneBuffer<T> _weighted = new(Chunk);
    private readonly LaneBuffer<T> _weightedRoll = new(Chunk);

    // Of the body, and at the seat.
    private readonly LaneBuffer<T> _comfort = new(2 * Measures);
    private readonly long[] _sampleCounts = new long[T.Count];

    // The number of the next sample, and that beyond which none lies in the step.
    private readonly LaneBuffer<T> _nextSample = new(1);
    private readonly LaneBuffer<T> _lastSample = new(1);

    private void WriteWeighting()
    {
        var sections = FrequencyWeighting.Wk.Discretise(Rate);
        for (var i = 0; i < Sections; i++)
        {
            var (at, section) = (i * Coefficients, sections[i]);
            (_filter[at], _filter[at + 1], _filter[at + 2]) = (T.All(section.B0), T.All(section.B1), T.All(section.B2));
            (_filter[at + 3], _filter[at + 4]) = (T.All(-section.A1), T.All(-section.A2));
        }
    }

    private void EnterWeighting(int lane)
    {
        _nextSample[0, lane] = 0;
        for (var i = 0; i < _memory.Length; i++)
            _memory[i, lane] = 0;
    }

    private void ClearComfort(int lane)
    {
        _sampleCounts[lane] = 0;
        for (var i = 0; i < _comfort.Length; i++)
            _comfort[i, lane] = 0;
    }

    private ComfortAccumulator Comfort(int lane, int signal) => new(
        Rate, _sampleCounts[lane], _comfort[signal * Measures, lane], _comfort[(signal * Measures) + 1, lane], _comfort[(signal * Measures) + 2, lane]);

    private void Weigh()
    {
        var first = _nextSample[0];
        _lastSample[0] = _solver.EndTimes * T.All(Rate);
        var (least, most) = (int.MaxValue, 0);
        for (var rest = (uint)_lanes; rest != 0; rest &= rest - 1)
        {
            var lane = BitOperations.TrailingZeroCount(rest);
            var count = (int)Math.Floor(_lastSample[0, lane] - _nextSample[0, lane]) + 1;
            _sampleCounts[lane] += count;
            _nextSample[0, lane] += count;
            if (count > Chunk && IsAtRest(lane))
            {
                // Before a bump a single step holds hundreds of samples of nothing, which the other lanes need not wait for.
                _lastSample[0, lane] = double.NegativeInfinity;
                count = 0;
            }

            (least, most) = (Math.Min(least, count), Math.Max(most, count));
        }

        for (var done = 0; done < most; done += Chunk)
        {
            var (next, all, any) = (first + T.All(done), Math.Clamp(least - done, 0, Chunk), Math.Min(most - done, Chunk));
            Filter(SeriesRow.Acceleration + HalfCarState.BodyHeave, 0, _weighted, next, all, any);
            Measure(0, any);
            if (_seats == 0)
                continue;
            Filter(SeriesRow.Acceleration + HalfCarState.BodyRoll, 2 * Sections, _weightedRoll, next, all, any);
            for (var i = 0; i < any; i++)
                _weighted[i] = T.Fma(_seatOffset[0], _weightedRoll[i], _weighted[i]);
            Measure(Measures, any);
        }
    }

    /// <summary>Whether the body of a lane does not move in the step and nothing is left in its filters.</summary>
    private bool IsAtRest(int lane)
    {
        var (heave, roll) = ((SeriesRow.Acceleration + HalfCarState.BodyHeave) * SeriesRow.Terms, (SeriesRow.Acceleration + HalfCarState.BodyRoll) * SeriesRow.Terms);
        for (var k = 0; k <= SeriesRow.AccelerationOrder; k++)
        {
            if (_solver.Series[heave + k, lane] != 0 || _solver.Series[roll + k, lane] != 0)
                return false;
        }

        for (var i = 0; i < _memory.Length; i++)
        {
            if (_memory[i, lane] != 0)
                return false;
        }

        return true;
    }

    /// <summary>Weighs the next samples of an acceleration; some of them lie in the steps of all lanes, the others only in those of some.</summary>
    private void Filter(int row, int memory, LaneBuffer<T> weighted, T next, int all, int any)
    {
        ref var c = ref _solver.Series[row * SeriesRow.Terms];
        ref var f = ref _filter[0];
        ref var w = ref weighted[0];
        var (last, start, length) = (_lastSample[0], _solver.StartTimes, _solver.StepLengths);

        // Copies, so that they stay in registers.
        var (a1, a2, b1, b2) = (_memory[memory], _memory[memory + 1], _memory[memory + 2], _memory[memory + 3]);
        var (c1, c2, d1, d2) = (_memory[memory + 4], _memory[memory + 5], _memory[memory + 6], _memory[memory + 7]);
        var number = next;
        for (var i = 0; i < all; i++, number += T.All(1))
        {
            var sample = Acceleration(ref c, start, length, number);
            sample = Section(ref f, 0, sample, ref a1, ref a2);
            sample = Section(ref f, 1, sample, ref b1, ref b2);
            sample = Section(ref f, 2, sample, ref c1, ref c2);
            Unsafe.Add(ref w, i) = Section(ref f, 3, sample, ref d1, ref d2);
        }

        for (var i = all; i < any; i++, number += T.All(1))
        {
            var (a1Before, a2Before, b1Before, b2Before, c1Before, c2Before, d1Before, d2Before) = (a1, a2, b1, b2, c1, c2, d1, d2);
            var sample = Acceleration(ref c, start, length, number);
            sample = Section(ref f, 0, sample, ref a1, ref a2);
            sample = Section(ref f, 1, sample, ref b1, ref b2);
            sample = Section(ref f, 2, sample, ref c1, ref c2);
            Unsafe.Add(ref w, i) = T.WhereGreater(number, last, T.All(0), Section(ref f, 3, sample, ref d1, ref d2));
            (a1, a2) = (T.WhereGreater(number, last, a1Before, a1), T.WhereGreater(number, last, a2Before, a2));
            (b1, b2) = (T.WhereGreater(number, last, b1Before, b1), T.WhereGreater(number, last, b2Before, b2));
            (c1, c2) = (T.WhereGreater(number, last, c1Before, c1), T.WhereGreater(number, last, c2Before, c2));
            (d1, d2) = (T.WhereGreater(number, last, d1Before, d1), T.WhereGreater(number, last, d2Before, d2));
        }

        (_memory[memory], _memory[memory + 1], _memory[memory + 2], _memory[memory + 3]) = (a1, a2, b1, b2);
        (_memory[memory + 4], _memory[memory + 5], _memory[memory + 6], _memory[memory + 7]) = (c1, c2, d1, d2);
    }

    /// <summary>An acceleration's series at a sample; the first one may lie before the step by a rounding of time.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Acceleration(ref T c, T start, T length, T number)
    {
        var t = T.Min(T.Max((number * T.All(1 / Rate)) - start, T.All(0)), length);

        // Written out: a loop would take as many instructions again.
        var sum = T.Fma(Unsafe.Add(ref c, AccelerationOrder), t, Unsafe.Add(ref c, 8));
        sum = T.Fma(sum, t, Unsafe.Add(ref c, 7));
        sum = T.Fma(sum, t, Unsafe.Add(ref c, 6));
        sum = T.Fma(sum, t, Unsafe.Add(ref c, 5));
        sum = T.Fma(sum, t, Unsafe.Add(ref c, 4));
        sum = T.Fma(sum, t, Unsafe.Add(ref c, 3));
        sum = T.Fma(sum, t, Unsafe.Add(ref c, 2));
        sum = T.Fma(sum, t, Unsafe.Add(ref c, 1));
        return T.Fma(sum, t, c);
    }

    /// <summary>Takes a sample through a second-order section (transposed direct form II).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Section(ref T filter, int section, T sample, ref T first, ref T second)
    {
        ref var f = ref Unsafe.Add(ref filter, section * Coefficients);
        var output = T.Fma(f, sample, first);
        first = T.Fma(Unsafe.Add(ref f, 3), output, T.Fma(Unsafe.Add(ref f, 1), sample, second));
        second = T.Fma(Unsafe.Add(ref f, 4), output, Unsafe.Add(ref f, 2) * sample);
        return output;
    }

    private void Measure(int to, int any)
    {
        ref var w = ref _weighted[0];
        var (squares, fourths, largest) = (_comfort[to], _comfort[to + 1], _comfort[to + 2]);
        for (var i = 0; i < any; i++)
        {
            var square = Unsafe.Add(ref w, i) * Unsafe.Add(ref w, i);
            squares += square;
            fourths = T.Fma(square, square, fourths);
            largest = T.Max(square, largest);
        }

        (_comfort[to], _comfort[to + 1], _comfort[to + 2]) = (squares, fourths, largest);
    }
}
