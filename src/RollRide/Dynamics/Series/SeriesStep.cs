using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>
/// One lane's step as observers see it: the solution anywhere in it, and all channels at eight instants at once. Valid while the
/// solver has not moved on.
/// </summary>
/// <param name="source">The solver.</param>
/// <param name="lane">The lane.</param>
internal sealed class SeriesStep(ISeriesSource source, int lane) : IChannelStep, IKeptStep
{
    private readonly int _stride = source.LaneCount;
    private readonly double[] _coefficients = new double[HalfCarState.Count * SeriesRow.Terms];

    /// <inheritdoc/>
    public double Start => source.Start(lane);

    /// <inheritdoc/>
    public double End => source.End(lane);

    /// <inheritdoc/>
    public GaussLobatto Rule => GaussLobatto.Eight;

    /// <inheritdoc/>
    public ReadOnlySpan<double> Coefficients => WriteCoefficients();

    private SeriesLane Lane => source.Lanes[lane];

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">The time is outside the step.</exception>
    public void StateAt(double time, Span<double> state)
    {
        if (!(time >= Start && time <= End))
            throw new ArgumentOutOfRangeException(nameof(time), time, $"time must lie in the step from {Start:R} s to {End:R} s.");
        if (time == End)
        {
            source.EndState(lane, state);
            return;
        }

        var t = time - Start;
        for (var i = 0; i < HalfCarState.Rates; i++)
        {
            state[i] = Sum(SeriesRow.Position + i, SeriesRow.Order);
            state[HalfCarState.Rates + i] = Sum(SeriesRow.Velocity + i, SeriesRow.Order - 1);
        }

        double Sum(int row, int order)
        {
            var series = source.Terms;
            var sum = series[Index(row, order)];
            for (var k = order - 1; k >= 0; k--)
                sum = Math.FusedMultiplyAdd(sum, t, series[Index(row, k)]);
            return sum;
        }
    }

    /// <inheritdoc/>
    public void Evaluate(ReadOnlySpan<double> coefficients, double fraction, Span<double> state)
    {
        for (var i = 0; i < HalfCarState.Count; i++)
        {
            var sum = 0.0;
            for (var k = SeriesRow.Order; k >= 0; k--)
                sum = Math.FusedMultiplyAdd(sum, fraction, coefficients[(i * SeriesRow.Terms) + k]);
            state[i] = sum;
        }
    }

    /// <inheritdoc/>
    public void WriteChannels(Vector512<double> times, Span<double> rows)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rows.Length, ChannelTable.Count * Vector512<double>.Count);
        ref var c = ref MemoryMarshal.GetReference(rows);
        ref var terms = ref Unsafe.Add(ref MemoryMarshal.GetReference(source.Terms), lane);
        var it = Lane;
        var run = it.Car!;
        var segment = run.Segments[it.Segment];
        var t = times - Vector512.Create(Start);

        var zs = Sum(ref terms, SeriesRow.Position + HalfCarState.BodyHeave, SeriesRow.Order, t);
        var phiS = Sum(ref terms, SeriesRow.Position + HalfCarState.BodyRoll, SeriesRow.Order, t);
        var zu = Sum(ref terms, SeriesRow.Position + HalfCarState.UnsprungHeave, SeriesRow.Order, t);
        var phiU = Sum(ref terms, SeriesRow.Position + HalfCarState.UnsprungRoll, SeriesRow.Order, t);
        var zsRate = Sum(ref terms, SeriesRow.Velocity + HalfCarState.BodyHeave, SeriesRow.Order - 1, t);
        var phiSRate = Sum(ref terms, SeriesRow.Velocity + HalfCarState.BodyRoll, SeriesRow.Order - 1, t);
        var zuRate = Sum(ref terms, SeriesRow.Velocity + HalfCarState.UnsprungHeave, SeriesRow.Order - 1, t);
        var phiURate = Sum(ref terms, SeriesRow.Velocity + HalfCarState.UnsprungRoll, SeriesRow.Order - 1, t);
        Store(ref c, Channel.BodyHeave, zs);
        Store(ref c, Channel.BodyRoll, phiS);
        Store(ref c, Channel.UnsprungHeave, zu);
        Store(ref c, Channel.UnsprungRoll, phiU);
        Store(ref c, Channel.BodyHeaveRate, zsRate);
        Store(ref c, Channel.BodyRollRate, phiSRate);
        Store(ref c, Channel.UnsprungHeaveRate, zuRate);
        Store(ref c, Channel.UnsprungRollRate, phiURate);

        var q = zu - zs;
        var r = phiU - phiS;
        Store(ref c, Channel.SuspensionHeave, q);
        StorePair(ref c, Channel.WheelTravelLeft, q, r * run.HalfTrack);

        // Springs and dampers, each on the piece of its law that acts throughout the step.
        StorePair(ref c, Channel.DamperTravelLeft, q * run.DamperRatio, r * run.DamperArm);
        var (velocityLeft, velocityRight) = StorePair(ref c, Channel.DamperVelocityLeft, (zuRate - zsRate) * run.DamperRatio, (phiURate - phiSRate) * run.DamperArm);
        var damperLeft = Line(run.Damper, it.Pieces[SeriesGuard.Damper], velocityLeft);
        var damperRight = Line(run.Damper, it.Pieces[SeriesGuard.Damper + 1], velocityRight);
        Store(ref c, Channel.DamperForceLeft, damperLeft);
        Store(ref c, Channel.DamperForceRight, damperRight);
        var (heave, arm) = (q * run.SpringRatio, r * run.SpringArm);
        var springLeft = Line(run.Spring, it.Pieces[SeriesGuard.Spring], heave + arm);
        var springRight = Line(run.Spring, it.Pieces[SeriesGuard.Spring + 1], heave - arm);
        Store(ref c, Channel.SpringForceLeft, springLeft);
        Store(ref c, Channel.SpringForceRight, springRight);
        var preload = Vector512.Create(run.SpringPreload);
        (springLeft, springRight) = (springLeft - preload, springRight - preload);
        var force = ((damperLeft + damperRight) * run.DamperRatio) + ((springLeft + springRight) * run.SpringRatio);
        var moment = ((damperLeft - damperRight) * run.DamperArm) + ((springLeft - springRight) * run.SpringArm) + (r * run.AntiRollBar);
        for (var pair = 0; pair < SeriesCar.Slots; pair += 2)
        {
            // A rebound stop pulls where a bump stop pushes.
            var sign = pair == 0 ? 1.0 : -1;
            var left = Stop(run.Stops[pair], it.Closed[pair], q, r);
            var right = Stop(run.Stops[pair + 1], it.Closed[pair + 1], q, r);
            Store(ref c, Channel.BumpStopForceLeft + pair, left * sign);
            Store(ref c, Channel.BumpStopForceRight + pair, right * sign);
            if (!it.Closed[pair] && !it.Closed[pair + 1])
                continue;
            var stop = run.Stops[pair]!;
            force += (left + right) * stop.Ratio;
            moment += (left - right) * stop.Arm;
        }

        var (tyreForce, tyreMoment) = WriteTyres(ref c, ref terms, run, segment, t, zu, phiU, zuRate, phiURate);

        var lateral = Sum(ref terms, SeriesRow.Lateral, segment.LateralAcceleration.TermCount - 1, t);
        var sine = Sum(ref terms, SeriesRow.Sine, SeriesRow.Order - 2, t);
        var bodyRoll = (moment + (lateral * run.BodyLateral) + (sine * run.GravityMoment)) * run.BodyRollMobility;
        var body = force * run.BodyMobility;
        Store(ref c, Channel.BodyAcceleration, body);
        Store(ref c, Channel.BodyRollAcceleration, bodyRoll);
        Store(ref c, Channel.UnsprungAcceleration, (tyreForce - force) * run.UnsprungMobility);
        Store(ref c, Channel.UnsprungRollAcceleration, (tyreMoment - moment + (lateral * run.UnsprungLateral)) * run.UnsprungRollMobility);
        Store(ref c, Channel.SeatAcceleration, body + (bodyRoll * run.SeatOffset));
        Store(ref c, Channel.LateralAcceleration, lateral);
        Store(ref c, Channel.CorneringCommand, lateral);
    }

    /// <summary>Loads of the tyres; force and moment on the axle, counted from static load.</summary>
    private (Vector512<double> Force, Vector512<double> Moment) WriteTyres(
        ref double c, ref double terms, SeriesCar run, SeriesSegment segment, Vector512<double> t, Vector512<double> zu, Vector512<double> phiU, Vector512<double> zuRate, Vector512<double> phiURate)
    {
        var left = WriteSide(ref c, ref terms, run, 0, segment.Left.TermCount - 1, t, zu, phiU, zuRate, phiURate);
        var right = WriteSide(ref c, ref terms, run, 1, segment.Right.TermCount - 1, t, zu, phiU, zuRate, phiURate);
        return (left.Force + right.Force, left.Moment + right.Moment);
    }

    private (Vector512<double> Force, Vector512<double> Moment) WriteSide(
        ref double c, ref double terms, SeriesCar run, int side, int inputOrder, Vector512<double> t, Vector512<double> zu, Vector512<double> phiU, Vector512<double> zuRate, Vector512<double> phiURate)
    {
        var atRest = Vector512.Create(run.StaticTyreLoad);
        Store(ref c, Channel.RoadLeft + side, Sum(ref terms, SeriesRow.Road + side, inputOrder, t));
        var push = Sum(ref terms, SeriesRow.LeftPush + side, inputOrder, t) + atRest;

        // From left to right; with single tyres the outer one is also the inner one.
        var (first, last) = (2 * side, (2 * side) + 1);
        var isDual = run.Contacts[first] is not null && run.Contacts[last] is not null;
        var (yFirst, yLast) = (run.Contacts[first] ?? run.Contacts[last]!.Value, run.Contacts[last] ?? run.Contacts[first]!.Value);
        var one = Contact(yFirst);
        var other = isDual ? Contact(yLast) : one;
        var (oneLoad, otherLoad) = (Vector512.Max(one, default), Vector512.Max(other, default));
        Store(ref c, Channel.TyreContactLeftOuter + first, one);
        Store(ref c, Channel.TyreContactLeftOuter + last, other);
        Store(ref c, Channel.TyreLoadLeftOuter + first, oneLoad);
        Store(ref c, Channel.TyreLoadLeftOuter + last, otherLoad);
        Store(ref c, Channel.TyreContactLeft + side, Vector512.Max(one, other));
        Store(ref c, Channel.TyreLoadLeft + side, isDual ? oneLoad + otherLoad : oneLoad);
        var force = oneLoad - atRest;
        var moment = force * yFirst;
        if (isDual)
            (force, moment) = (force + (otherLoad - atRest), moment + ((otherLoad - atRest) * yLast));
        return (force, moment);

        Vector512<double> Contact(double y) => push - ((zu + (phiU * y)) * run.TyreStiffness) - ((zuRate + (phiURate * y)) * run.TyreDamping);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(ref double channels, Channel channel, Vector512<double> values) =>
        values.StoreUnsafe(ref channels, (nuint)((int)channel * Vector512<double>.Count));

    /// <summary>Stores a quantity of both sides: the right side mirrors the left.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector512<double> Left, Vector512<double> Right) StorePair(ref double channels, Channel channel, Vector512<double> heave, Vector512<double> roll)
    {
        var (left, right) = (heave + roll, heave - roll);
        Store(ref channels, channel, left);
        Store(ref channels, channel + 1, right);
        return (left, right);
    }

    private static Vector512<double> Line(StraightPieces law, int piece, Vector512<double> x) =>
        (x * law.Slopes[piece]) + Vector512.Create(law.Offsets[piece]);

    private static Vector512<double> Stop(SeriesStop? stop, bool isClosed, Vector512<double> q, Vector512<double> r)
    {
        if (!isClosed)
            return default;
        var penetration = (q * stop!.Ratio) + (r * stop.Arm) - Vector512.Create(stop.Stop.Clearance);
        return penetration * stop.Stop.Stiffness * (stop.IsSquare ? penetration : Vector512<double>.One);
    }

    /// <summary>The coefficients of the powers of the fraction of the step, state after state.</summary>
    private double[] WriteCoefficients()
    {
        var length = End - Start;
        for (var row = 0; row < HalfCarState.Count; row++)
        {
            var (factor, order) = (1.0, row < HalfCarState.Rates ? SeriesRow.Order : SeriesRow.Order - 1);
            for (var k = 0; k <= order; k++)
            {
                _coefficients[(row * SeriesRow.Terms) + k] = factor * source.Terms[Index(row, k)];
                factor *= length;
            }
        }

        return _coefficients;
    }

    private int Index(int row, int power) => (((row * SeriesRow.Terms) + power) * _stride) + lane;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector512<double> Sum(ref double terms, int row, int order, Vector512<double> t)
    {
        ref var first = ref Unsafe.Add(ref terms, row * SeriesRow.Terms * _stride);
        var sum = Vector512.Create(Unsafe.Add(ref first, order * _stride));
        for (var k = order - 1; k >= 0; k--)
            sum = Vector512.FusedMultiplyAdd(sum, t, Vector512.Create(Unsafe.Add(ref first, k * _stride)));
        return sum;
    }
}
