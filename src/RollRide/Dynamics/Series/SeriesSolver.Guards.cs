using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <content>The guards: which of the quantities whose laws have kinks may reach a bound in the step.</content>
internal sealed partial class SeriesSolver<T>
{
    // The lanes in which each guard may reach a bound, a bit each.
    private readonly int[] _outside = new int[SeriesGuard.Count];

    // The lanes in which each damper's velocity may leave its bounds in either half of the step, and in which it turns round in it, a bit each.
    private readonly int[] _leaving = new int[4];
    private readonly int[] _turning = new int[4];

    // Coordinates, velocities and accelerations in the middle of the step, as in _end.
    private readonly LaneBuffer<T> _middle = new(3 * HalfCarState.Rates);

    // Values and rates of both dampers' velocities, at the start, in the middle and at the end of the step: six elements each.
    private readonly LaneBuffer<T> _velocities = new(12);

    /// <summary>
    /// Finds the guards that may reach a bound in the step, a bit a lane. Velocities and loads, which swing with the wheels, are looked at in
    /// either half of it by itself; compressions swing with what they are the integral of, and less.
    /// </summary>
    private void WatchGuards()
    {
        var (step, half) = (_step[0], _step[0] * T.All(0.5));
        EvaluateAt(half, _middle);
        Array.Clear(_outside);
        (_kinked, _watched) = (0, 0);
        ref var c = ref _constants[0];
        ref var low = ref _low[SeriesGuard.Damper];
        ref var high = ref _high[SeriesGuard.Damper];
        var (start, middle, end) = (Relative.AtStart(ref _series[0]), Relative.Of(ref _middle[0]), Relative.Of(ref _end[0]));
        var arm = Unsafe.Add(ref c, SeriesConstant.DamperArm);
        WatchDamper(0, ref c, arm, low, high, start, middle, end, half);
        WatchDamper(1, ref c, T.All(0) - arm, Unsafe.Add(ref low, 1), Unsafe.Add(ref high, 1), start, middle, end, half);
        if (_hasBentSprings)
            WatchTravel(SeriesGuard.Spring, Unsafe.Add(ref c, SeriesConstant.SpringRatio), Unsafe.Add(ref c, SeriesConstant.SpringArm), start, end, step);
        for (var pair = 0; pair < SeriesCar.Slots; pair += 2)
            WatchTravel(SeriesGuard.Stop + pair, Unsafe.Add(ref c, SeriesConstant.StopRatio + pair), Unsafe.Add(ref c, SeriesConstant.StopArm + pair), start, end, step);
        WatchTyres(half);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void WatchDamper(int damper, ref T c, in T arm, in T low, in T high, in Relative start, in Relative middle, in Relative end, in T half)
    {
        ref var ratio = ref Unsafe.Add(ref c, SeriesConstant.DamperRatio);
        var (velocity0, rate0) = (T.Fma(arm, start.RollRate, ratio * start.HeaveRate), T.Fma(arm, start.RollAcceleration, ratio * start.HeaveAcceleration));
        var (velocity1, rate1) = (T.Fma(arm, middle.RollRate, ratio * middle.HeaveRate), T.Fma(arm, middle.RollAcceleration, ratio * middle.HeaveAcceleration));
        var (velocity2, rate2) = (T.Fma(arm, end.RollRate, ratio * end.HeaveRate), T.Fma(arm, end.RollAcceleration, ratio * end.HeaveAcceleration));
        _leaving[2 * damper] = Watch(SeriesGuard.Damper + damper, low, high, velocity0, rate0, velocity1, rate1, half, out _turning[2 * damper]);
        _leaving[(2 * damper) + 1] = Watch(SeriesGuard.Damper + damper, low, high, velocity1, rate1, velocity2, rate2, half, out _turning[(2 * damper) + 1]);
        ref var v = ref _velocities[6 * damper];
        (v, Unsafe.Add(ref v, 1)) = (velocity0, rate0);
        (Unsafe.Add(ref v, 2), Unsafe.Add(ref v, 3)) = (velocity1, rate1);
        (Unsafe.Add(ref v, 4), Unsafe.Add(ref v, 5)) = (velocity2, rate2);
    }

    /// <summary>Watches the compression of an element and of its mirror image.</summary>
    private void WatchTravel(int guard, in T ratio, in T arm, in Relative start, in Relative end, in T step)
    {
        ref var low = ref _low[guard];
        ref var high = ref _high[guard];
        var (heave0, heaveRate0, heave1, heaveRate1) = (ratio * start.Heave, ratio * start.HeaveRate, ratio * end.Heave, ratio * end.HeaveRate);
        Watch(guard, low, high, T.Fma(arm, start.Roll, heave0), T.Fma(arm, start.RollRate, heaveRate0), T.Fma(arm, end.Roll, heave1), T.Fma(arm, end.RollRate, heaveRate1), step, out _);
        Watch(
            guard + 1,
            Unsafe.Add(ref low, 1),
            Unsafe.Add(ref high, 1),
            T.NegatedFma(arm, start.Roll, heave0),
            T.NegatedFma(arm, start.RollRate, heaveRate0),
            T.NegatedFma(arm, end.Roll, heave1),
            T.NegatedFma(arm, end.RollRate, heaveRate1),
            step,
            out _);
    }

    private void WatchTyres(T half)
    {
        ref var c = ref _constants[0];
        ref var s = ref _series[0];
        ref var m = ref _middle[0];
        ref var e = ref _end[0];
        ref var low = ref _low[SeriesGuard.Contact];
        ref var high = ref _high[SeriesGuard.Contact];
        var (stiffness, atRest) = (Unsafe.Add(ref c, SeriesConstant.TyreStiffness), Unsafe.Add(ref c, SeriesConstant.StaticLoad));
        for (var side = 0; side < 2; side++)
        {
            var row = SeriesRow.LeftPush + side;
            var (push0, pushRate0) = (At(ref s, row, 0), At(ref s, row, 1));
            var ((push1, pushRate1), (push2, pushRate2)) = (PushAt(row, half), PushAt(row, _step[0]));
            for (var slot = 2 * side; slot < 2 * (side + 1); slot++)
            {
                if (!HasContact(slot))
                    continue;
                var (time, y) = (Unsafe.Add(ref c, SeriesConstant.TyreTime), Unsafe.Add(ref c, SeriesConstant.Contact + slot));
                var start = (Position: AtStart(ref s, 0, y), Velocity: AtStart(ref s, 1, y), Acceleration: AtStart(ref s, 2, y));
                var load0 = atRest + push0 - (stiffness * T.Fma(time, start.Velocity, start.Position));
                var rate0 = pushRate0 - (stiffness * T.Fma(time, start.Acceleration, start.Velocity));
                var middle = (Position: In(ref m, 0, y), Velocity: In(ref m, 1, y), Acceleration: In(ref m, 2, y));
                var load1 = atRest + push1 - (stiffness * T.Fma(time, middle.Velocity, middle.Position));
                var rate1 = pushRate1 - (stiffness * T.Fma(time, middle.Acceleration, middle.Velocity));
                Watch(SeriesGuard.Contact + slot, Unsafe.Add(ref low, slot), Unsafe.Add(ref high, slot), load0, rate0, load1, rate1, half, out _);
                var end = (Position: In(ref e, 0, y), Velocity: In(ref e, 1, y), Acceleration: In(ref e, 2, y));
                var load2 = atRest + push2 - (stiffness * T.Fma(time, end.Velocity, end.Position));
                var rate2 = pushRate2 - (stiffness * T.Fma(time, end.Acceleration, end.Velocity));
                Watch(SeriesGuard.Contact + slot, Unsafe.Add(ref low, slot), Unsafe.Add(ref high, slot), load1, rate1, load2, rate2, half, out _);
            }
        }

        static T AtStart(ref T s, int derivative, T y) => T.Fma(
            y, At(ref s, (4 * derivative) + HalfCarState.UnsprungRoll, 0), At(ref s, (4 * derivative) + HalfCarState.UnsprungHeave, 0));

        static T In(ref T motion, int derivative, T y) => T.Fma(
            y, Unsafe.Add(ref motion, (4 * derivative) + HalfCarState.UnsprungRoll), Unsafe.Add(ref motion, (4 * derivative) + HalfCarState.UnsprungHeave));
    }

    /// <summary>Whether any lane has a tyre in a slot.</summary>
    private bool HasContact(int slot) => (_contactSlots >> slot & 1) != 0;

    /// <summary>What the road pushes through one tyre, and its rate, at a time in the step.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (T Value, T Rate) PushAt(int row, T h)
    {
        ref var s = ref _series[0];
        var (value, rate) = (At(ref s, row, _inputTerms - 1), T.All(0));
        for (var k = _inputTerms - 2; k >= 0; k--)
        {
            rate = T.Fma(rate, h, value);
            value = T.Fma(value, h, At(ref s, row, k));
        }

        return (value, rate);
    }

    /// <summary>
    /// Notes the lanes in which a quantity may leave its bounds in a part of a step: it ends outside; it starts on a bound and does not move
    /// inwards; or it turns round on the way and its tangents at both ends meet outside.
    /// </summary>
    /// <returns>These lanes, a bit each.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int Watch(int guard, in T low, in T high, in T value0, in T rate0, in T value1, in T rate1, in T length, out int turns)
    {
        var zero = T.All(0);
        var outside = T.Greater(value1, high) | T.Greater(low, value1)
            | ~(T.Greater(high, value0) | T.Greater(zero, rate0)) | ~(T.Greater(value0, low) | T.Greater(rate0, zero));
        turns = T.Greater(zero, rate0 * rate1);
        if (turns != 0)
        {
            var meeting = (value1 - value0 - (rate1 * length)) / (rate0 - rate1);
            var turning = T.Fma(rate0, meeting, value0);
            outside |= turns & (T.Greater(turning, high) | T.Greater(low, turning));
        }

        outside &= _running;
        if (outside != 0)
        {
            _outside[guard] |= outside;
            _kinked |= outside;
            _watched |= 1 << guard;
        }

        return outside;
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
        public static Relative Of(ref T e) => new(
            Unsafe.Add(ref e, HalfCarState.UnsprungHeave) - Unsafe.Add(ref e, HalfCarState.BodyHeave),
            Unsafe.Add(ref e, HalfCarState.UnsprungRoll) - Unsafe.Add(ref e, HalfCarState.BodyRoll),
            Unsafe.Add(ref e, 4 + HalfCarState.UnsprungHeave) - Unsafe.Add(ref e, 4 + HalfCarState.BodyHeave),
            Unsafe.Add(ref e, 4 + HalfCarState.UnsprungRoll) - Unsafe.Add(ref e, 4 + HalfCarState.BodyRoll),
            Unsafe.Add(ref e, 8 + HalfCarState.UnsprungHeave) - Unsafe.Add(ref e, 8 + HalfCarState.BodyHeave),
            Unsafe.Add(ref e, 8 + HalfCarState.UnsprungRoll) - Unsafe.Add(ref e, 8 + HalfCarState.BodyRoll));
    }
}
