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

    // When each damper's velocity reaches its bound, and the lanes in which that is known, a bit each.
    private readonly LaneBuffer<T> _reaching = new(2);
    private readonly int[] _reachingKnown = new int[2];

    /// <summary>
    /// When the dampers' velocities reach their bounds, in all lanes together: nearly every kink is one of theirs, on a way straight
    /// out.
    /// </summary>
    private void CrossDampers()
    {
        (_reachingKnown[0], _reachingKnown[1]) = (StraightOut(0, out var bound0), StraightOut(1, out var bound1));
        if ((_reachingKnown[0] | _reachingKnown[1]) == 0)
            return;
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

        var (time0, time1) = (Guess(0, bound0), Guess(1, bound1));
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

            var (next0, next1) = (WithinStep(time0 - ((value0 - bound0) / rate0)), WithinStep(time1 - ((value1 - bound1) / rate1)));
            (move0, move1) = (T.Abs(next0 - time0), T.Abs(next1 - time1));
            (time0, time1) = (next0, next1);
        }

        _reachingKnown[0] &= T.Greater(T.All(KinkSearch.SameInstant), move0);
        _reachingKnown[1] &= T.Greater(T.All(KinkSearch.SameInstant), move1);
        (_reaching[0], _reaching[1]) = (time0, time1);
    }

    private T WithinStep(T time) => T.Max(T.Min(time, _step[0]), T.Min(T.All(KinkSearch.ShortestStep), _step[0]));

    /// <summary>The lanes in which a damper's velocity starts inside, moves outwards throughout and ends outside, a bit each.</summary>
    private int StraightOut(int damper, out T bound)
    {
        var (low, high, zero) = (_low[SeriesGuard.Damper + damper], _high[SeriesGuard.Damper + damper], T.All(0));
        var (start, startRate, end, endRate) = (_velocities[4 * damper], _velocities[(4 * damper) + 1], _velocities[(4 * damper) + 2], _velocities[(4 * damper) + 3]);
        bound = T.WhereGreater(end, high, high, low);
        var straight = (T.Greater(end, high) & T.Greater(high, start) & T.Greater(startRate, zero) & T.Greater(endRate, zero))
            | (T.Greater(low, end) & T.Greater(start, low) & T.Greater(zero, startRate) & T.Greater(zero, endRate));
        return straight & ~_turning[SeriesGuard.Damper + damper];
    }

    /// <summary>Time over velocity by the cubic with the values and slopes of both ends, at the bound.</summary>
    private T Guess(int damper, T bound)
    {
        var (start, startRate, end, endRate) = (_velocities[4 * damper], _velocities[(4 * damper) + 1], _velocities[(4 * damper) + 2], _velocities[(4 * damper) + 3]);
        var change = end - start;
        var x = (bound - start) / change;
        var (square, rest) = (x * x, T.All(1) - x);
        var chord = _step[0] * square * (T.All(3) - x - x);
        return WithinStep(chord + (change * ((x * rest * rest / startRate) - (square * rest / endRate))));
    }
}
