using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <content>The guards: which of the quantities whose laws have kinks may reach a bound in the step.</content>
internal sealed partial class SeriesSolver<T>
{
    // The lanes in which each guard may reach a bound, a bit each.
    private readonly int[] _outside = new int[SeriesGuard.Count];

    // The lanes in which it turns round in a half of the step, a bit each.
    private readonly int[] _turning = new int[SeriesGuard.Count];

    // Coordinates, velocities and accelerations in the middle of the step, as in _end.
    private readonly LaneBuffer<T> _middle = new(3 * HalfCarState.Rates);

    // Values and rates of both dampers' velocities, at the start and at the end of the step: four elements each.
    private readonly LaneBuffer<T> _velocities = new(8);

    /// <summary>Finds the guards that may reach a bound in the step, a bit a lane: in either half of it by itself.</summary>
    private void WatchGuards()
    {
        EvaluateAt(_step[0] * T.All(0.5), _middle);
        Array.Clear(_outside);
        Array.Clear(_turning);
        var (start, middle, end) = (Relative.AtStart(ref _series[0]), Relative.Of(ref _middle[0]), Relative.Of(ref _end[0]));
        WatchHalf(start, middle);
        WatchHalf(middle, end);
        WatchTyres();
        for (var damper = 0; damper < 2; damper++)
        {
            var (ratio, arm) = (_constants[SeriesConstant.DamperRatio], Arm(damper));
            (_velocities[4 * damper], _velocities[(4 * damper) + 1]) = (T.Fma(arm, start.RollRate, ratio * start.HeaveRate), T.Fma(arm, start.RollAcceleration, ratio * start.HeaveAcceleration));
            (_velocities[(4 * damper) + 2], _velocities[(4 * damper) + 3]) = (T.Fma(arm, end.RollRate, ratio * end.HeaveRate), T.Fma(arm, end.RollAcceleration, ratio * end.HeaveAcceleration));
        }
    }

    /// <summary>Roll arm of a damper, signed.</summary>
    private T Arm(int damper) => damper == 0 ? _constants[SeriesConstant.DamperArm] : T.All(0) - _constants[SeriesConstant.DamperArm];

    private void WatchHalf(in Relative start, in Relative end)
    {
        ref var c = ref _constants[0];
        var (ratio, arm) = (Unsafe.Add(ref c, SeriesConstant.DamperRatio), Unsafe.Add(ref c, SeriesConstant.DamperArm));
        WatchPair(SeriesGuard.Damper, ratio, arm, start.HeaveRate, start.RollRate, start.HeaveAcceleration, start.RollAcceleration, end.HeaveRate, end.RollRate, end.HeaveAcceleration, end.RollAcceleration);
        (ratio, arm) = (Unsafe.Add(ref c, SeriesConstant.SpringRatio), Unsafe.Add(ref c, SeriesConstant.SpringArm));
        WatchPair(SeriesGuard.Spring, ratio, arm, start.Heave, start.Roll, start.HeaveRate, start.RollRate, end.Heave, end.Roll, end.HeaveRate, end.RollRate);
        for (var pair = 0; pair < SeriesCar.Slots; pair += 2)
        {
            (ratio, arm) = (Unsafe.Add(ref c, SeriesConstant.StopRatio + pair), Unsafe.Add(ref c, SeriesConstant.StopArm + pair));
            WatchPair(SeriesGuard.Stop + pair, ratio, arm, start.Heave, start.Roll, start.HeaveRate, start.RollRate, end.Heave, end.Roll, end.HeaveRate, end.RollRate);
        }
    }

    private void WatchTyres()
    {
        for (var side = 0; side < 2; side++)
        {
            var row = SeriesRow.LeftPush + side;
            var start = (_series[row * SeriesRow.Terms], _series[(row * SeriesRow.Terms) + 1]);
            var (middle, end) = (PushAt(row, _step[0] * T.All(0.5)), PushAt(row, _step[0]));
            for (var slot = 2 * side; slot < 2 * (side + 1); slot++)
            {
                if (!HasContact(slot))
                    continue;
                var (load0, rate0) = Load(slot, start, AtStart(0), AtStart(1), AtStart(2));
                var (load1, rate1) = Load(slot, middle, At(_middle, 0), At(_middle, 1), At(_middle, 2));
                var (load2, rate2) = Load(slot, end, At(_end, 0), At(_end, 1), At(_end, 2));
                Watch(SeriesGuard.Contact + slot, load0, rate0, load1, rate1);
                Watch(SeriesGuard.Contact + slot, load1, rate1, load2, rate2);
            }
        }

        (T Heave, T Roll) AtStart(int derivative) => (
            _series[((4 * derivative) + HalfCarState.UnsprungHeave) * SeriesRow.Terms], _series[((4 * derivative) + HalfCarState.UnsprungRoll) * SeriesRow.Terms]);

        static (T Heave, T Roll) At(LaneBuffer<T> motion, int derivative) =>
            (motion[(4 * derivative) + HalfCarState.UnsprungHeave], motion[(4 * derivative) + HalfCarState.UnsprungRoll]);
    }

    /// <summary>Load of a tyre contact, not limited to zero, and its rate.</summary>
    private (T Load, T Rate) Load(int slot, (T Value, T Rate) push, (T Heave, T Roll) position, (T Heave, T Roll) velocity, (T Heave, T Roll) acceleration)
    {
        var (stiffness, time, y) = (_constants[SeriesConstant.TyreStiffness], _constants[SeriesConstant.TyreTime], _constants[SeriesConstant.Contact + slot]);
        var (z, v, a) = (T.Fma(y, position.Roll, position.Heave), T.Fma(y, velocity.Roll, velocity.Heave), T.Fma(y, acceleration.Roll, acceleration.Heave));
        return (_constants[SeriesConstant.StaticLoad] + push.Value - (stiffness * T.Fma(time, v, z)), push.Rate - (stiffness * T.Fma(time, a, v)));
    }

    /// <summary>Whether any lane has a tyre in a slot.</summary>
    private bool HasContact(int slot) => (_contactSlots >> slot & 1) != 0;

    /// <summary>What the road pushes through one tyre, and its rate, at a time in the step.</summary>
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

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void WatchPair(int guard, T ratio, T arm, T q0, T r0, T qRate0, T rRate0, T q1, T r1, T qRate1, T rRate1)
    {
        var (heave0, heaveRate0, heave1, heaveRate1) = (ratio * q0, ratio * qRate0, ratio * q1, ratio * qRate1);
        Watch(guard, T.Fma(arm, r0, heave0), T.Fma(arm, rRate0, heaveRate0), T.Fma(arm, r1, heave1), T.Fma(arm, rRate1, heaveRate1));
        Watch(guard + 1, T.NegatedFma(arm, r0, heave0), T.NegatedFma(arm, rRate0, heaveRate0), T.NegatedFma(arm, r1, heave1), T.NegatedFma(arm, rRate1, heaveRate1));
    }

    /// <summary>
    /// Notes the lanes in which a quantity may leave its bounds in half a step: it ends outside; it starts on a bound and does not move
    /// inwards; or it turns round on the way and its tangents at both ends meet outside.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Watch(int guard, T value0, T rate0, T value1, T rate1)
    {
        var (low, high, zero) = (_low[guard], _high[guard], T.All(0));
        var outside = T.Greater(value1, high) | T.Greater(low, value1)
            | ~(T.Greater(high, value0) | T.Greater(zero, rate0)) | ~(T.Greater(value0, low) | T.Greater(rate0, zero));
        var turns = T.Greater(zero, rate0 * rate1);
        if (turns != 0)
        {
            var meeting = (value1 - value0 - (rate1 * _step[0] * T.All(0.5))) / (rate0 - rate1);
            var turning = T.Fma(rate0, meeting, value0);
            outside |= turns & (T.Greater(turning, high) | T.Greater(low, turning));
            _turning[guard] |= turns;
        }

        _outside[guard] |= outside & _running;
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
