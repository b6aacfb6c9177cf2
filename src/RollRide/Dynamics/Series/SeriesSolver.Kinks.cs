using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace RollRide.Dynamics.Series;

/// <content>The kinks: where a guarded quantity reaches a bound, the step ends, and the next piece of its law acts.</content>
internal sealed partial class SeriesSolver<T>
{
    /// <summary>
    /// A quantity that starts on its bound, to rounding, and leaves: the shortest step, s, so that the run goes on. What the
    /// force is wrong by in that time is its change of slope times so little velocity that it does not count.
    /// </summary>
    private const double ShortestStep = 1e-9;

    /// <summary>Bounds reached within this time, s, are reached together, as by both sides in pure heave.</summary>
    private const double SameInstant = 1e-12;

    private const int NewtonSteps = 60;

    /// <summary>Parts of a step looked at one by one where a quantity turns round in it.</summary>
    private const int Parts = 16;

    private readonly int[] _outside = new int[SeriesGuard.Count];

    /// <summary>Shortens the step of every lane in which a bound is reached.</summary>
    /// <returns>Whether there was one.</returns>
    private bool FindKinks()
    {
        WatchGuards();
        var any = 0;
        for (var guard = 0; guard < SeriesGuard.Count; guard++)
            any |= _outside[guard];
        for (var lane = 0; lane < T.Count; lane++)
        {
            if ((any >> lane & 1) != 0)
                ShortenStep(lane);
            else
                _lanes[lane].Reached = 0;
        }

        return any != 0;
    }

    /// <summary>Finds the guards that may reach a bound in the step, a bit a lane.</summary>
    private void WatchGuards()
    {
        ref var s = ref MemoryMarshal.GetArrayDataReference(_series);
        ref var c = ref MemoryMarshal.GetArrayDataReference(_constants);
        ref var e = ref MemoryMarshal.GetArrayDataReference(_end);
        var start = Relative.AtStart(ref s);
        var end = Relative.AtEnd(ref e);

        var (ratio, arm) = (Unsafe.Add(ref c, SeriesConstant.DamperRatio), Unsafe.Add(ref c, SeriesConstant.DamperArm));
        WatchPair(SeriesGuard.Damper, ratio, arm, start.HeaveRate, start.RollRate, start.HeaveAcceleration, start.RollAcceleration, end.HeaveRate, end.RollRate, end.HeaveAcceleration, end.RollAcceleration);
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

    private void ShortenStep(int lane)
    {
        var it = _lanes[lane];
        var step = Scalar(_step, 0, lane);
        var first = step;
        it.Reached = 0;
        Span<double> times = stackalloc double[SeriesGuard.Count];
        for (var guard = 0; guard < SeriesGuard.Count; guard++)
        {
            times[guard] = double.PositiveInfinity;
            if ((_outside[guard] >> lane & 1) == 0)
                continue;
            times[guard] = FirstReach(lane, guard, step, out var rising);
            it.Rising = rising ? it.Rising | (1 << guard) : it.Rising & ~(1 << guard);
            first = Math.Min(first, times[guard]);
        }

        for (var guard = 0; guard < SeriesGuard.Count; guard++)
        {
            if (times[guard] <= first + SameInstant)
                it.Reached |= 1 << guard;
        }

        Scalar(_step, 0, lane) = first;
    }

    /// <summary>The first time in the step at which a quantity reaches a bound; +∞ if it does not.</summary>
    private double FirstReach(int lane, int guard, double step, out bool rising)
    {
        var g = _polynomial.AsSpan(0, WritePolynomial(lane, guard));
        var (low, high) = (Scalar(_low, guard, lane), Scalar(_high, guard, lane));
        var (end, endRate) = Evaluate(g, step);
        rising = end > high || (!(end < low) && g[1] > 0);
        var bound = rising ? high : low;
        var sign = rising ? 1 : -1;
        var shortest = Math.Min(ShortestStep, step);
        var leaves = sign * (end - bound) > 0;

        // On the bound already, to rounding, and on its way out.
        if (sign * (g[0] - bound) >= 0 && sign * g[1] >= 0)
            return leaves ? shortest : double.PositiveInfinity;
        if (leaves && sign * (g[0] - bound) < 0 && sign * g[1] > 0 && sign * endRate > 0)
            return Math.Max(shortest, Crossing(g, bound, sign, 0, step));

        // It turns round on the way: the first part of the step at whose end it is outside, having been inside.
        var wasInside = sign * (g[0] - bound) < 0;
        for (var part = 1; part <= Parts; part++)
        {
            var isInside = sign * (Evaluate(g, step * part / Parts).Value - bound) < 0;
            if (wasInside && !isInside)
                return Math.Max(shortest, Crossing(g, bound, sign, step * (part - 1) / Parts, step * part / Parts));
            wasInside |= isInside;
        }

        return leaves ? shortest : double.PositiveInfinity;
    }

    /// <summary>Where the polynomial reaches a bound that it is inside of at one end and outside of at the other.</summary>
    private static double Crossing(ReadOnlySpan<double> g, double bound, int sign, double inside, double outside)
    {
        var (inValue, outValue) = (Evaluate(g, inside).Value, Evaluate(g, outside).Value);
        var time = inside + ((outside - inside) * Math.Clamp((bound - inValue) / (outValue - inValue), 0, 1));
        var (low, high) = (inside, outside);
        for (var i = 0; i < NewtonSteps; i++)
        {
            var (value, rate) = Evaluate(g, time);
            var excess = sign * (value - bound);
            if (excess > 0)
                high = time;
            else
                low = time;
            var next = time - ((value - bound) / rate);
            if (!(next > low && next < high))
                next = 0.5 * (low + high);
            if (Math.Abs(next - time) <= SameInstant * 1e-2)
                return next;
            time = next;
        }

        return time;
    }

    private static (double Value, double Rate) Evaluate(ReadOnlySpan<double> g, double time)
    {
        var (value, rate) = (g[^1], 0.0);
        for (var k = g.Length - 2; k >= 0; k--)
        {
            rate = Math.FusedMultiplyAdd(rate, time, value);
            value = Math.FusedMultiplyAdd(value, time, g[k]);
        }

        return (value, rate);
    }

    /// <summary>Writes the series of a guarded quantity.</summary>
    /// <returns>Number of terms.</returns>
    private int WritePolynomial(int lane, int guard)
    {
        var car = _lanes[lane].Car!;
        switch (guard)
        {
            case < SeriesGuard.Spring:
                Write(SeriesRow.Velocity, SeriesRow.Order, car.DamperRatio, guard == SeriesGuard.Damper ? car.DamperArm : -car.DamperArm);
                return SeriesRow.Order;
            case < SeriesGuard.Stop:
                Write(SeriesRow.Position, SeriesRow.Terms, car.SpringRatio, guard == SeriesGuard.Spring ? car.SpringArm : -car.SpringArm);
                return SeriesRow.Terms;
            case < SeriesGuard.Contact:
                var stop = car.Stops[guard - SeriesGuard.Stop]!;
                Write(SeriesRow.Position, SeriesRow.Terms, stop.Ratio, stop.Arm);
                return SeriesRow.Terms;
            default:
                WriteTyre(guard - SeriesGuard.Contact);
                return SeriesRow.Order;
        }

        void Write(int row, int terms, double ratio, double arm)
        {
            for (var k = 0; k < terms; k++)
            {
                var q = Term(row + HalfCarState.UnsprungHeave, k, lane) - Term(row + HalfCarState.BodyHeave, k, lane);
                var r = Term(row + HalfCarState.UnsprungRoll, k, lane) - Term(row + HalfCarState.BodyRoll, k, lane);
                _polynomial[k] = (ratio * q) + (arm * r);
            }
        }

        void WriteTyre(int slot)
        {
            var (vehicle, y) = (car.Car.Vehicle, car.Contacts[slot]!.Value);
            var push = slot < SeriesCar.Slots / 2 ? SeriesRow.LeftPush : SeriesRow.RightPush;
            for (var k = 0; k < SeriesRow.Order; k++)
            {
                var z = Term(SeriesRow.Position + HalfCarState.UnsprungHeave, k, lane) + (y * Term(SeriesRow.Position + HalfCarState.UnsprungRoll, k, lane));
                var v = Term(SeriesRow.Velocity + HalfCarState.UnsprungHeave, k, lane) + (y * Term(SeriesRow.Velocity + HalfCarState.UnsprungRoll, k, lane));
                _polynomial[k] = Term(push, k, lane) - (vehicle.Tyre.Stiffness * z) - (vehicle.Tyre.Damping * v);
            }

            _polynomial[0] += vehicle.StaticTyreLoad;
        }
    }

    /// <summary>Moves on to the pieces beyond the bounds that the step ended on.</summary>
    private void CrossKinks(int lane)
    {
        var it = _lanes[lane];
        for (var reached = (uint)it.Reached; reached != 0; reached &= reached - 1)
        {
            var guard = BitOperations.TrailingZeroCount(reached);
            switch (guard)
            {
                case < SeriesGuard.Stop:
                    it.Pieces[guard] += (it.Rising >> guard & 1) != 0 ? 1 : -1;
                    break;
                case < SeriesGuard.Contact:
                    it.Closed[guard - SeriesGuard.Stop] ^= true;
                    break;
                default:
                    it.Lifted[guard - SeriesGuard.Contact] ^= true;
                    break;
            }
        }

        UpdateLaws(lane);
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
