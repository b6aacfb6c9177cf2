using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <content>The dampers' kinks, found in all lanes together.</content>
internal sealed partial class SeriesSolver<T>
{
    /// <summary>Newton's steps for all lanes together: enough from a cubic guess; what has not settled then is searched by itself.</summary>
    private const int NewtonStepsTogether = 4;

    // The series of both dampers' velocities.
    private readonly LaneBuffer<T> _leftVelocity = new(SeriesRow.Order);
    private readonly LaneBuffer<T> _rightVelocity = new(SeriesRow.Order);

    // When each damper's velocity reaches a bound, the lanes in which that is known, and those in which it is the upper one, a bit each.
    private readonly LaneBuffer<T> _reaching = new(2);
    private readonly int[] _reachingKnown = new int[2];
    private readonly int[] _reachingHigh = new int[2];

    /// <summary>
    /// When the dampers' velocities reach their bounds, in all lanes together: nearly every kink is one of theirs, on a way straight
    /// out.
    /// </summary>
    private void CrossDampers()
    {
        var (way0, way1) = (WayOut(0, out _reachingKnown[0]), WayOut(1, out _reachingKnown[1]));
        if ((_reachingKnown[0] | _reachingKnown[1]) == 0)
            return;
        var (bound0, bound1) = (Bound(0, way0), Bound(1, way1));
        ref var s = ref _series[0];
        ref var left = ref _leftVelocity[0];
        ref var right = ref _rightVelocity[0];
        var (ratio, arm) = (_constants[SeriesConstant.DamperRatio], _constants[SeriesConstant.DamperArm]);
        for (var k = 0; k < SeriesRow.Order; k++)
        {
            ref var terms = ref Unsafe.Add(ref s, k);
            var heave = ratio * (At(ref terms, SeriesRow.Velocity + HalfCarState.UnsprungHeave, 0) - At(ref terms, SeriesRow.Velocity + HalfCarState.BodyHeave, 0));
            var roll = At(ref terms, SeriesRow.Velocity + HalfCarState.UnsprungRoll, 0) - At(ref terms, SeriesRow.Velocity + HalfCarState.BodyRoll, 0);
            (Unsafe.Add(ref left, k), Unsafe.Add(ref right, k)) = (T.Fma(arm, roll, heave), T.NegatedFma(arm, roll, heave));
        }

        var (time0, time1) = (Guess(way0, bound0), Guess(way1, bound1));
        var (move0, move1) = (T.All(0), T.All(0));
        for (var i = 0; i < NewtonStepsTogether; i++)
        {
            var (value0, rate0) = (Unsafe.Add(ref left, SeriesRow.Order - 1), T.All(0));
            var (value1, rate1) = (Unsafe.Add(ref right, SeriesRow.Order - 1), T.All(0));
            for (var k = SeriesRow.Order - 2; k >= 0; k--)
            {
                (rate0, rate1) = (T.Fma(rate0, time0, value0), T.Fma(rate1, time1, value1));
                (value0, value1) = (T.Fma(value0, time0, Unsafe.Add(ref left, k)), T.Fma(value1, time1, Unsafe.Add(ref right, k)));
            }

            var (next0, next1) = (way0.Within(time0 - ((value0 - bound0) / rate0)), way1.Within(time1 - ((value1 - bound1) / rate1)));
            (move0, move1) = (T.Abs(next0 - time0), T.Abs(next1 - time1));
            (time0, time1) = (next0, next1);
        }

        // One that was stopped at an end of the way stands still without having arrived.
        _reachingKnown[0] &= T.Greater(T.All(KinkSearch.LastMove), move0) & way0.Holds(time0);
        _reachingKnown[1] &= T.Greater(T.All(KinkSearch.LastMove), move1) & way1.Holds(time1);
        (_reaching[0], _reaching[1]) = (time0, time1);
    }

    /// <summary>
    /// The first half of the step in which a damper's velocity starts inside, moves outwards throughout and ends outside.
    /// </summary>
    /// <param name="damper">The damper.</param>
    /// <param name="lanes">The lanes in which there is one, a bit each: not so where the velocity turns round before it is outside.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Way WayOut(int damper, out int lanes)
    {
        ref var v = ref _velocities[6 * damper];
        var (low, high) = (_low[SeriesGuard.Damper + damper], _high[SeriesGuard.Damper + damper]);
        var (start, startRate) = (v, Unsafe.Add(ref v, 1));
        var (middle, middleRate) = (Unsafe.Add(ref v, 2), Unsafe.Add(ref v, 3));
        var (end, endRate) = (Unsafe.Add(ref v, 4), Unsafe.Add(ref v, 5));
        var first = StraightOut(low, high, start, startRate, middle, middleRate) & ~_turning[2 * damper];
        lanes = first | (StraightOut(low, high, middle, middleRate, end, endRate) & ~_turning[(2 * damper) + 1] & ~_leaving[2 * damper]);
        var half = _step[0] * T.All(0.5);
        return new Way(
            T.Where(first, T.All(KinkSearch.ShortestStep), half),
            T.Where(first, half, _step[0]),
            T.Where(first, start, middle),
            T.Where(first, startRate, middleRate),
            T.Where(first, middle, end),
            T.Where(first, middleRate, endRate));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int StraightOut(T low, T high, T start, T startRate, T end, T endRate)
    {
        var zero = T.All(0);
        return (T.Greater(end, high) & T.Greater(high, start) & T.Greater(startRate, zero) & T.Greater(endRate, zero))
            | (T.Greater(low, end) & T.Greater(start, low) & T.Greater(zero, startRate) & T.Greater(zero, endRate));
    }

    /// <summary>The bound that lies on the way.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private T Bound(int damper, in Way way)
    {
        var high = _high[SeriesGuard.Damper + damper];
        _reachingHigh[damper] = T.Greater(way.End, high);
        return T.WhereGreater(way.End, high, high, _low[SeriesGuard.Damper + damper]);
    }

    /// <summary>Time over velocity by the cubic with the values and slopes of both ends, at the bound.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Guess(in Way way, T bound)
    {
        var change = way.End - way.Start;
        var x = (bound - way.Start) / change;
        var (square, rest) = (x * x, T.All(1) - x);
        var chord = (way.To - way.From) * square * (T.All(3) - x - x);
        return way.Within(way.From + chord + (change * ((x * rest * rest / way.StartRate) - (square * rest / way.EndRate))));
    }

    /// <summary>A damper's velocity over one half of the step: when that begins and ends, and value and rate there.</summary>
    private readonly record struct Way(T From, T To, T Start, T StartRate, T End, T EndRate)
    {
        /// <summary>The nearest time in the half.</summary>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public T Within(T time) => T.Max(T.Min(time, To), From);

        /// <summary>The lanes in which a time lies between its ends, a bit each.</summary>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public int Holds(T time) => T.Greater(time, From) & T.Greater(To, time);
    }
}
