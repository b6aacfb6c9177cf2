using System.Numerics;
using System.Runtime.CompilerServices;
using RollRide.Numerics;

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

    /// <summary>Newton's steps for all lanes together: enough from a cubic guess; what has not settled then is searched by itself.</summary>
    private const int NewtonStepsTogether = 4;

    private const int TurnSteps = 5;

    private readonly int[] _outside = new int[SeriesGuard.Count];

    // Values and rates of both dampers' velocities, at the start and at the end of the step: four elements each.
    private readonly LaneBuffer<T> _velocities = new(8);

    // The series of both dampers' velocities.
    private readonly LaneBuffer<T> _leftVelocity = new(SeriesRow.Order);
    private readonly LaneBuffer<T> _rightVelocity = new(SeriesRow.Order);

    // When each damper's velocity reaches its bound, and the lanes in which that is known, a bit each.
    private readonly LaneBuffer<T> _reaching = new(2);
    private readonly int[] _reachingKnown = new int[2];

    // The lanes in which some guard may reach a bound, a bit each.
    private int _kinked;

    /// <summary>Shortens the step of every lane in which a bound is reached.</summary>
    /// <returns>Whether there was one.</returns>
    private bool FindKinks()
    {
        WatchGuards();
        _kinked = 0;
        for (var guard = 0; guard < SeriesGuard.Count; guard++)
            _kinked |= _outside[guard];
        if (_kinked == 0)
            return false;
        CrossDampers();
        for (var kinked = (uint)_kinked; kinked != 0; kinked &= kinked - 1)
            ShortenStep(BitOperations.TrailingZeroCount(kinked));
        return true;
    }

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
        var (ratio, arm) = (_constants[SeriesConstant.DamperRatio], _constants[SeriesConstant.DamperArm]);
        for (var k = 0; k < SeriesRow.Order; k++)
        {
            var heave = ratio * (At(ref s, SeriesRow.Velocity + HalfCarState.UnsprungHeave, k) - At(ref s, SeriesRow.Velocity + HalfCarState.BodyHeave, k));
            var roll = At(ref s, SeriesRow.Velocity + HalfCarState.UnsprungRoll, k) - At(ref s, SeriesRow.Velocity + HalfCarState.BodyRoll, k);
            (_leftVelocity[k], _rightVelocity[k]) = (T.Fma(arm, roll, heave), T.NegatedFma(arm, roll, heave));
        }

        var (time0, time1) = (Guess(0, bound0), Guess(1, bound1));
        var (move0, move1) = (T.All(0), T.All(0));
        for (var i = 0; i < NewtonStepsTogether; i++)
        {
            var (value0, rate0) = (_leftVelocity[SeriesRow.Order - 1], T.All(0));
            var (value1, rate1) = (_rightVelocity[SeriesRow.Order - 1], T.All(0));
            for (var k = SeriesRow.Order - 2; k >= 0; k--)
            {
                (rate0, rate1) = (T.Fma(rate0, time0, value0), T.Fma(rate1, time1, value1));
                (value0, value1) = (T.Fma(value0, time0, _leftVelocity[k]), T.Fma(value1, time1, _rightVelocity[k]));
            }

            var (next0, next1) = (WithinStep(time0 - ((value0 - bound0) / rate0)), WithinStep(time1 - ((value1 - bound1) / rate1)));
            (move0, move1) = (T.Abs(next0 - time0), T.Abs(next1 - time1));
            (time0, time1) = (next0, next1);
        }

        _reachingKnown[0] &= T.Greater(T.All(SameInstant), move0);
        _reachingKnown[1] &= T.Greater(T.All(SameInstant), move1);
        (_reaching[0], _reaching[1]) = (time0, time1);
    }

    private T WithinStep(T time) => T.Max(T.Min(time, _step[0]), T.Min(T.All(ShortestStep), _step[0]));

    /// <summary>The lanes in which a damper's velocity starts inside, moves outwards at both ends and ends outside, a bit each.</summary>
    private int StraightOut(int damper, out T bound)
    {
        var (low, high, zero) = (_low[SeriesGuard.Damper + damper], _high[SeriesGuard.Damper + damper], T.All(0));
        var (start, startRate, end, endRate) = (_velocities[4 * damper], _velocities[(4 * damper) + 1], _velocities[(4 * damper) + 2], _velocities[(4 * damper) + 3]);
        bound = T.WhereGreater(end, high, high, low);
        return (T.Greater(end, high) & T.Greater(high, start) & T.Greater(startRate, zero) & T.Greater(endRate, zero))
            | (T.Greater(low, end) & T.Greater(start, low) & T.Greater(zero, startRate) & T.Greater(zero, endRate));
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
        var step = _step[0, lane];
        var first = step;
        it.Reached = 0;
        Span<double> times = stackalloc double[SeriesGuard.Count];
        for (var guard = 0; guard < SeriesGuard.Count; guard++)
        {
            times[guard] = double.PositiveInfinity;
            if ((_outside[guard] >> lane & 1) == 0)
                continue;
            bool rising;
            if (guard < SeriesGuard.Spring && (_reachingKnown[guard] >> lane & 1) != 0)
                (times[guard], rising) = (_reaching[guard, lane], _velocities[(4 * guard) + 1, lane] > 0);
            else
                times[guard] = FirstReach(lane, guard, step, out rising);
            it.Rising = rising ? it.Rising | (1 << guard) : it.Rising & ~(1 << guard);
            first = Math.Min(first, times[guard]);
        }

        for (var guard = 0; guard < SeriesGuard.Count; guard++)
        {
            if (times[guard] <= first + SameInstant)
                it.Reached |= 1 << guard;
        }

        _step[0, lane] = first;
    }

    /// <summary>The first time in the step at which a quantity reaches a bound; +∞ if it does not.</summary>
    private double FirstReach(int lane, int guard, double step, out bool rising)
    {
        var g = _polynomial.AsSpan(0, WritePolynomial(lane, guard));
        var (low, high) = (_low[guard, lane], _high[guard, lane]);
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

        // It turns round inside the step: does it reach the bound there?
        if (!leaves && sign * (g[0] - bound) < 0)
        {
            var turn = Turn(g, step, endRate);
            return sign * (Evaluate(g, turn).Value - bound) < 0 ? double.PositiveInfinity : Math.Max(shortest, Crossing(g, bound, sign, 0, turn));
        }

        // It turns round more than once, or comes from the bound: the first part of the step at whose end it is outside, having been inside.
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

    /// <summary>
    /// Where the polynomial turns round: where its rate passes through zero, by the chord. A small error of the place is a far smaller
    /// one of the value.
    /// </summary>
    private static double Turn(ReadOnlySpan<double> g, double step, double endRate)
    {
        var (from, fromRate, to, toRate) = (0.0, g[1], step, endRate);
        var time = 0.0;
        for (var i = 0; i < TurnSteps; i++)
        {
            time = from + ((to - from) * fromRate / (fromRate - toRate));
            var rate = Evaluate(g, time).Rate;
            if (rate > 0 == fromRate > 0)
                (from, fromRate, toRate) = (time, rate, 0.5 * toRate);
            else
                (to, toRate, fromRate) = (time, rate, 0.5 * fromRate);
        }

        return time;
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
            var y = car.Contacts[slot]!.Value;
            var push = slot < SeriesCar.Slots / 2 ? SeriesRow.LeftPush : SeriesRow.RightPush;
            for (var k = 0; k < SeriesRow.Order; k++)
            {
                var z = Term(SeriesRow.Position + HalfCarState.UnsprungHeave, k, lane) + (y * Term(SeriesRow.Position + HalfCarState.UnsprungRoll, k, lane));
                var v = Term(SeriesRow.Velocity + HalfCarState.UnsprungHeave, k, lane) + (y * Term(SeriesRow.Velocity + HalfCarState.UnsprungRoll, k, lane));
                _polynomial[k] = Term(push, k, lane) - (car.TyreStiffness * z) - (car.TyreDamping * v);
            }

            _polynomial[0] += car.StaticTyreLoad;
        }
    }

    /// <summary>Moves on to the pieces beyond the bounds that the step ended on.</summary>
    private void CrossKinks(int lane)
    {
        var it = _lanes[lane];
        var reached = (uint)it.Reached;
        it.Reached = 0;
        var isDamperAlone = reached < 1 << SeriesGuard.Spring;
        for (; reached != 0; reached &= reached - 1)
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

        if (isDamperAlone)
            UpdateDampers(lane);
        else
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
