using System.Runtime.CompilerServices;
using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>
/// The equations of motion of the half-car with four degrees of freedom, driven by a road and a lateral acceleration.
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
/// Axes are those of ISO 8855. See docs/theory.md for the assumptions. One object per run; not thread-safe.
/// </remarks>
public sealed class HalfCarEquations : IOdeSystem
{
    private readonly RoadCursor _road;
    private readonly ICorneringCursor _cornering;
    private readonly PiecewiseLinear _springForce;
    private readonly QuickFitting _springFitting;
    private readonly QuickFitting _damperFitting;
    private readonly QuickFitting _bumpStopFitting;
    private readonly QuickFitting _reboundStopFitting;
    private readonly Damper _damper;
    private readonly TravelStop? _bumpStop;
    private readonly TravelStop? _reboundStop;
    private readonly double[] _contacts;
    private readonly double _weight;
    private readonly double _bodyMass;
    private readonly double _bodyRollInertia;
    private readonly double _unsprungMass;
    private readonly double _unsprungRollInertia;
    private readonly double _bodyLateralMoment;
    private readonly double _unsprungLateralMoment;
    private readonly double _gravityMoment;
    private readonly double _halfTrack;
    private readonly double _antiRollBar;
    private readonly double _tyreStiffness;
    private readonly double _tyreDamping;
    private readonly double _staticTyreLoad;
    private readonly double _mountStiffness;
    private readonly double _seatOffset;

    // The forces and accelerations of the evaluation made last.
    private Instant _now;

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
        var vehicle = car.Vehicle;
        _road = road.CreateCursor();
        _cornering = cornering.CreateCursor();
        _springForce = car.SpringForce;
        _springFitting = new QuickFitting(vehicle.Spring.Fitting);
        _damperFitting = new QuickFitting(car.Layout.Fitting);
        _bumpStopFitting = new QuickFitting(vehicle.BumpStop?.Fitting ?? car.Layout.Fitting);
        _reboundStopFitting = new QuickFitting(vehicle.ReboundStop?.Fitting ?? car.Layout.Fitting);
        _damper = car.Layout.Damper;
        _bumpStop = vehicle.BumpStop;
        _reboundStop = vehicle.ReboundStop;
        _contacts = car.ContactPositions;
        _bodyMass = vehicle.Body.Mass;
        _weight = vehicle.Body.Mass * vehicle.Gravity;
        _bodyRollInertia = vehicle.BodyRollInertia;
        _unsprungMass = vehicle.Unsprung.Mass;
        _unsprungRollInertia = vehicle.UnsprungRollInertia;
        _bodyLateralMoment = vehicle.Body.Mass * vehicle.RollArm;
        _unsprungLateralMoment = vehicle.UnsprungLateralMoment;
        _gravityMoment = _weight * vehicle.RollArm;
        _halfTrack = vehicle.HalfTrack;
        _antiRollBar = vehicle.AntiRollBar;
        _tyreStiffness = vehicle.Tyre.Stiffness;
        _tyreDamping = vehicle.Tyre.Damping;
        _staticTyreLoad = vehicle.StaticTyreLoad;
        _mountStiffness = _damper.TopMountStiffness ?? 0;
        _seatOffset = vehicle.SeatOffset;
    }

    /// <summary>The vehicle and layout these equations are of.</summary>
    public AssembledHalfCar Car { get; }

    /// <inheritdoc/>
    public int Dimension => Car.HasTopMount ? HalfCarState.Count + 2 : HalfCarState.Count;

    /// <inheritdoc/>
    public string StateName(int index) => HalfCarState.Name(index);

    /// <summary>How many segments of the inputs were entered so far: within one of them no input jumps.</summary>
    internal long Segment { get; private set; }

    /// <inheritdoc/>
    public void EnterSegment(double start, double end)
    {
        Segment++;
        var midpoint = 0.5 * (start + end);
        _road.EnterSegment(midpoint);
        _cornering.EnterSegment(midpoint);
    }

    /// <inheritdoc/>
    public void Derivatives(double time, ReadOnlySpan<double> state, Span<double> derivative)
    {
        Evaluate(time, state);
        state.Slice(HalfCarState.Rates, 4).CopyTo(derivative);
        derivative[HalfCarState.Rates + HalfCarState.BodyHeave] = _now.BodyAcceleration;
        derivative[HalfCarState.Rates + HalfCarState.BodyRoll] = _now.BodyRollAcceleration;
        derivative[HalfCarState.Rates + HalfCarState.UnsprungHeave] = _now.UnsprungAcceleration;
        derivative[HalfCarState.Rates + HalfCarState.UnsprungRoll] = _now.UnsprungRollAcceleration;
        if (Car.HasTopMount)
        {
            derivative[HalfCarState.LeftStroke] = _now.Left.DamperVelocity;
            derivative[HalfCarState.LeftStroke + 1] = _now.Right.DamperVelocity;
        }
    }

    /// <summary>Evaluates every channel of the result at one instant, in SI units. Allocates nothing.</summary>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states.</param>
    /// <param name="channels">Receives the channels, indexed by <see cref="Channel"/>; length <see cref="ChannelTable.Count"/>.</param>
    public void WriteChannels(double time, ReadOnlySpan<double> state, Span<double> channels)
    {
        Evaluate(time, state);
        WriteChannels(time, state, channels, 1);
    }

    /// <summary>Evaluates every channel of the result at one instant, as one lane of rows of <see cref="GaussLobatto.Lanes"/> instants.</summary>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states.</param>
    /// <param name="rows">Receives channel <c>c</c> at <c>8 c + lane</c>.</param>
    /// <param name="lane">The lane, 0 to 7.</param>
    internal void WriteLane(double time, ReadOnlySpan<double> state, Span<double> rows, int lane)
    {
        Evaluate(time, state);
        WriteChannels(time, state, rows[lane..], GaussLobatto.Lanes);
    }

    // Inlined, so that each of the two distances from channel to channel is a constant.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void WriteChannels(double time, ReadOnlySpan<double> state, Span<double> channels, int apart)
    {
        // The last one first: the others then need no check of their index.
        channels[(int)Channel.CorneringCommand * apart] = _cornering.Command(time);
        for (var i = 0; i < HalfCarState.Count; i++)
            channels[((int)Channel.BodyHeave + i) * apart] = state[i];
        channels[(int)Channel.BodyAcceleration * apart] = _now.BodyAcceleration;
        channels[(int)Channel.BodyRollAcceleration * apart] = _now.BodyRollAcceleration;
        channels[(int)Channel.UnsprungAcceleration * apart] = _now.UnsprungAcceleration;
        channels[(int)Channel.UnsprungRollAcceleration * apart] = _now.UnsprungRollAcceleration;
        channels[(int)Channel.SeatAcceleration * apart] = _now.BodyAcceleration + (_seatOffset * _now.BodyRollAcceleration);
        var q = state[HalfCarState.UnsprungHeave] - state[HalfCarState.BodyHeave];
        var r = state[HalfCarState.UnsprungRoll] - state[HalfCarState.BodyRoll];
        channels[(int)Channel.SuspensionHeave * apart] = q;
        channels[(int)Channel.WheelTravelLeft * apart] = q + (_halfTrack * r);
        channels[(int)Channel.WheelTravelRight * apart] = q - (_halfTrack * r);
        channels[(int)Channel.DamperTravelLeft * apart] = _now.Left.DamperTravel;
        channels[(int)Channel.DamperTravelRight * apart] = _now.Right.DamperTravel;
        channels[(int)Channel.DamperVelocityLeft * apart] = _now.Left.DamperVelocity;
        channels[(int)Channel.DamperVelocityRight * apart] = _now.Right.DamperVelocity;
        channels[(int)Channel.DamperForceLeft * apart] = _now.Left.DamperForce;
        channels[(int)Channel.DamperForceRight * apart] = _now.Right.DamperForce;
        channels[(int)Channel.SpringForceLeft * apart] = _now.Left.SpringForce;
        channels[(int)Channel.SpringForceRight * apart] = _now.Right.SpringForce;
        channels[(int)Channel.BumpStopForceLeft * apart] = _now.Left.BumpStopForce;
        channels[(int)Channel.BumpStopForceRight * apart] = _now.Right.BumpStopForce;
        channels[(int)Channel.ReboundStopForceLeft * apart] = _now.Left.ReboundStopForce;
        channels[(int)Channel.ReboundStopForceRight * apart] = _now.Right.ReboundStopForce;

        // Contacts stand left to right; with single tyres the outer one is also the inner one.
        var last = _contacts.Length - 1;
        var (leftOuter, leftInner) = (_now.Contacts[0], _now.Contacts[last / 2]);
        var (rightInner, rightOuter) = (_now.Contacts[(last + 1) / 2], _now.Contacts[last]);
        var (leftOuterLoad, leftInnerLoad) = (Math.Max(0, leftOuter), Math.Max(0, leftInner));
        var (rightInnerLoad, rightOuterLoad) = (Math.Max(0, rightInner), Math.Max(0, rightOuter));
        var tyres = 0.25 * _contacts.Length;
        channels[(int)Channel.TyreLoadLeft * apart] = tyres * (leftOuterLoad + leftInnerLoad);
        channels[(int)Channel.TyreLoadRight * apart] = tyres * (rightInnerLoad + rightOuterLoad);
        channels[(int)Channel.TyreLoadLeftOuter * apart] = leftOuterLoad;
        channels[(int)Channel.TyreLoadLeftInner * apart] = leftInnerLoad;
        channels[(int)Channel.TyreLoadRightInner * apart] = rightInnerLoad;
        channels[(int)Channel.TyreLoadRightOuter * apart] = rightOuterLoad;
        channels[(int)Channel.TyreContactLeft * apart] = Math.Max(leftOuter, leftInner);
        channels[(int)Channel.TyreContactRight * apart] = Math.Max(rightInner, rightOuter);
        channels[(int)Channel.TyreContactLeftOuter * apart] = leftOuter;
        channels[(int)Channel.TyreContactLeftInner * apart] = leftInner;
        channels[(int)Channel.TyreContactRightInner * apart] = rightInner;
        channels[(int)Channel.TyreContactRightOuter * apart] = rightOuter;
        channels[(int)Channel.RoadLeft * apart] = _now.Road.Left;
        channels[(int)Channel.RoadRight * apart] = _now.Road.Right;
        channels[(int)Channel.LateralAcceleration * apart] = _now.LateralAcceleration;
    }

    private void Evaluate(double time, ReadOnlySpan<double> state)
    {
        var zu = state[HalfCarState.UnsprungHeave];
        var phiU = state[HalfCarState.UnsprungRoll];
        var zuRate = state[HalfCarState.Rates + HalfCarState.UnsprungHeave];
        var phiURate = state[HalfCarState.Rates + HalfCarState.UnsprungRoll];
        var motion = new RelativeMotion(
            zu - state[HalfCarState.BodyHeave],
            phiU - state[HalfCarState.BodyRoll],
            zuRate - state[HalfCarState.Rates + HalfCarState.BodyHeave],
            phiURate - state[HalfCarState.Rates + HalfCarState.BodyRoll]);

        // Each side is summed for itself: a mirrored manoeuvre then gives exactly the mirrored motion.
        var left = Suspension(Side.Left, in motion, Car.HasTopMount ? state[HalfCarState.LeftStroke] : 0, ref _now.Left);
        var right = Suspension(Side.Right, in motion, Car.HasTopMount ? state[HalfCarState.LeftStroke + 1] : 0, ref _now.Right);
        var force = left.Force + right.Force;
        var moment = (_antiRollBar * motion.Roll) + (left.Moment + right.Moment);

        var road = _road.Sample(time);
        var axle = new AxleMotion(zu, phiU, zuRate, phiURate);
        var leftTyres = Tyres(0, road.Left, road.LeftRate, in axle);
        var rightTyres = Tyres(_contacts.Length / 2, road.Right, road.RightRate, in axle);
        var tyreForce = leftTyres.Force + rightTyres.Force;
        var tyreMoment = leftTyres.Moment + rightTyres.Moment;

        var ay = _cornering.LateralAcceleration(time);
        _now.Road = road;
        _now.LateralAcceleration = ay;
        var unbalanced = force - _weight;
        _now.BodyAcceleration = unbalanced / _bodyMass;
        _now.BodyRollAcceleration = (moment + (_bodyLateralMoment * ay) + (_gravityMoment * Math.Sin(state[HalfCarState.BodyRoll]))) / _bodyRollInertia;
        _now.UnsprungAcceleration = (tyreForce - unbalanced) / _unsprungMass;
        _now.UnsprungRollAcceleration = (tyreMoment - moment + (_unsprungLateralMoment * ay)) / _unsprungRollInertia;
    }

    /// <summary>Force and moment of one side's tyres on the axle, counted from their static load.</summary>
    private (double Force, double Moment) Tyres(int first, double elevation, double elevationRate, in AxleMotion axle)
    {
        var (force, moment) = (0.0, 0.0);
        for (var i = first; i < first + (_contacts.Length / 2); i++)
        {
            var y = _contacts[i];
            var deflection = elevation - axle.Heave - (y * axle.Roll);
            var rate = elevationRate - axle.HeaveRate - (y * axle.RollRate);
            var load = _staticTyreLoad + (_tyreStiffness * deflection) + (_tyreDamping * rate);
            _now.Contacts[i] = load;

            // The tyre pushes but never pulls.
            var change = Math.Max(load, 0) - _staticTyreLoad;
            force += change;
            moment += y * change;
        }

        return (force, moment);
    }

    /// <summary>Force and moment of one side's elements on the body.</summary>
    private (double Force, double Moment) Suspension(Side side, in RelativeMotion motion, double stroke, ref SideForces forces)
    {
        var spring = _springFitting.At(motion.Heave, motion.Roll, side);
        forces.SpringForce = _springForce.Value(spring.Compression);
        var force = spring.HeaveRatio * forces.SpringForce;
        var moment = spring.RollArm * forces.SpringForce;

        var damper = _damperFitting.At(motion.Heave, motion.Roll, side);
        if (_mountStiffness > 0)
        {
            // Mount and damper in series carry the same force; the mount's part of the travel is what the damper does not take.
            forces.DamperForce = _mountStiffness * (damper.Compression - stroke);
            forces.DamperVelocity = _damper.VelocityAt(forces.DamperForce);
            forces.DamperTravel = stroke;
        }
        else
        {
            forces.DamperVelocity = (damper.HeaveRatio * motion.HeaveRate) + (damper.RollArm * motion.RollRate);
            forces.DamperForce = _damper.Force(forces.DamperVelocity);
            forces.DamperTravel = damper.Compression;
        }

        var total = forces.DamperForce + _damper.GasForce;
        force += damper.HeaveRatio * total;
        moment += damper.RollArm * total;

        if (_bumpStop is { } bumpStop)
        {
            var at = _bumpStopFitting.At(motion.Heave, motion.Roll, side);
            forces.BumpStopForce = bumpStop.Force(at.Compression - bumpStop.Clearance);
            force += at.HeaveRatio * forces.BumpStopForce;
            moment += at.RollArm * forces.BumpStopForce;
        }

        if (_reboundStop is { } reboundStop)
        {
            var at = _reboundStopFitting.At(motion.Heave, motion.Roll, side);
            forces.ReboundStopForce = -reboundStop.Force(-at.Compression - reboundStop.Clearance);
            force += at.HeaveRatio * forces.ReboundStopForce;
            moment += at.RollArm * forces.ReboundStopForce;
        }

        return (force, moment);
    }

    /// <summary>Motion of the axle: m, rad, m/s, rad/s.</summary>
    private readonly record struct AxleMotion(double Heave, double Roll, double HeaveRate, double RollRate);

    /// <summary>A fitting in the hot loop: constant ratios are kept at hand instead of being asked for each time.</summary>
    private readonly struct QuickFitting(IFitting fitting)
    {
        private readonly bool _isConstant = fitting.IsConstant;
        private readonly double _heaveRatio = fitting.HeaveRatio;
        private readonly double _rollArm = fitting.At(0, 0, Side.Left).RollArm;

        public ElementMotion At(double q, double r, Side side)
        {
            if (!_isConstant)
                return fitting.At(q, r, side);
            var arm = (int)side * _rollArm;
            return new ElementMotion((_heaveRatio * q) + (arm * r), _heaveRatio, arm);
        }
    }

    /// <summary>Motion of the axle relative to the body: m, rad, m/s, rad/s.</summary>
    private readonly record struct RelativeMotion(double Heave, double Roll, double HeaveRate, double RollRate);

    private struct SideForces
    {
        public double DamperTravel;
        public double DamperVelocity;
        public double DamperForce;
        public double SpringForce;
        public double BumpStopForce;
        public double ReboundStopForce;
    }

    private struct Instant
    {
        public SideForces Left;
        public SideForces Right;
        public ContactLoads Contacts;
        public RoadSample Road;
        public double LateralAcceleration;
        public double BodyAcceleration;
        public double BodyRollAcceleration;
        public double UnsprungAcceleration;
        public double UnsprungRollAcceleration;
    }

    /// <summary>Loads of up to four contacts, not limited to zero, N.</summary>
    [InlineArray(4)]
    private struct ContactLoads
    {
        private double _first;
    }
}
