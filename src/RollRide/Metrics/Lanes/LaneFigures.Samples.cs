using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Metrics.Lanes;

/// <content>The signals at the nodes of a Gauss–Lobatto rule, and their integrals.</content>
internal sealed partial class LaneFigures<T>
{
    private const int Nodes = 5;

    // The motion: coordinates, velocities, and the body's accelerations.
    private const int BodyAcceleration = HalfCarState.Count;
    private const int BodyRollAcceleration = HalfCarState.Count + 1;
    private const int MotionRows = HalfCarState.Count + 2;

    private readonly LaneBuffer<T> _motion = new(MotionRows * Nodes);
    private readonly LaneBuffer<T> _push = new(2 * Nodes);
    private readonly LaneBuffer<T> _times = new(Nodes);
    private readonly LaneBuffer<T> _values = new(LaneSignal.Count * Nodes);
    private readonly LaneBuffer<T> _powers = new(2 * Nodes);

    /// <summary>At a relative tolerance of 1e-3 its integrals err by 1e-6 of what a step adds.</summary>
    private static GaussLobatto Rule => GaussLobatto.Five;

    private void Sample()
    {
        var h = _solver.StepLengths;
        for (var node = 0; node < Nodes; node++)
            _times[node] = h * T.All(Rule.Fractions[node]);
        SampleMotion();
        SamplePush(0);
        SamplePush(1);
        SampleSignals(h);
    }

    private void SampleMotion()
    {
        ref var s = ref _solver.Series[0];
        ref var m = ref _motion[0];
        var (first, middle, last, end) = (_times[1], _times[2], _times[3], _times[4]);
        for (var i = 0; i < HalfCarState.Rates; i++)
        {
            // A coordinate and its velocity together, so that the processor need not wait for one multiplication after the other.
            ref var x = ref Unsafe.Add(ref s, (SeriesRow.Position + i) * SeriesRow.Terms);
            ref var v = ref Unsafe.Add(ref s, (SeriesRow.Velocity + i) * SeriesRow.Terms);
            var (x1, v1) = (Unsafe.Add(ref x, SeriesRow.Order), Unsafe.Add(ref v, SeriesRow.Order - 1));
            var (x2, x3, v2, v3) = (x1, x1, v1, v1);
            for (var k = SeriesRow.Order - 2; k >= 0; k--)
            {
                var (xTerm, vTerm) = (Unsafe.Add(ref x, k + 1), Unsafe.Add(ref v, k));
                (x1, x2, x3) = (T.Fma(x1, first, xTerm), T.Fma(x2, middle, xTerm), T.Fma(x3, last, xTerm));
                (v1, v2, v3) = (T.Fma(v1, first, vTerm), T.Fma(v2, middle, vTerm), T.Fma(v3, last, vTerm));
            }

            // At the end of the step the solver has been already.
            PutRow(ref m, i, x, T.Fma(x1, first, x), T.Fma(x2, middle, x), T.Fma(x3, last, x), _solver.EndMotion[i]);
            PutRow(ref m, HalfCarState.Rates + i, v, v1, v2, v3, _solver.EndMotion[HalfCarState.Rates + i]);
        }

        ref var a = ref Unsafe.Add(ref s, (SeriesRow.Acceleration + HalfCarState.BodyHeave) * SeriesRow.Terms);
        ref var b = ref Unsafe.Add(ref s, (SeriesRow.Acceleration + HalfCarState.BodyRoll) * SeriesRow.Terms);
        var (a1, b1) = (Unsafe.Add(ref a, SeriesRow.AccelerationOrder), Unsafe.Add(ref b, SeriesRow.AccelerationOrder));
        var (a2, a3, a4, b2, b3, b4) = (a1, a1, a1, b1, b1, b1);
        for (var k = SeriesRow.AccelerationOrder - 1; k >= 0; k--)
        {
            var (aTerm, bTerm) = (Unsafe.Add(ref a, k), Unsafe.Add(ref b, k));
            (a1, a2, a3, a4) = (T.Fma(a1, first, aTerm), T.Fma(a2, middle, aTerm), T.Fma(a3, last, aTerm), T.Fma(a4, end, aTerm));
            (b1, b2, b3, b4) = (T.Fma(b1, first, bTerm), T.Fma(b2, middle, bTerm), T.Fma(b3, last, bTerm), T.Fma(b4, end, bTerm));
        }

        PutRow(ref m, BodyAcceleration, a, a1, a2, a3, a4);
        PutRow(ref m, BodyRollAcceleration, b, b1, b2, b3, b4);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void PutRow(ref T rows, int row, T start, T first, T middle, T last, T end)
    {
        ref var to = ref Unsafe.Add(ref rows, row * Nodes);
        to = start;
        Unsafe.Add(ref to, 1) = first;
        Unsafe.Add(ref to, 2) = middle;
        Unsafe.Add(ref to, 3) = last;
        Unsafe.Add(ref to, 4) = end;
    }

    /// <summary>What the road pushes through a tyre; mostly it is flat.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void SamplePush(int side)
    {
        ref var c = ref _solver.Series[(SeriesRow.LeftPush + side) * SeriesRow.Terms];
        var (first, middle, last, end) = (_times[1], _times[2], _times[3], _times[4]);
        var order = _solver.InputTerms - 1;
        var push1 = Unsafe.Add(ref c, order);
        var (push2, push3, push4) = (push1, push1, push1);
        for (var k = order - 1; k >= 0; k--)
        {
            var term = Unsafe.Add(ref c, k);
            (push1, push2, push3, push4) = (T.Fma(push1, first, term), T.Fma(push2, middle, term), T.Fma(push3, last, term), T.Fma(push4, end, term));
        }

        PutRow(ref _push[0], side, c, push1, push2, push3, push4);
    }

    private void SampleSignals(T h)
    {
        ref var c = ref _solver.Constants[0];

        // All rows at the node.
        ref var m = ref _motion[0];
        ref var v = ref _values[0];
        ref var push = ref _push[0];
        ref var powers = ref _powers[0];
        var seatOffset = _seatOffset[0];
        var stand = _staticSideLoad[0];
        var (body, roll, seat, heave, left, right, power) = (T.All(0), T.All(0), T.All(0), T.All(0), T.All(0), T.All(0), T.All(0));
        for (var node = 0; node < Nodes; node++)
        {
            var weight = T.All(Rule.MeanWeights[node]);
            var acceleration = At(ref m, BodyAcceleration);
            var rollAcceleration = At(ref m, BodyRollAcceleration);
            body = T.Fma(weight, acceleration * acceleration, body);
            roll = T.Fma(weight, rollAcceleration * rollAcceleration, roll);
            Put(ref v, LaneSignal.Body, acceleration);
            Put(ref v, LaneSignal.RollAcceleration, rollAcceleration);
            if (_seats != 0)
            {
                var atSeat = T.Fma(seatOffset, rollAcceleration, acceleration);
                seat = T.Fma(weight, atSeat * atSeat, seat);
                Put(ref v, LaneSignal.Seat, atSeat);
            }

            var phi = At(ref m, HalfCarState.BodyRoll);
            var zu = At(ref m, HalfCarState.UnsprungHeave);
            var phiU = At(ref m, HalfCarState.UnsprungRoll);
            var zuRate = At(ref m, HalfCarState.Rates + HalfCarState.UnsprungHeave);
            var phiURate = At(ref m, HalfCarState.Rates + HalfCarState.UnsprungRoll);
            var (q, r) = (zu - At(ref m, HalfCarState.BodyHeave), phiU - phi);
            var qRate = zuRate - At(ref m, HalfCarState.Rates + HalfCarState.BodyHeave);
            var rRate = phiURate - At(ref m, HalfCarState.Rates + HalfCarState.BodyRoll);
            heave = T.Fma(weight, q, heave);
            Put(ref v, LaneSignal.Roll, phi);
            PutPair(ref v, LaneSignal.Travel, q, r * Unsafe.Add(ref c, SeriesConstant.HalfTrack));

            var (ratio, arm) = (Unsafe.Add(ref c, SeriesConstant.DamperRatio), Unsafe.Add(ref c, SeriesConstant.DamperArm));
            PutPair(ref v, LaneSignal.DamperTravel, q * ratio, r * arm);
            var (velocityLeft, velocityRight) = PutPair(ref v, LaneSignal.DamperVelocity, qRate * ratio, rRate * arm);
            var leftPower = velocityLeft * T.Fma(Unsafe.Add(ref c, SeriesConstant.DamperSlope), velocityLeft, Unsafe.Add(ref c, SeriesConstant.DamperOffset));
            var rightPower = velocityRight * T.Fma(Unsafe.Add(ref c, SeriesConstant.DamperSlope + 1), velocityRight, Unsafe.Add(ref c, SeriesConstant.DamperOffset + 1));
            power = T.Fma(weight, leftPower + rightPower, power);
            Put(ref powers, 0, leftPower);
            Put(ref powers, 1, rightPower);

            // All tyres of a side that are on the ground; rounding may leave a load a little below zero where one leaves it.
            var tyreTime = Unsafe.Add(ref c, SeriesConstant.TyreTime);
            var (tyreHeave, tyreRoll) = (T.Fma(tyreTime, zuRate, zu), T.Fma(tyreTime, phiURate, phiU));
            var leftLoad = SideLoad(ref c, 0, At(ref push, 0), tyreHeave, tyreRoll);
            var rightLoad = SideLoad(ref c, 1, At(ref push, 1), tyreHeave, tyreRoll);
            Put(ref v, LaneSignal.Load, leftLoad);
            Put(ref v, LaneSignal.Load + 1, rightLoad);
            Put(ref v, LaneSignal.Transfer, (rightLoad - leftLoad) * T.All(0.5));
            var (leftChange, rightChange) = (leftLoad - stand, rightLoad - stand);
            left = T.Fma(weight, leftChange * leftChange, left);
            right = T.Fma(weight, rightChange * rightChange, right);
            m = ref Unsafe.Add(ref m, 1);
            v = ref Unsafe.Add(ref v, 1);
            push = ref Unsafe.Add(ref push, 1);
            powers = ref Unsafe.Add(ref powers, 1);
        }

        ref var sums = ref _integrals[0];
        Add(ref sums, LaneIntegral.BodySquares, h, body);
        Add(ref sums, LaneIntegral.RollSquares, h, roll);
        Add(ref sums, LaneIntegral.SeatSquares, h, seat);
        Add(ref sums, LaneIntegral.SuspensionHeave, h, heave);
        Add(ref sums, LaneIntegral.LoadSquares, h, left);
        Add(ref sums, LaneIntegral.LoadSquares + 1, h, right);
        Add(ref sums, LaneIntegral.DamperPower, h, power);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T SideLoad(ref T c, int side, T push, T tyreHeave, T tyreRoll)
    {
        var (number, arm) = (Unsafe.Add(ref c, SeriesConstant.LeftTyres + side), Unsafe.Add(ref c, SeriesConstant.LeftTyreArm + side));
        var deflection = T.Fma(arm, tyreRoll, number * tyreHeave);
        return T.Max(
            T.NegatedFma(Unsafe.Add(ref c, SeriesConstant.TyreStiffness), deflection, number * (Unsafe.Add(ref c, SeriesConstant.StaticLoad) + push)),
            T.All(0));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T At(ref T rows, int row) => Unsafe.Add(ref rows, row * Nodes);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(ref T rows, int row, T value) => Unsafe.Add(ref rows, row * Nodes) = value;

    /// <summary>Puts a quantity of both sides: the right side mirrors the left.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T Left, T Right) PutPair(ref T rows, int row, T heave, T roll)
    {
        var (left, right) = (heave + roll, heave - roll);
        Put(ref rows, row, left);
        Put(ref rows, row + 1, right);
        return (left, right);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add(ref T sums, int integral, T h, T mean) =>
        Unsafe.Add(ref sums, integral) = T.Fma(h, mean, Unsafe.Add(ref sums, integral));
}
