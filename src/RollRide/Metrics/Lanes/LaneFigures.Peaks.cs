using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Metrics.Lanes;

/// <content>The peaks: where a signal is highest and lowest in a step, on its series.</content>
internal sealed partial class LaneFigures<T>
{
    // A step covers less than half a cycle of the fastest motion, even at the coarsest tolerance. Between two nodes a half wave then rises above
    // both by less than an eighth of what it spans in the step.
    private const double Rise = 0.15;

    // Share of the mean slope next to an end that the slope at the end must keep to show that the peak lies beyond.
    private const double Outwards = 0.2;

    // Of the step: so near to the peak the parabola that touches the series there is as good as exact.
    private const double Near = 1e-3;

    private const int MostSteps = 8;

    // Two peaks a signal, each as it would be upwards; then those of roll since the corner began, to the left and to the right.
    private const int RollPeak = 2 * LaneSignal.Count;
    private const int PeakCount = RollPeak + 2;

    private readonly LaneBuffer<T> _peaks = new(PeakCount);
    private readonly LaneBuffer<T> _peakTimes = new(PeakCount);
    private readonly LaneBuffer<T> _polynomial = new(SeriesRow.Terms);

    // Weights of the last two rises towards an end in the slope of the parabola through the three nodes there, against the first of them.
    private static readonly double LastRise = 1 - Outwards + (Rule.Fractions[1] / Rule.Fractions[2]);
    private static readonly double RiseBefore = Rule.Fractions[1] / (Rule.Fractions[2] - Rule.Fractions[1]) * Rule.Fractions[1] / Rule.Fractions[2];

    private void LookForPeaks()
    {
        LookForPeaks(LaneSignal.Body, _seats == 0 ? LaneSignal.RollAcceleration : LaneSignal.Seat);
        LookForPeaks(LaneSignal.Roll, LaneSignal.Count - 1);
        if (_cornering != 0)
            LookForRollPeaks();
    }

    /// <summary>Looks for peaks of some signals in a row.</summary>
    private void LookForPeaks(int from, int to)
    {
        ref var v = ref _values[from * Nodes];
        ref var peaks = ref _peaks[0];
        for (var signal = from; signal <= to; signal++, v = ref Unsafe.Add(ref v, Nodes))
        {
            var (highest, lowest) = Range(ref v);
            var rise = (highest - lowest) * T.All(Rise);
            var above = T.Greater(highest + rise, Unsafe.Add(ref peaks, LaneSignal.Up(signal)));
            var below = T.Greater(rise - lowest, Unsafe.Add(ref peaks, LaneSignal.Down(signal)));
            if (((above | below) & _lanes) == 0)
                continue;
            if ((above & _lanes) != 0)
                Climb(signal, LaneSignal.Up(signal), T.All(1), above & _lanes);
            if ((below & _lanes) != 0)
                Climb(signal, LaneSignal.Down(signal), T.All(-1), below & _lanes);
        }
    }

    /// <summary>Looks for the peaks of roll since the corner began.</summary>
    private void LookForRollPeaks()
    {
        var (highest, lowest) = Range(ref _values[LaneSignal.Roll * Nodes]);
        var rise = (highest - lowest) * T.All(Rise);
        var lanes = _cornering & _lanes;
        var (left, right) = (lanes & T.Greater(highest + rise, _peaks[RollPeak]), lanes & T.Greater(rise - lowest, _peaks[RollPeak + 1]));
        if (left != 0)
            Climb(LaneSignal.Roll, RollPeak, T.All(1), left);
        if (right != 0)
            Climb(LaneSignal.Roll, RollPeak + 1, T.All(-1), right);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T Highest, T Lowest) Range(ref T v)
    {
        var (a, b, c, d, e) = (v, Unsafe.Add(ref v, 1), Unsafe.Add(ref v, 2), Unsafe.Add(ref v, 3), Unsafe.Add(ref v, 4));
        return (T.Max(T.Max(T.Max(a, b), T.Max(c, d)), e), T.Min(T.Min(T.Min(a, b), T.Min(c, d)), e));
    }

    /// <summary>Takes the highest node of a signal, and the peak beside it if there is one, in some lanes.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Climb(int signal, int peak, T sign, int lanes)
    {
        ref var v = ref _values[signal * Nodes];
        var (first, second, middle) = (sign * v, sign * Unsafe.Add(ref v, 1), sign * Unsafe.Add(ref v, 2));
        var (before, last) = (sign * Unsafe.Add(ref v, 3), sign * Unsafe.Add(ref v, 4));
        var (ends, inner) = (T.Max(first, last), T.Max(T.Max(second, middle), before));
        var value = T.Max(ends, inner);

        // Where an end of the step is highest, it rises within only if it does not rise beyond that end.
        var isInner = T.Greater(inner, ends);
        var turnsFirst = ~T.Greater(value, first) & T.Greater((second - middle) * T.All(RiseBefore), (first - second) * T.All(LastRise));
        var turnsLast = ~T.Greater(value, last) & T.Greater((before - middle) * T.All(RiseBefore), (last - before) * T.All(LastRise));
        var inside = lanes & (isInner | turnsFirst | turnsLast);
        var best = _peaks[peak];
        if (inside == 0 && peak < RollPeak)
        {
            // Only of the peaks of roll in the corner it is asked when they were.
            _peaks[peak] = T.Where(lanes, T.Max(value, best), best);
            return;
        }

        ref var t = ref _times[0];
        var (highest, time, from, to) = (first, T.All(0), T.All(0), Unsafe.Add(ref t, 1));
        for (var node = 1; node < Nodes; node++)
        {
            var next = sign * Unsafe.Add(ref v, node);
            time = T.WhereGreater(next, highest, Unsafe.Add(ref t, node), time);
            from = T.WhereGreater(next, highest, Unsafe.Add(ref t, node - 1), from);
            to = T.WhereGreater(next, highest, Unsafe.Add(ref t, Math.Min(node + 1, Nodes - 1)), to);
            highest = T.Max(next, highest);
        }

        var bestTime = T.WhereGreater(value, best, time, _peakTimes[peak] - _solver.StartTimes);
        best = T.Max(value, best);
        if (inside != 0)
        {
            var (summit, at) = Summit(WritePolynomial(signal, sign), time, from, to);

            // The shortest step may carry a tyre a little beyond where it leaves the ground.
            if (signal is LaneSignal.Load or LaneSignal.Load + 1)
                summit = T.Min(summit, T.All(-0.0));
            summit = T.Where(inside, summit, best);
            bestTime = T.WhereGreater(summit, best, at, bestTime);
            best = T.Max(summit, best);
        }

        _peaks[peak] = T.Where(lanes, best, _peaks[peak]);
        _peakTimes[peak] = T.Where(lanes, _solver.StartTimes + bestTime, _peakTimes[peak]);
    }

    /// <summary>Where a polynomial is highest between two times in the step, by Newton's method on its slope from a time between them.</summary>
    private (T Value, T Time) Summit(int order, T time, T from, T to)
    {
        var near = _solver.StepLengths * T.All(Near);
        var (value, at) = (T.All(double.NegativeInfinity), time);
        var open = (1 << T.Count) - 1;
        for (var step = 0; step < MostSteps && open != 0; step++)
        {
            ref var c = ref _polynomial[0];
            var (height, slope, halfCurvature) = (Unsafe.Add(ref c, order), T.All(0), T.All(0));
            for (var k = order - 1; k >= 0; k--)
            {
                halfCurvature = T.Fma(halfCurvature, time, slope);
                slope = T.Fma(slope, time, height);
                height = T.Fma(height, time, Unsafe.Add(ref c, k));
            }

            // Where it bends upwards, half of the way up.
            var ahead = T.WhereGreater(slope, T.All(0), to, from);
            var move = T.WhereGreater(T.All(0), halfCurvature, T.All(-0.5) * slope / halfCurvature, T.All(0.5) * (ahead - time));
            var next = T.Min(T.Max(time + move, from), to);
            move = next - time;
            var isNear = T.Greater(near, T.Abs(move));
            value = T.Where(open, T.Where(isNear, T.Fma(T.Fma(halfCurvature, move, slope), move, height), height), value);
            at = T.Where(open, T.Where(isNear, next, time), at);
            open &= ~isNear;
            time = next;
        }

        return (value, at);
    }

    /// <summary>Writes the series of a signal times a sign.</summary>
    /// <returns>Its order.</returns>
    private int WritePolynomial(int signal, T sign)
    {
        ref var s = ref _solver.Series[0];
        ref var c = ref _solver.Constants[0];
        switch (signal)
        {
            case LaneSignal.Body:
                return Write(ref s, SeriesRow.AccelerationOrder, SeriesRow.Acceleration + HalfCarState.BodyHeave, sign);
            case LaneSignal.RollAcceleration:
                return Write(ref s, SeriesRow.AccelerationOrder, SeriesRow.Acceleration + HalfCarState.BodyRoll, sign);
            case LaneSignal.Seat:
                for (var k = 0; k <= SeriesRow.AccelerationOrder; k++)
                {
                    _polynomial[k] = sign * T.Fma(
                        _seatOffset[0], Row(ref s, SeriesRow.Acceleration + HalfCarState.BodyRoll, k), Row(ref s, SeriesRow.Acceleration + HalfCarState.BodyHeave, k));
                }

                return SeriesRow.AccelerationOrder;
            case LaneSignal.Roll:
                return Write(ref s, SeriesRow.Order, SeriesRow.Position + HalfCarState.BodyRoll, sign);
            case LaneSignal.Travel or LaneSignal.Travel + 1:
                return WriteRelative(ref s, SeriesRow.Order, SeriesRow.Position, sign, Mirrored(signal - LaneSignal.Travel, sign * Unsafe.Add(ref c, SeriesConstant.HalfTrack)));
            case LaneSignal.DamperVelocity or LaneSignal.DamperVelocity + 1:
                return WriteRelative(ref s, SeriesRow.Order - 1, SeriesRow.Velocity, sign * Unsafe.Add(ref c, SeriesConstant.DamperRatio), Mirrored(signal - LaneSignal.DamperVelocity, sign * Unsafe.Add(ref c, SeriesConstant.DamperArm)));
            case LaneSignal.DamperTravel or LaneSignal.DamperTravel + 1:
                return WriteRelative(ref s, SeriesRow.Order, SeriesRow.Position, sign * Unsafe.Add(ref c, SeriesConstant.DamperRatio), Mirrored(signal - LaneSignal.DamperTravel, sign * Unsafe.Add(ref c, SeriesConstant.DamperArm)));
            case LaneSignal.Transfer:
                WriteLoad(ref s, ref c, 0, sign * T.All(-0.5), isFirst: true);
                return WriteLoad(ref s, ref c, 1, sign * T.All(0.5), isFirst: false);
            default:
                return WriteLoad(ref s, ref c, signal - LaneSignal.Load, sign, isFirst: true);
        }
    }

    /// <summary>A share in roll on one side: the right side mirrors the left.</summary>
    private static T Mirrored(int side, T arm) => side == 0 ? arm : T.All(0) - arm;

    private int Write(ref T s, int order, int row, T sign)
    {
        for (var k = 0; k <= order; k++)
            _polynomial[k] = sign * Row(ref s, row, k);
        return order;
    }

    /// <summary>A quantity that goes with the axle's motion relative to the body.</summary>
    private int WriteRelative(ref T s, int order, int row, T ratio, T arm)
    {
        for (var k = 0; k <= order; k++)
        {
            var q = Row(ref s, row + HalfCarState.UnsprungHeave, k) - Row(ref s, row + HalfCarState.BodyHeave, k);
            var r = Row(ref s, row + HalfCarState.UnsprungRoll, k) - Row(ref s, row + HalfCarState.BodyRoll, k);
            _polynomial[k] = T.Fma(arm, r, ratio * q);
        }

        return order;
    }

    /// <summary>The load of a side's tyres on the ground.</summary>
    private int WriteLoad(ref T s, ref T c, int side, T sign, bool isFirst)
    {
        var number = sign * Unsafe.Add(ref c, SeriesConstant.LeftTyres + side);
        var stiffness = Unsafe.Add(ref c, SeriesConstant.TyreStiffness);
        var (heave, roll) = (number * stiffness, sign * Unsafe.Add(ref c, SeriesConstant.LeftTyreArm + side) * stiffness);
        var tyreTime = Unsafe.Add(ref c, SeriesConstant.TyreTime);
        for (var k = 0; k <= SeriesRow.Order; k++)
        {
            var z = T.Fma(tyreTime, Row(ref s, SeriesRow.Velocity + HalfCarState.UnsprungHeave, k), Row(ref s, SeriesRow.Position + HalfCarState.UnsprungHeave, k));
            var phi = T.Fma(tyreTime, Row(ref s, SeriesRow.Velocity + HalfCarState.UnsprungRoll, k), Row(ref s, SeriesRow.Position + HalfCarState.UnsprungRoll, k));
            var load = T.All(0) - T.Fma(heave, z, roll * phi);
            if (k < _solver.InputTerms)
                load = T.Fma(number, Row(ref s, SeriesRow.LeftPush + side, k), load);
            if (k == 0)
                load = T.Fma(number, Unsafe.Add(ref c, SeriesConstant.StaticLoad), load);
            _polynomial[k] = isFirst ? load : _polynomial[k] + load;
        }

        return SeriesRow.Order;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Row(ref T series, int row, int power) => Unsafe.Add(ref series, (row * SeriesRow.Terms) + power);
}
