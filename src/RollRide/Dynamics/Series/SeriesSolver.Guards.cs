using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <content>The guards: which of the quantities whose laws have kinks may reach a bound in the step.</content>
internal sealed partial class SeriesSolver<T>
{
    // The lanes in which each guard may reach a bound, a bit each.
    private readonly int[] _outside = new int[SeriesGuard.Count];

    // Values and rates of both dampers' velocities, at the start and at the end of the step: four elements each.
    private readonly LaneBuffer<T> _velocities = new(8);

    /// <summary>Finds the guards that may reach a bound in the step, a bit a lane.</summary>
    private void WatchGuards()
    {
        ref var s = ref _series[0];
        ref var c = ref _constants[0];
        ref var e = ref _end[0];
        var start = Relative.AtStart(ref s);
        var end = Relative.AtEnd(ref e);

        var (ratio, arm) = (Unsafe.Add(ref c, SeriesConstant.DamperRatio), Unsafe.Add(ref c, SeriesConstant.DamperArm));
        WatchDamper(0, ratio, arm, start, end);
        WatchDamper(1, ratio, T.All(0) - arm, start, end);
        (ratio, arm) = (Unsafe.Add(ref c, SeriesConstant.SpringRatio), Unsafe.Add(ref c, SeriesConstant.SpringArm));
        WatchPair(SeriesGuard.Spring, ratio, arm, start.Heave, start.Roll, start.HeaveRate, start.RollRate, end.Heave, end.Roll, end.HeaveRate, end.RollRate);
        for (var pair = 0; pair < SeriesCar.Slots; pair += 2)
        {
            (ratio, arm) = (Unsafe.Add(ref c, SeriesConstant.StopRatio + pair), Unsafe.Add(ref c, SeriesConstant.StopArm + pair));
            WatchPair(SeriesGuard.Stop + pair, ratio, arm, start.Heave, start.Roll, start.HeaveRate, start.RollRate, end.Heave, end.Roll, end.HeaveRate, end.RollRate);
        }

        WatchTyres(ref s, ref c, ref e);
    }

    private void WatchTyres(ref T s, ref T c, ref T e)
    {
        var (stiffness, time, load) = (Unsafe.Add(ref c, SeriesConstant.TyreStiffness), Unsafe.Add(ref c, SeriesConstant.TyreTime), Unsafe.Add(ref c, SeriesConstant.StaticLoad));
        for (var side = 0; side < 2; side++)
        {
            var row = SeriesRow.LeftPush + side;
            var (push, pushRate) = EndOf(ref s, row);
            for (var slot = 2 * side; slot < 2 * (side + 1); slot++)
            {
                if (!HasContact(slot))
                {
                    _outside[SeriesGuard.Contact + slot] = 0;
                    continue;
                }

                var y = Unsafe.Add(ref c, SeriesConstant.Contact + slot);
                var (z0, v0, a0) = (Wheel(ref s, SeriesRow.Position), Wheel(ref s, SeriesRow.Velocity), Wheel(ref s, SeriesRow.Acceleration));
                var (z1, v1, a1) = (EndWheel(ref e, 0), EndWheel(ref e, HalfCarState.Rates), EndWheel(ref e, 2 * HalfCarState.Rates));
                _outside[SeriesGuard.Contact + slot] = Outside(
                    SeriesGuard.Contact + slot,
                    load + At(ref s, row, 0) - (stiffness * T.Fma(time, v0, z0)),
                    At(ref s, row, 1) - (stiffness * T.Fma(time, a0, v0)),
                    load + push - (stiffness * T.Fma(time, v1, z1)),
                    pushRate - (stiffness * T.Fma(time, a1, v1)));

                T Wheel(ref T series, int first) => T.Fma(y, At(ref series, first + HalfCarState.UnsprungRoll, 0), At(ref series, first + HalfCarState.UnsprungHeave, 0));

                T EndWheel(ref T values, int first) => T.Fma(y, Unsafe.Add(ref values, first + HalfCarState.UnsprungRoll), Unsafe.Add(ref values, first + HalfCarState.UnsprungHeave));
            }
        }
    }

    /// <summary>Whether any lane has a tyre in a slot.</summary>
    private bool HasContact(int slot) => (_contactSlots >> slot & 1) != 0;

    /// <summary>The value and the rate of an input's row at the end of the step.</summary>
    private (T Value, T Rate) EndOf(ref T s, int row)
    {
        var h = _step[0];
        var (value, rate) = (At(ref s, row, _inputTerms - 1), T.All(0));
        for (var k = _inputTerms - 2; k >= 0; k--)
        {
            rate = T.Fma(rate, h, value);
            value = T.Fma(value, h, At(ref s, row, k));
        }

        return (value, rate);
    }

    private void WatchDamper(int damper, T ratio, T arm, in Relative start, in Relative end)
    {
        var velocity0 = T.Fma(arm, start.RollRate, ratio * start.HeaveRate);
        var rate0 = T.Fma(arm, start.RollAcceleration, ratio * start.HeaveAcceleration);
        var velocity1 = T.Fma(arm, end.RollRate, ratio * end.HeaveRate);
        var rate1 = T.Fma(arm, end.RollAcceleration, ratio * end.HeaveAcceleration);
        (_velocities[4 * damper], _velocities[(4 * damper) + 1]) = (velocity0, rate0);
        (_velocities[(4 * damper) + 2], _velocities[(4 * damper) + 3]) = (velocity1, rate1);
        _outside[SeriesGuard.Damper + damper] = Outside(SeriesGuard.Damper + damper, velocity0, rate0, velocity1, rate1);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void WatchPair(int guard, T ratio, T arm, T q0, T r0, T qRate0, T rRate0, T q1, T r1, T qRate1, T rRate1)
    {
        var (heave0, heaveRate0, heave1, heaveRate1) = (ratio * q0, ratio * qRate0, ratio * q1, ratio * qRate1);
        _outside[guard] = Outside(guard, T.Fma(arm, r0, heave0), T.Fma(arm, rRate0, heaveRate0), T.Fma(arm, r1, heave1), T.Fma(arm, rRate1, heaveRate1));
        _outside[guard + 1] = Outside(guard + 1, T.NegatedFma(arm, r0, heave0), T.NegatedFma(arm, rRate0, heaveRate0), T.NegatedFma(arm, r1, heave1), T.NegatedFma(arm, rRate1, heaveRate1));
    }

    /// <summary>
    /// Whether a quantity may leave its bounds in the step, a bit a lane: it ends outside, or it turns round inside the step and
    /// its tangents at both ends meet outside.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int Outside(int guard, T value0, T rate0, T value1, T rate1)
    {
        var (low, high) = (_low[guard], _high[guard]);
        var outside = T.Greater(value1, high) | T.Greater(low, value1);
        var turns = T.Greater(T.All(0), rate0 * rate1);
        if (turns == 0)
            return outside;
        var meeting = (value1 - value0 - (rate1 * _step[0])) / (rate0 - rate1);
        var turning = T.Fma(rate0, meeting, value0);
        return outside | (turns & (T.Greater(turning, high) | T.Greater(low, turning)));
    }

    /// <summary>Motion of the axle relative to the body.</summary>
    private readonly record struct Relative(T Heave, T Roll, T HeaveRate, T RollRate, T HeaveAcceleration, T RollAcceleration)
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public static Relative AtStart(ref T s) => new(
            At(ref s, SeriesRow.Position + HalfCarState.UnsprungHeave, 0) - At(ref s, SeriesRow.Position + HalfCarState.BodyHeave, 0),
            At(ref s, SeriesRow.Position + HalfCarState.UnsprungRoll, 0) - At(ref s, SeriesRow.Position + HalfCarState.BodyRoll, 0),
            At(ref s, SeriesRow.Velocity + HalfCarState.UnsprungHeave, 0) - At(ref s, SeriesRow.Velocity + HalfCarState.BodyHeave, 0),
            At(ref s, SeriesRow.Velocity + HalfCarState.UnsprungRoll, 0) - At(ref s, SeriesRow.Velocity + HalfCarState.BodyRoll, 0),
            At(ref s, SeriesRow.Acceleration + HalfCarState.UnsprungHeave, 0) - At(ref s, SeriesRow.Acceleration + HalfCarState.BodyHeave, 0),
            At(ref s, SeriesRow.Acceleration + HalfCarState.UnsprungRoll, 0) - At(ref s, SeriesRow.Acceleration + HalfCarState.BodyRoll, 0));

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public static Relative AtEnd(ref T e) => new(
            Unsafe.Add(ref e, HalfCarState.UnsprungHeave) - Unsafe.Add(ref e, HalfCarState.BodyHeave),
            Unsafe.Add(ref e, HalfCarState.UnsprungRoll) - Unsafe.Add(ref e, HalfCarState.BodyRoll),
            Unsafe.Add(ref e, 4 + HalfCarState.UnsprungHeave) - Unsafe.Add(ref e, 4 + HalfCarState.BodyHeave),
            Unsafe.Add(ref e, 4 + HalfCarState.UnsprungRoll) - Unsafe.Add(ref e, 4 + HalfCarState.BodyRoll),
            Unsafe.Add(ref e, 8 + HalfCarState.UnsprungHeave) - Unsafe.Add(ref e, 8 + HalfCarState.BodyHeave),
            Unsafe.Add(ref e, 8 + HalfCarState.UnsprungRoll) - Unsafe.Add(ref e, 8 + HalfCarState.BodyRoll));
    }
}
