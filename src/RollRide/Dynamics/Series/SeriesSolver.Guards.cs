using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <content>The guards: which of the quantities whose laws have kinks may reach a bound in the step.</content>
internal sealed partial class SeriesSolver<T>
{
    // The lanes in which each guard may reach a bound, a bit each.
    private readonly int[] _outside = new int[SeriesGuard.Count];

    // The lanes in which it turns round in a part of the step, a bit each.
    private readonly int[] _turning = new int[SeriesGuard.Count];

    // Coordinates, velocities and accelerations in the middle of the step, as in _end.
    private readonly LaneBuffer<T> _middle = new(3 * HalfCarState.Rates);

    // Values and rates of both dampers' velocities, at the start and at the end of the step: four elements each.
    private readonly LaneBuffer<T> _velocities = new(8);

    /// <summary>
    /// Finds the guards that may reach a bound in the step, a bit a lane. Velocities and loads, which swing with the wheels, are looked at in
    /// either half of it by itself; compressions swing with what they are the integral of, and less.
    /// </summary>
    private void WatchGuards()
    {
        var (step, half) = (_step[0], _step[0] * T.All(0.5));
        EvaluateAt(half, _middle);
        Array.Clear(_outside);
        Array.Clear(_turning);
        var (start, middle, end) = (Relative.AtStart(ref _series[0]), Relative.Of(ref _middle[0]), Relative.Of(ref _end[0]));
        WatchDamper(0, _constants[SeriesConstant.DamperArm], start, middle, end, half);
        WatchDamper(1, T.All(0) - _constants[SeriesConstant.DamperArm], start, middle, end, half);
        if (_hasBentSprings)
            WatchTravel(SeriesGuard.Spring, _constants[SeriesConstant.SpringRatio], _constants[SeriesConstant.SpringArm], start, end, step);
        for (var pair = 0; pair < SeriesCar.Slots; pair += 2)
            WatchTravel(SeriesGuard.Stop + pair, _constants[SeriesConstant.StopRatio + pair], _constants[SeriesConstant.StopArm + pair], start, end, step);
        WatchTyres(half);
    }

    private void WatchDamper(int damper, T arm, in Relative start, in Relative middle, in Relative end, T half)
    {
        var ratio = _constants[SeriesConstant.DamperRatio];
        var (velocity0, rate0) = (T.Fma(arm, start.RollRate, ratio * start.HeaveRate), T.Fma(arm, start.RollAcceleration, ratio * start.HeaveAcceleration));
        var (velocity1, rate1) = (T.Fma(arm, middle.RollRate, ratio * middle.HeaveRate), T.Fma(arm, middle.RollAcceleration, ratio * middle.HeaveAcceleration));
        var (velocity2, rate2) = (T.Fma(arm, end.RollRate, ratio * end.HeaveRate), T.Fma(arm, end.RollAcceleration, ratio * end.HeaveAcceleration));
        Watch(SeriesGuard.Damper + damper, velocity0, rate0, velocity1, rate1, half);
        Watch(SeriesGuard.Damper + damper, velocity1, rate1, velocity2, rate2, half);
        (_velocities[4 * damper], _velocities[(4 * damper) + 1]) = (velocity0, rate0);
        (_velocities[(4 * damper) + 2], _velocities[(4 * damper) + 3]) = (velocity2, rate2);
    }

    /// <summary>Watches the compression of an element and of its mirror image.</summary>
    private void WatchTravel(int guard, T ratio, T arm, in Relative start, in Relative end, T step)
    {
        var (heave0, heaveRate0, heave1, heaveRate1) = (ratio * start.Heave, ratio * start.HeaveRate, ratio * end.Heave, ratio * end.HeaveRate);
        Watch(guard, T.Fma(arm, start.Roll, heave0), T.Fma(arm, start.RollRate, heaveRate0), T.Fma(arm, end.Roll, heave1), T.Fma(arm, end.RollRate, heaveRate1), step);
        Watch(
            guard + 1,
            T.NegatedFma(arm, start.Roll, heave0),
            T.NegatedFma(arm, start.RollRate, heaveRate0),
            T.NegatedFma(arm, end.Roll, heave1),
            T.NegatedFma(arm, end.RollRate, heaveRate1),
            step);
    }

    private void WatchTyres(T half)
    {
        for (var side = 0; side < 2; side++)
        {
            var row = SeriesRow.LeftPush + side;
            var start = (_series[row * SeriesRow.Terms], _series[(row * SeriesRow.Terms) + 1]);
            var (middle, end) = (PushAt(row, half), PushAt(row, _step[0]));
            for (var slot = 2 * side; slot < 2 * (side + 1); slot++)
            {
                if (!HasContact(slot))
                    continue;
                var (load0, rate0) = Load(slot, start, AtStart(0), AtStart(1), AtStart(2));
                var (load1, rate1) = Load(slot, middle, At(_middle, 0), At(_middle, 1), At(_middle, 2));
                var (load2, rate2) = Load(slot, end, At(_end, 0), At(_end, 1), At(_end, 2));
                Watch(SeriesGuard.Contact + slot, load0, rate0, load1, rate1, half);
                Watch(SeriesGuard.Contact + slot, load1, rate1, load2, rate2, half);
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

    /// <summary>
    /// Notes the lanes in which a quantity may leave its bounds in a part of a step: it ends outside; it starts on a bound and does not move
    /// inwards; or it turns round on the way and its tangents at both ends meet outside.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Watch(int guard, T value0, T rate0, T value1, T rate1, T length)
    {
        var (low, high, zero) = (_low[guard], _high[guard], T.All(0));
        var outside = T.Greater(value1, high) | T.Greater(low, value1)
            | ~(T.Greater(high, value0) | T.Greater(zero, rate0)) | ~(T.Greater(value0, low) | T.Greater(rate0, zero));
        var turns = T.Greater(zero, rate0 * rate1);
        if (turns != 0)
        {
            var meeting = (value1 - value0 - (rate1 * length)) / (rate0 - rate1);
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
