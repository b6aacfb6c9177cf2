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
    private const int Coefficients = 4;

    // For the polynomial written out below; another order does not compile.
    private const int AccelerationOrder = 9 / (SeriesRow.AccelerationOrder == 9 ? 1 : 0);

    // A signal's measures: squares, fourth powers, largest.
    private const int Measures = 3;

    // Of the body, and of roll for its part in the acceleration at a seat.
    private readonly LaneBuffer<T> _memory = new(2 * 2 * Sections);
    private readonly LaneBuffer<T> _filter = new(Sections * Coefficients);

    // Each section passes a sample on unchanged, b0 = 1; what all of them together should multiply it by is made up for in the measures.
    private double _gain;

    private readonly LaneBuffer<T> _weighted = new(Chunk);
    private readonly LaneBuffer<T> _weightedRoll = new(Chunk);

    // Of the body, and at the seat.
    private readonly LaneBuffer<T> _comfort = new(2 * Measures);
    private readonly long[] _sampleCounts = new long[T.Count];

    // The number of the next sample, and how many lie in the step.
    private readonly LaneBuffer<T> _nextSample = new(1);
    private readonly int[] _samples = new int[T.Count];

    private void WriteWeighting()
    {
        var sections = FrequencyWeighting.Wk.Discretise(Rate);
        _gain = 1;
        for (var i = 0; i < Sections; i++)
        {
            var (at, section) = (i * Coefficients, sections[i]);
            _gain *= section.B0;
            (_filter[at], _filter[at + 1]) = (T.All(section.B1 / section.B0), T.All(section.B2 / section.B0));
            (_filter[at + 2], _filter[at + 3]) = (T.All(-section.A1), T.All(-section.A2));
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

    private ComfortAccumulator Comfort(int lane, int signal)
    {
        var (at, square) = (signal * Measures, _gain * _gain);
        return new(Rate, _sampleCounts[lane], square * _comfort[at, lane], square * square * _comfort[at + 1, lane], square * _comfort[at + 2, lane]);
    }

    private void Weigh()
    {
        var first = _nextSample[0];
        var most = 0;
        Array.Clear(_samples);
        for (var rest = (uint)_lanes; rest != 0; rest &= rest - 1)
        {
            var lane = BitOperations.TrailingZeroCount(rest);
            var count = (int)Math.Floor((_solver.End(lane) * Rate) - _nextSample[0, lane]) + 1;
            _sampleCounts[lane] += count;
            _nextSample[0, lane] += count;

            // Before a bump a single step holds hundreds of samples of nothing, which the other lanes need not wait for.
            _samples[lane] = count > Chunk && IsAtRest(lane) ? 0 : count;
            most = Math.Max(most, _samples[lane]);
        }

        for (var done = 0; done < most; done += Chunk)
        {
            var (next, count) = (first + T.All(done), Math.Min(most - done, Chunk));
            Filter(SeriesRow.Acceleration + HalfCarState.BodyHeave, 0, _weighted, next, done, count);
            Measure(0, count);
            if (_seats == 0)
                continue;
            Filter(SeriesRow.Acceleration + HalfCarState.BodyRoll, 2 * Sections, _weightedRoll, next, done, count);
            for (var i = 0; i < count; i++)
                _weighted[i] = T.Fma(_seatOffset[0], _weightedRoll[i], _weighted[i]);
            Measure(Measures, count);
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

    /// <summary>Weighs the next samples of an acceleration.</summary>
    /// <param name="row">Its row of the series.</param>
    /// <param name="memory">Where its filters keep what they remember.</param>
    /// <param name="weighted">Receives the weighted samples; 0 where a lane has no more.</param>
    /// <param name="number">The number of each lane's next sample.</param>
    /// <param name="done">How many samples of the step were weighed before.</param>
    /// <param name="count">How many are to be, in the lane that has most.</param>
    private void Filter(int row, int memory, LaneBuffer<T> weighted, T number, int done, int count)
    {
        ref var c = ref _solver.Series[row * SeriesRow.Terms];
        ref var f = ref _filter[0];
        ref var w = ref weighted[0];
        ref var m = ref _memory[memory];
        var (length, spacing) = (_solver.StepLengths, T.All(1 / Rate));

        // The first one may lie before the step by a rounding of time, and after it where the lane has no more.
        var time = T.Min(T.Max((number * spacing) - _solver.StartTimes, T.All(0)), length);

        // Copies, so that they stay in registers.
        var (a1, a2, b1, b2) = (m, Unsafe.Add(ref m, 1), Unsafe.Add(ref m, 2), Unsafe.Add(ref m, 3));
        var (c1, c2, d1, d2) = (Unsafe.Add(ref m, 4), Unsafe.Add(ref m, 5), Unsafe.Add(ref m, 6), Unsafe.Add(ref m, 7));
        for (var i = 0; i < count;)
        {
            // Up to where the next lane has no more; those that had none left go along without effect.
            var (lanes, end) = (0, count);
            for (var lane = 0; lane < T.Count; lane++)
            {
                if (_samples[lane] - done <= i)
                    continue;
                lanes |= 1 << lane;
                end = Math.Min(end, _samples[lane] - done);
            }

            for (; i < end; i++)
            {
                var sample = Acceleration(ref c, time);
                sample = Section(ref f, 0, sample, ref a1, ref a2);
                sample = Section(ref f, 1, sample, ref b1, ref b2);
                sample = Section(ref f, 2, sample, ref c1, ref c2);
                Unsafe.Add(ref w, i) = T.Where(lanes, Section(ref f, 3, sample, ref d1, ref d2), T.All(0));
                time = T.Min(time + spacing, length);
            }

            (m, Unsafe.Add(ref m, 1)) = (T.Where(lanes, a1, m), T.Where(lanes, a2, Unsafe.Add(ref m, 1)));
            (Unsafe.Add(ref m, 2), Unsafe.Add(ref m, 3)) = (T.Where(lanes, b1, Unsafe.Add(ref m, 2)), T.Where(lanes, b2, Unsafe.Add(ref m, 3)));
            (Unsafe.Add(ref m, 4), Unsafe.Add(ref m, 5)) = (T.Where(lanes, c1, Unsafe.Add(ref m, 4)), T.Where(lanes, c2, Unsafe.Add(ref m, 5)));
            (Unsafe.Add(ref m, 6), Unsafe.Add(ref m, 7)) = (T.Where(lanes, d1, Unsafe.Add(ref m, 6)), T.Where(lanes, d2, Unsafe.Add(ref m, 7)));
        }
    }

    /// <summary>An acceleration's series at a time in the step.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Acceleration(ref T c, T t)
    {
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
        var output = sample + first;
        first = T.Fma(Unsafe.Add(ref f, 2), output, T.Fma(f, sample, second));
        second = T.Fma(Unsafe.Add(ref f, 3), output, Unsafe.Add(ref f, 1) * sample);
        return output;
    }

    private void Measure(int to, int count)
    {
        ref var w = ref _weighted[0];
        var (squares, fourths, largest) = (_comfort[to], _comfort[to + 1], _comfort[to + 2]);
        for (var i = 0; i < count; i++)
        {
            var square = Unsafe.Add(ref w, i) * Unsafe.Add(ref w, i);
            squares += square;
            fourths = T.Fma(square, square, fourths);
            largest = T.Max(square, largest);
        }

        (_comfort[to], _comfort[to + 1], _comfort[to + 2]) = (squares, fourths, largest);
    }
}
