using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>
/// The equations of motion of the half-car with four degrees of freedom, driven by a road and a lateral acceleration, with a car of its own in
/// each lane.
/// </summary>
/// <remarks>
/// With <c>q = zu − zs</c>, <c>r = φu − φs</c>, the suspension's total force <c>F</c> and moment <c>M</c> on the body, and
/// the tyres' forces <c>Ft</c> counted from their static load:
/// <code>
/// ms z̈s            = F − ms g
/// (Is + ms h²) φ̈s  = M + ms h ay + ms g h sin φs
/// mu z̈u            = Σ Ft − (F − ms g)
/// Iu φ̈u            = Σ y Ft − M + (ms hrc + mu hu) ay
/// </code>
/// Axes are those of ISO 8855. See docs/theory.md for the assumptions. Not thread-safe.
/// </remarks>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class HalfCarEquations<T> : IOdeSystem<T>
    where T : struct, ILanes<T>
{
    private readonly FittingLaw<T> _springFitting;
    private readonly FittingLaw<T> _damperFitting;
    private readonly FittingLaw<T>? _bumpFitting;
    private readonly FittingLaw<T>? _reboundFitting;
    private readonly CurveLaw<T> _spring;
    private readonly DamperLaw<T> _damper;
    private readonly StopLaw<T>? _bumpStop;
    private readonly StopLaw<T>? _reboundStop;
    private readonly bool _turnsMounts;
    private readonly bool _hasTopMount;
    private readonly bool _hasDuals;
    private readonly AssembledHalfCar?[] _cars = new AssembledHalfCar?[T.Count];
    private readonly RoadCursor?[] _roads = new RoadCursor?[T.Count];
    private readonly ICorneringCursor?[] _cornerings = new ICorneringCursor?[T.Count];
    private readonly LaneBuffer<T> _parameters = new(Unsafe.SizeOf<Parameters>() / Unsafe.SizeOf<T>());
    private readonly LaneBuffer<T> _inputs = new(Unsafe.SizeOf<Inputs>() / Unsafe.SizeOf<T>());
    private readonly LaneBuffer<T> _channels = new(ChannelTable.Count);
    private readonly (double Start, double End)[] _segments = new (double, double)[T.Count];
    private int _moved;

    /// <summary>Makes the equations of half-cars of the form of one of them.</summary>
    /// <param name="like">A car of the form.</param>
    public HalfCarEquations(AssembledHalfCar like)
    {
        var (vehicle, layout) = (like.Vehicle, like.Layout);
        _springFitting = FittingLaw<T>.Of(vehicle.Spring.Fitting);
        _damperFitting = FittingLaw<T>.Of(layout.Fitting);
        _spring = new CurveLaw<T>(CurveForm.Of(like.SpringForce.Pieces));
        _damper = new DamperLaw<T>(DamperForm.Of(layout.Damper));
        if (vehicle.BumpStop is { } bump)
            (_bumpFitting, _bumpStop) = (FittingLaw<T>.Of(bump.Fitting), new StopLaw<T>(bump.Form));
        if (vehicle.ReboundStop is { } rebound)
            (_reboundFitting, _reboundStop) = (FittingLaw<T>.Of(rebound.Fitting), new StopLaw<T>(rebound.Form));
        _turnsMounts = _springFitting.TurnsMounts || _damperFitting.TurnsMounts || _bumpFitting is { TurnsMounts: true } || _reboundFitting is { TurnsMounts: true };
        _hasTopMount = like.HasTopMount;
        _hasDuals = vehicle.Tyre.DualSpacing is not null;
    }

    /// <inheritdoc/>
    public int Dimension => _hasTopMount ? HalfCarState.Count + 2 : HalfCarState.Count;

    private ref Parameters Car => ref Unsafe.As<T, Parameters>(ref _parameters[0]);

    private ref Inputs Input => ref Unsafe.As<T, Inputs>(ref _inputs[0]);

    /// <inheritdoc/>
    public string StateName(int index) => HalfCarState.Name(index);

    /// <summary>Puts a car into a lane, without road and cornering yet.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="car">Vehicle and layout, of the form of these equations.</param>
    public void Load(int lane, AssembledHalfCar car)
    {
        var (vehicle, layout) = (car.Vehicle, car.Layout);
        _cars[lane] = car;
        (_roads[lane], _cornerings[lane]) = (null, null);
        _moved &= ~(1 << lane);
        _springFitting.Load(lane, vehicle.Spring.Fitting);
        _damperFitting.Load(lane, layout.Fitting);
        _spring.Load(lane, car.SpringForce.Pieces, car.SpringForce);
        _damper.Load(lane, layout.Damper);
        if (vehicle.BumpStop is { } bump)
        {
            _bumpFitting!.Load(lane, bump.Fitting);
            _bumpStop!.Load(lane, bump);
        }

        if (vehicle.ReboundStop is { } rebound)
        {
            _reboundFitting!.Load(lane, rebound.Fitting);
            _reboundStop!.Load(lane, rebound);
        }

        ref var p = ref Car;
        var weight = vehicle.Body.Mass * vehicle.Gravity;
        Set(ref p.Weight, lane, weight);
        Set(ref p.InverseBodyMass, lane, 1 / vehicle.Body.Mass);
        Set(ref p.InverseBodyRollInertia, lane, 1 / vehicle.BodyRollInertia);
        Set(ref p.InverseUnsprungMass, lane, 1 / vehicle.Unsprung.Mass);
        Set(ref p.InverseUnsprungRollInertia, lane, 1 / vehicle.UnsprungRollInertia);
        Set(ref p.BodyLateralMoment, lane, vehicle.Body.Mass * vehicle.RollArm);
        Set(ref p.UnsprungLateralMoment, lane, vehicle.UnsprungLateralMoment);
        Set(ref p.GravityMoment, lane, weight * vehicle.RollArm);
        Set(ref p.HalfTrack, lane, vehicle.HalfTrack);
        Set(ref p.AntiRollBar, lane, vehicle.AntiRollBar);
        Set(ref p.TyreStiffness, lane, vehicle.Tyre.Stiffness);
        Set(ref p.TyreDamping, lane, vehicle.Tyre.Damping);
        Set(ref p.StaticTyreLoad, lane, vehicle.StaticTyreLoad);
        Set(ref p.OuterContact, lane, car.ContactPositions[0]);
        Set(ref p.InnerContact, lane, car.ContactPositions[_hasDuals ? 1 : 0]);
        Set(ref p.MountStiffness, lane, layout.Damper.TopMountStiffness ?? 0);
        Set(ref p.GasForce, lane, layout.Damper.GasForce);
        Set(ref p.SeatOffset, lane, vehicle.SeatOffset);
    }

    /// <summary>Puts a car and what it drives over and through into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="car">Vehicle and layout, of the form of these equations.</param>
    /// <param name="road">Road and speed.</param>
    /// <param name="cornering">Cornering input.</param>
    public void Load(int lane, AssembledHalfCar car, Road road, ICorneringInput cornering)
    {
        Load(lane, car);
        (_roads[lane], _cornerings[lane]) = (road.CreateCursor(), cornering.CreateCursor());
    }

    /// <summary>The lane stands still from now on: nothing moves it any more.</summary>
    /// <param name="lane">The lane.</param>
    public void Rest(int lane) => _moved &= ~(1 << lane);

    /// <inheritdoc/>
    public void EnterSegment(int lane, double start, double end)
    {
        _segments[lane] = (start, end);
        var middle = 0.5 * (start + end);
        var (road, cornering) = (_roads[lane]!, _cornerings[lane]!);
        road.EnterSegment(middle);
        cornering.EnterSegment(middle);
        ReadInputs(lane, middle);
        Set(ref Input.Command, lane, cornering.Command(middle));
        _moved = road.IsHeld && cornering.IsHeld ? _moved & ~(1 << lane) : _moved | (1 << lane);
    }

    /// <summary>The segment that a lane entered last: start and end, s.</summary>
    public (double Start, double End) SegmentOf(int lane) => _segments[lane];

    /// <summary>Holds a lane's inputs at given values.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="roadLeft">Height of the road under the left wheel, m.</param>
    /// <param name="roadRight">Height of the road under the right wheel, m.</param>
    /// <param name="lateralAcceleration">Lateral acceleration, m/s².</param>
    public void Hold(int lane, double roadLeft, double roadRight, double lateralAcceleration)
    {
        ref var inputs = ref Input;
        Set(ref inputs.RoadLeft, lane, roadLeft);
        Set(ref inputs.RoadRight, lane, roadRight);
        Set(ref inputs.RoadLeftRate, lane, 0);
        Set(ref inputs.RoadRightRate, lane, 0);
        Set(ref inputs.LateralAcceleration, lane, lateralAcceleration);
    }

    /// <summary>One of the inputs, for those who differentiate by it.</summary>
    public ref Inputs HeldInputs => ref Input;

    /// <inheritdoc/>
    public Exception? TakeFault(int lane) =>
        _springFitting.TakeFault(lane) ?? _damperFitting.TakeFault(lane) ?? _bumpFitting?.TakeFault(lane) ?? _reboundFitting?.TakeFault(lane);

    /// <inheritdoc/>
    public void Derivatives(in T time, ReadOnlySpan<T> state, Span<T> derivative)
    {
        ref var at = ref _channels[0];
        Evaluate(time, state, ref at);
        state.Slice(HalfCarState.Rates, HalfCarState.Rates).CopyTo(derivative);
        derivative[HalfCarState.Rates + HalfCarState.BodyHeave] = Unsafe.Add(ref at, (int)Channel.BodyAcceleration);
        derivative[HalfCarState.Rates + HalfCarState.BodyRoll] = Unsafe.Add(ref at, (int)Channel.BodyRollAcceleration);
        derivative[HalfCarState.Rates + HalfCarState.UnsprungHeave] = Unsafe.Add(ref at, (int)Channel.UnsprungAcceleration);
        derivative[HalfCarState.Rates + HalfCarState.UnsprungRoll] = Unsafe.Add(ref at, (int)Channel.UnsprungRollAcceleration);
        if (_hasTopMount)
        {
            derivative[HalfCarState.LeftStroke] = Unsafe.Add(ref at, (int)Channel.DamperVelocityLeft);
            derivative[HalfCarState.LeftStroke + 1] = Unsafe.Add(ref at, (int)Channel.DamperVelocityRight);
        }
    }

    /// <summary>Writes every channel of the result at one instant of each lane, in SI units. Allocates nothing.</summary>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states.</param>
    /// <param name="at">Receives the channels, in the order of <see cref="Channel"/>; there are <see cref="ChannelTable.Count"/>.</param>
    public void WriteChannels(in T time, ReadOnlySpan<T> state, ref T at)
    {
        Evaluate(time, state, ref at);
        Complete(time, state, ref at);
    }

    /// <summary>Writes the channels where the right-hand side was evaluated last.</summary>
    /// <param name="time">The time of that evaluation, s.</param>
    /// <param name="state">Its states.</param>
    /// <param name="at">Receives the channels.</param>
    public void CopyChannels(in T time, ReadOnlySpan<T> state, ref T at)
    {
        _channels.Elements.CopyTo(MemoryMarshal.CreateSpan(ref at, ChannelTable.Count));
        Complete(time, state, ref at);
    }

    /// <summary>Forces and accelerations, with the channels they come from.</summary>
    private void Evaluate(in T time, ReadOnlySpan<T> state, ref T at)
    {
        foreach (var lane in new LaneSet(_moved))
            ReadInputs(lane, LaneMath.Get(time, lane));
        ref readonly var p = ref Car;
        ref readonly var inputs = ref Input;
        ref readonly var x = ref MemoryMarshal.GetReference(state);
        Motion motion;
        motion.Position = default;
        motion.Position.Heave = At(x, HalfCarState.UnsprungHeave) - At(x, HalfCarState.BodyHeave);
        motion.Position.Roll = At(x, HalfCarState.UnsprungRoll) - At(x, HalfCarState.BodyRoll);
        if (_turnsMounts)
            LaneMath.SinCos(motion.Position.Roll, out motion.Position.SinRoll, out motion.Position.CosRoll);
        motion.HeaveRate = At(x, HalfCarState.Rates + HalfCarState.UnsprungHeave) - At(x, HalfCarState.Rates + HalfCarState.BodyHeave);
        motion.RollRate = At(x, HalfCarState.Rates + HalfCarState.UnsprungRoll) - At(x, HalfCarState.Rates + HalfCarState.BodyRoll);
        motion.LeftStroke = _hasTopMount ? At(x, HalfCarState.LeftStroke) : default;
        motion.RightStroke = _hasTopMount ? At(x, HalfCarState.LeftStroke + 1) : default;

        // Each side is summed for itself: a mirrored manoeuvre then gives exactly the mirrored motion.
        var left = Suspension(Side.Left, motion, motion.LeftStroke, ref at);
        var right = Suspension(Side.Right, motion, motion.RightStroke, ref Unsafe.Add(ref at, 1));
        var force = left.Force + right.Force;
        var moment = (p.AntiRollBar * motion.Position.Roll) + (left.Moment + right.Moment);
        var leftTyres = Tyres(Side.Left, x, ref at);
        var rightTyres = Tyres(Side.Right, x, ref at);
        var unbalanced = force - p.Weight;
        LaneMath.SinCos(At(x, HalfCarState.BodyRoll), out var sinRoll, out _);
        Put(ref at, Channel.BodyAcceleration, unbalanced * p.InverseBodyMass);
        Put(ref at, Channel.BodyRollAcceleration, (moment + (p.BodyLateralMoment * inputs.LateralAcceleration) + (p.GravityMoment * sinRoll)) * p.InverseBodyRollInertia);
        Put(ref at, Channel.UnsprungAcceleration, (leftTyres.Force + rightTyres.Force - unbalanced) * p.InverseUnsprungMass);
        Put(ref at, Channel.UnsprungRollAcceleration, (leftTyres.Moment + rightTyres.Moment - moment + (p.UnsprungLateralMoment * inputs.LateralAcceleration)) * p.InverseUnsprungRollInertia);
    }

    /// <summary>Force and moment of one side's elements on the body.</summary>
    /// <param name="side">The side.</param>
    /// <param name="motion">Motion of the axle against the body.</param>
    /// <param name="stroke">Stroke of the damper in its top mount, m.</param>
    /// <param name="at">The channels, those of the left side standing right before their counterparts; one further on for the right side.</param>
    private Wrench Suspension(Side side, in Motion motion, in T stroke, ref T at)
    {
        _springFitting.At(motion.Position, side, out var element);
        var springForce = _spring.At(element.Compression);
        Put(ref at, Channel.SpringForceLeft, springForce);
        var load = new Wrench(element.HeaveRatio * springForce, element.RollArm * springForce);

        _damperFitting.At(motion.Position, side, out element);
        var damperForce = DamperForce(element, motion, stroke, ref at) + Car.GasForce;
        load.Add(element, damperForce);
        if (_bumpStop is not null)
        {
            _bumpFitting!.At(motion.Position, side, out element);
            var force = _bumpStop.Force(element.Compression);
            Put(ref at, Channel.BumpStopForceLeft, force);
            load.Add(element, force);
        }

        if (_reboundStop is not null)
        {
            _reboundFitting!.At(motion.Position, side, out element);
            var force = -_reboundStop.Force(-element.Compression);
            Put(ref at, Channel.ReboundStopForceLeft, force);
            load.Add(element, force);
        }

        return load;
    }

    /// <summary>Force of a damper without its gas force.</summary>
    private T DamperForce(in ElementMotion<T> element, in Motion motion, in T stroke, ref T at)
    {
        T force, velocity;
        if (_hasTopMount)
        {
            // Mount and damper in series carry the same force; the mount's part of the travel is what the damper does not take.
            force = Car.MountStiffness * (element.Compression - stroke);
            velocity = _damper.VelocityAt(force);
            Put(ref at, Channel.DamperTravelLeft, stroke);
        }
        else
        {
            velocity = (element.HeaveRatio * motion.HeaveRate) + (element.RollArm * motion.RollRate);
            force = _damper.Force(velocity);
            Put(ref at, Channel.DamperTravelLeft, element.Compression);
        }

        Put(ref at, Channel.DamperVelocityLeft, velocity);
        Put(ref at, Channel.DamperForceLeft, force);
        return force;
    }

    /// <summary>Force and moment of one side's tyres on the axle, counted from their static load.</summary>
    private Wrench Tyres(Side side, in T x, ref T at)
    {
        ref readonly var p = ref Car;
        ref readonly var inputs = ref Input;
        var isLeft = side == Side.Left;
        var heave = (isLeft ? inputs.RoadLeft : inputs.RoadRight) - At(x, HalfCarState.UnsprungHeave);
        var heaveRate = (isLeft ? inputs.RoadLeftRate : inputs.RoadRightRate) - At(x, HalfCarState.Rates + HalfCarState.UnsprungHeave);
        var roll = isLeft ? At(x, HalfCarState.UnsprungRoll) : -At(x, HalfCarState.UnsprungRoll);
        var rollRate = isLeft ? At(x, HalfCarState.Rates + HalfCarState.UnsprungRoll) : -At(x, HalfCarState.Rates + HalfCarState.UnsprungRoll);
        var total = Tyre(p.OuterContact, heave, heaveRate, roll, rollRate, out Unsafe.Add(ref at, (int)(isLeft ? Channel.TyreContactLeftOuter : Channel.TyreContactRightOuter)));
        if (_hasDuals)
        {
            var inner = Tyre(p.InnerContact, heave, heaveRate, roll, rollRate, out Unsafe.Add(ref at, (int)(isLeft ? Channel.TyreContactLeftInner : Channel.TyreContactRightInner)));
            total = new Wrench(total.Force + inner.Force, total.Moment + inner.Moment);
        }

        return isLeft ? total : new Wrench(total.Force, -total.Moment);
    }

    /// <summary>Force and moment of one tyre, seen from its own side.</summary>
    private Wrench Tyre(in T y, in T heave, in T heaveRate, in T roll, in T rollRate, out T load)
    {
        ref readonly var p = ref Car;
        load = T.Fma(p.TyreDamping, T.NegatedFma(y, rollRate, heaveRate), T.Fma(p.TyreStiffness, T.NegatedFma(y, roll, heave), p.StaticTyreLoad));

        // The tyre pushes but never pulls.
        var change = T.Max(load, default) - p.StaticTyreLoad;
        return new Wrench(change, y * change);
    }

    /// <summary>The channels that no force depends on.</summary>
    private void Complete(in T time, ReadOnlySpan<T> state, ref T at)
    {
        ref readonly var p = ref Car;
        ref readonly var inputs = ref Input;
        ref readonly var x = ref MemoryMarshal.GetReference(state);
        state[..HalfCarState.Count].CopyTo(MemoryMarshal.CreateSpan(ref Unsafe.Add(ref at, (int)Channel.BodyHeave), HalfCarState.Count));
        Put(ref at, Channel.SeatAcceleration, T.Fma(p.SeatOffset, Unsafe.Add(ref at, (int)Channel.BodyRollAcceleration), Unsafe.Add(ref at, (int)Channel.BodyAcceleration)));
        var q = At(x, HalfCarState.UnsprungHeave) - At(x, HalfCarState.BodyHeave);
        var wheel = p.HalfTrack * (At(x, HalfCarState.UnsprungRoll) - At(x, HalfCarState.BodyRoll));
        Put(ref at, Channel.SuspensionHeave, q);
        Put(ref at, Channel.WheelTravelLeft, q + wheel);
        Put(ref at, Channel.WheelTravelRight, q - wheel);
        if (!_hasDuals)
        {
            // Single tyres are the outer and the inner ones at once.
            Put(ref at, Channel.TyreContactLeftInner, Unsafe.Add(ref at, (int)Channel.TyreContactLeftOuter));
            Put(ref at, Channel.TyreContactRightInner, Unsafe.Add(ref at, (int)Channel.TyreContactRightOuter));
        }

        CompleteTyres(Channel.TyreContactLeftOuter, Channel.TyreContactLeftInner, Channel.TyreLoadLeftOuter, Channel.TyreLoadLeftInner, Channel.TyreLoadLeft, Channel.TyreContactLeft, ref at);
        CompleteTyres(Channel.TyreContactRightOuter, Channel.TyreContactRightInner, Channel.TyreLoadRightOuter, Channel.TyreLoadRightInner, Channel.TyreLoadRight, Channel.TyreContactRight, ref at);
        Put(ref at, Channel.RoadLeft, inputs.RoadLeft);
        Put(ref at, Channel.RoadRight, inputs.RoadRight);
        Put(ref at, Channel.LateralAcceleration, inputs.LateralAcceleration);
        foreach (var lane in new LaneSet(_moved))
            Set(ref Input.Command, lane, _cornerings[lane]!.Command(LaneMath.Get(time, lane)));
        Put(ref at, Channel.CorneringCommand, inputs.Command);
    }

    private void CompleteTyres(Channel outerContact, Channel innerContact, Channel outer, Channel inner, Channel side, Channel contact, ref T at)
    {
        var (outerLoad, innerLoad) = (Unsafe.Add(ref at, (int)outerContact), Unsafe.Add(ref at, (int)innerContact));
        Put(ref at, contact, T.Max(outerLoad, innerLoad));
        (outerLoad, innerLoad) = (T.Max(outerLoad, default), T.Max(innerLoad, default));
        Put(ref at, outer, outerLoad);
        Put(ref at, inner, innerLoad);
        var load = _hasDuals ? outerLoad + innerLoad : outerLoad;
        Put(ref at, side, load);
        var rest = _hasDuals ? Car.StaticTyreLoad + Car.StaticTyreLoad : Car.StaticTyreLoad;
        Put(ref at, side == Channel.TyreLoadLeft ? Channel.TyreLoadChangeLeft : Channel.TyreLoadChangeRight, load - rest);
    }

    private void ReadInputs(int lane, double time)
    {
        ref var inputs = ref Input;
        var road = _roads[lane]!.Sample(time);
        Set(ref inputs.RoadLeft, lane, road.Left);
        Set(ref inputs.RoadRight, lane, road.Right);
        Set(ref inputs.RoadLeftRate, lane, road.LeftRate);
        Set(ref inputs.RoadRightRate, lane, road.RightRate);
        Set(ref inputs.LateralAcceleration, lane, _cornerings[lane]!.LateralAcceleration(time));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ref readonly T At(in T first, int index) => ref Unsafe.Add(ref Unsafe.AsRef(in first), index);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(ref T at, Channel channel, in T value) => Unsafe.Add(ref at, (int)channel) = value;

    private static void Set(ref T numbers, int lane, double value) => LaneMath.Lane(ref numbers, lane) = value;

    /// <summary>Inputs at the instant evaluated: m, m/s, m/s², and the command in its own unit.</summary>
    public struct Inputs
    {
        /// <summary>Height of the road under the left wheel, m.</summary>
        public T RoadLeft;

        /// <summary>Height of the road under the right wheel, m.</summary>
        public T RoadRight;

        /// <summary>Its rate of change under the left wheel, m/s.</summary>
        public T RoadLeftRate;

        /// <summary>Its rate of change under the right wheel, m/s.</summary>
        public T RoadRightRate;

        /// <summary>Lateral acceleration, m/s².</summary>
        public T LateralAcceleration;

        /// <summary>What is commanded.</summary>
        public T Command;
    }

    /// <summary>What each car brings, SI.</summary>
    private struct Parameters
    {
        public T Weight;
        public T InverseBodyMass;
        public T InverseBodyRollInertia;
        public T InverseUnsprungMass;
        public T InverseUnsprungRollInertia;
        public T BodyLateralMoment;
        public T UnsprungLateralMoment;
        public T GravityMoment;
        public T HalfTrack;
        public T AntiRollBar;
        public T TyreStiffness;
        public T TyreDamping;
        public T StaticTyreLoad;
        public T OuterContact;
        public T InnerContact;
        public T MountStiffness;
        public T GasForce;
        public T SeatOffset;
    }

    /// <summary>Motion of the axle against the body: m, rad, m/s, rad/s; strokes of the dampers in their top mounts, m.</summary>
    private struct Motion
    {
        public RelativePosition<T> Position;
        public T HeaveRate;
        public T RollRate;
        public T LeftStroke;
        public T RightStroke;
    }

    /// <summary>A force, N, and its moment about the roll axis, N·m.</summary>
    private struct Wrench(in T force, in T moment)
    {
        public T Force = force;
        public T Moment = moment;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Add(in ElementMotion<T> element, in T force)
        {
            Force = T.Fma(element.HeaveRatio, force, Force);
            Moment = T.Fma(element.RollArm, force, Moment);
        }
    }
}

/// <summary>The equations of motion of one half-car in one run, in single numbers. One object per run; not thread-safe.</summary>
public sealed class HalfCarEquations : IOdeSystem
{
    private readonly LaneBuffer<OneLane> _channels = new(ChannelTable.Count);

    /// <summary>Makes the equations for one run.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="road">Road and speed.</param>
    /// <param name="cornering">Cornering input.</param>
    public HalfCarEquations(AssembledHalfCar car, Road road, ICorneringInput cornering)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(road);
        ArgumentNullException.ThrowIfNull(cornering);
        Car = car;
        System = new HalfCarEquations<OneLane>(car);
        System.Load(0, car, road, cornering);
    }

    /// <summary>Takes another car of the same form, and what it drives over and through.</summary>
    internal void Load(AssembledHalfCar car, Road road, ICorneringInput cornering)
    {
        Car = car;
        System.Load(0, car, road, cornering);
    }

    /// <summary>The vehicle and layout these equations are of.</summary>
    public AssembledHalfCar Car { get; private set; }

    /// <inheritdoc/>
    public int Dimension => System.Dimension;

    /// <summary>The equations themselves.</summary>
    internal HalfCarEquations<OneLane> System { get; }

    /// <inheritdoc/>
    public string StateName(int index) => HalfCarState.Name(index);

    /// <inheritdoc/>
    public void EnterSegment(double start, double end) => System.EnterSegment(0, start, end);

    /// <inheritdoc/>
    public void Derivatives(double time, ReadOnlySpan<double> state, Span<double> derivative) =>
        System.Derivatives(new OneLane(time), MemoryMarshal.Cast<double, OneLane>(state), MemoryMarshal.Cast<double, OneLane>(derivative));

    /// <summary>Evaluates every channel of the result at one instant, in SI units. Allocates nothing.</summary>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states.</param>
    /// <param name="channels">Receives the channels, indexed by <see cref="Channel"/>; length <see cref="ChannelTable.Count"/>.</param>
    public void WriteChannels(double time, ReadOnlySpan<double> state, Span<double> channels)
    {
        System.WriteChannels(new OneLane(time), MemoryMarshal.Cast<double, OneLane>(state), ref _channels[0]);
        _channels.Scalars.CopyTo(channels);
    }
}
