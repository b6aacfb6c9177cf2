using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>Writes all channels of one lane's step at as many instants as <typeparamref name="T"/> has lanes.</summary>
/// <typeparam name="T">The instants side by side.</typeparam>
/// <param name="it">The lane.</param>
/// <param name="terms">The first of the lane's terms.</param>
/// <param name="stride">How far apart its terms stand.</param>
/// <param name="rows">Receives the channels, as <see cref="IChannelStep.WriteChannels"/> says.</param>
internal readonly ref struct SeriesChannels<T>(SeriesLane it, ref double terms, int stride, Span<double> rows)
    where T : struct, ILanes<T>
{
    private readonly ref double _terms = ref terms;
    private readonly ref double _channels = ref MemoryMarshal.GetReference(rows);
    private readonly int _stride = stride;
    private readonly SeriesLane _it = it;
    private readonly SeriesCar _run = it.Car!;

    /// <summary>Writes the channels.</summary>
    /// <param name="t">Times since the step's start, s.</param>
    public void Write(T t)
    {
        var (it, run) = (_it, _run);
        var segment = run.Segments[it.Segment];
        var zs = WriteSum(Channel.BodyHeave, SeriesRow.Position + HalfCarState.BodyHeave, SeriesRow.Order, t);
        var phiS = WriteSum(Channel.BodyRoll, SeriesRow.Position + HalfCarState.BodyRoll, SeriesRow.Order, t);
        var zu = WriteSum(Channel.UnsprungHeave, SeriesRow.Position + HalfCarState.UnsprungHeave, SeriesRow.Order, t);
        var phiU = WriteSum(Channel.UnsprungRoll, SeriesRow.Position + HalfCarState.UnsprungRoll, SeriesRow.Order, t);
        var zsRate = WriteSum(Channel.BodyHeaveRate, SeriesRow.Velocity + HalfCarState.BodyHeave, SeriesRow.Order - 1, t);
        var phiSRate = WriteSum(Channel.BodyRollRate, SeriesRow.Velocity + HalfCarState.BodyRoll, SeriesRow.Order - 1, t);
        var zuRate = WriteSum(Channel.UnsprungHeaveRate, SeriesRow.Velocity + HalfCarState.UnsprungHeave, SeriesRow.Order - 1, t);
        var phiURate = WriteSum(Channel.UnsprungRollRate, SeriesRow.Velocity + HalfCarState.UnsprungRoll, SeriesRow.Order - 1, t);

        var q = zu - zs;
        var r = phiU - phiS;
        Store(Channel.SuspensionHeave, q);
        StorePair(Channel.WheelTravelLeft, q, r * T.All(run.HalfTrack));

        // Springs and dampers, each on the piece of its law that acts throughout the step.
        StorePair(Channel.DamperTravelLeft, q * T.All(run.DamperRatio), r * T.All(run.DamperArm));
        var (velocityLeft, velocityRight) = StorePair(Channel.DamperVelocityLeft, (zuRate - zsRate) * T.All(run.DamperRatio), (phiURate - phiSRate) * T.All(run.DamperArm));
        var damperLeft = Line(run.Damper, it.Pieces[SeriesGuard.Damper], velocityLeft);
        var damperRight = Line(run.Damper, it.Pieces[SeriesGuard.Damper + 1], velocityRight);
        Store(Channel.DamperForceLeft, damperLeft);
        Store(Channel.DamperForceRight, damperRight);
        var (heave, arm) = (q * T.All(run.SpringRatio), r * T.All(run.SpringArm));
        var springLeft = Line(run.Spring, it.Pieces[SeriesGuard.Spring], heave + arm);
        var springRight = Line(run.Spring, it.Pieces[SeriesGuard.Spring + 1], heave - arm);
        Store(Channel.SpringForceLeft, springLeft);
        Store(Channel.SpringForceRight, springRight);
        var preload = T.All(run.SpringPreload);
        (springLeft, springRight) = (springLeft - preload, springRight - preload);
        var force = ((damperLeft + damperRight) * T.All(run.DamperRatio)) + ((springLeft + springRight) * T.All(run.SpringRatio));
        var moment = ((damperLeft - damperRight) * T.All(run.DamperArm)) + ((springLeft - springRight) * T.All(run.SpringArm)) + (r * T.All(run.AntiRollBar));
        for (var pair = 0; pair < SeriesCar.Slots; pair += 2)
        {
            // A rebound stop pulls where a bump stop pushes.
            var sign = T.All(pair == 0 ? 1 : -1);
            var left = Stop(run.Stops[pair], it.Closed[pair], q, r);
            var right = Stop(run.Stops[pair + 1], it.Closed[pair + 1], q, r);
            Store(Channel.BumpStopForceLeft + pair, left * sign);
            Store(Channel.BumpStopForceRight + pair, right * sign);
            if (!it.Closed[pair] && !it.Closed[pair + 1])
                continue;
            var stop = run.Stops[pair]!;
            force += (left + right) * T.All(stop.Ratio);
            moment += (left - right) * T.All(stop.Arm);
        }

        var onLeft = WriteSide(0, segment.Left.TermCount - 1, t, zu, phiU, zuRate, phiURate);
        var onRight = WriteSide(1, segment.Right.TermCount - 1, t, zu, phiU, zuRate, phiURate);
        var (tyreForce, tyreMoment) = (onLeft.Force + onRight.Force, onLeft.Moment + onRight.Moment);

        var lateral = WriteSum(Channel.LateralAcceleration, SeriesRow.Lateral, segment.LateralAcceleration.TermCount - 1, t);
        var sine = Sum(SeriesRow.Sine, SeriesRow.Order - 2, t);
        var bodyRoll = (moment + (lateral * T.All(run.BodyLateral)) + (sine * T.All(run.GravityMoment))) * T.All(run.BodyRollMobility);
        var body = force * T.All(run.BodyMobility);
        Store(Channel.BodyAcceleration, body);
        Store(Channel.BodyRollAcceleration, bodyRoll);
        Store(Channel.UnsprungAcceleration, (tyreForce - force) * T.All(run.UnsprungMobility));
        Store(Channel.UnsprungRollAcceleration, (tyreMoment - moment + (lateral * T.All(run.UnsprungLateral))) * T.All(run.UnsprungRollMobility));
        Store(Channel.SeatAcceleration, body + (bodyRoll * T.All(run.SeatOffset)));
        Store(Channel.CorneringCommand, lateral);
    }

    /// <summary>Loads of one side's tyres; force and moment on the axle, counted from static load.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (T Force, T Moment) WriteSide(int side, int inputOrder, T t, T zu, T phiU, T zuRate, T phiURate)
    {
        var (run, zero, atRest) = (_run, T.All(0), T.All(_run.StaticTyreLoad));
        WriteSum(Channel.RoadLeft + side, SeriesRow.Road + side, inputOrder, t);
        var push = Sum(SeriesRow.LeftPush + side, inputOrder, t) + atRest;

        // From left to right; with single tyres the outer one is also the inner one.
        var (first, last) = (2 * side, (2 * side) + 1);
        var isDual = run.Contacts[first] is not null && run.Contacts[last] is not null;
        var (yFirst, yLast) = (T.All(run.Contacts[first] ?? run.Contacts[last]!.Value), T.All(run.Contacts[last] ?? run.Contacts[first]!.Value));
        var (stiffness, damping) = (T.All(run.TyreStiffness), T.All(run.TyreDamping));
        var one = push - ((zu + (phiU * yFirst)) * stiffness) - ((zuRate + (phiURate * yFirst)) * damping);
        var other = isDual ? push - ((zu + (phiU * yLast)) * stiffness) - ((zuRate + (phiURate * yLast)) * damping) : one;
        var (oneLoad, otherLoad) = (T.Max(one, zero), T.Max(other, zero));
        Store(Channel.TyreContactLeftOuter + first, one);
        Store(Channel.TyreContactLeftOuter + last, other);
        Store(Channel.TyreLoadLeftOuter + first, oneLoad);
        Store(Channel.TyreLoadLeftOuter + last, otherLoad);
        Store(Channel.TyreContactLeft + side, T.Max(one, other));
        Store(Channel.TyreLoadLeft + side, isDual ? oneLoad + otherLoad : oneLoad);
        var force = oneLoad - atRest;
        var moment = force * yFirst;
        if (isDual)
            (force, moment) = (force + (otherLoad - atRest), moment + ((otherLoad - atRest) * yLast));
        return (force, moment);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Store(Channel channel, T values) =>
        Unsafe.As<double, T>(ref Unsafe.Add(ref _channels, (int)channel * GaussLobatto.Lanes)) = values;

    /// <summary>Stores a quantity of both sides: the right side mirrors the left.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (T Left, T Right) StorePair(Channel channel, T heave, T roll)
    {
        var (left, right) = (heave + roll, heave - roll);
        Store(channel, left);
        Store(channel + 1, right);
        return (left, right);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private T WriteSum(Channel channel, int row, int order, T t)
    {
        var sum = Sum(row, order, t);
        Store(channel, sum);
        return sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private T Sum(int row, int order, T t)
    {
        ref var first = ref Unsafe.Add(ref _terms, row * SeriesRow.Terms * _stride);
        var sum = T.All(Unsafe.Add(ref first, order * _stride));
        for (var k = (order - 1) * _stride; k >= 0; k -= _stride)
            sum = T.Fma(sum, t, T.All(Unsafe.Add(ref first, k)));
        return sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Line(StraightPieces law, int piece, T x) => (x * T.All(law.Slopes[piece])) + T.All(law.Offsets[piece]);

    private static T Stop(SeriesStop? stop, bool isClosed, T q, T r)
    {
        if (!isClosed)
            return T.All(0);
        var penetration = (q * T.All(stop!.Ratio)) + (r * T.All(stop.Arm)) - T.All(stop.Stop.Clearance);
        return penetration * T.All(stop.Stop.Stiffness) * (stop.IsSquare ? penetration : T.All(1));
    }
}
