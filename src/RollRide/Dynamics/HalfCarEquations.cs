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
/// Where the body leans at rest or has its centre of gravity beside the centre plane, inertia couples heave and roll: see <see cref="AccelerateLeaning"/>.
/// A vehicle with two axles has these equations at each, and the body between them changes the accelerations of its ends (<see cref="BodyJoint{T}"/>).
/// Axes are those of ISO 8855. See docs/theory.md for the assumptions. Not thread-safe.
/// <para>The file is long because the equations stand in it once, from the positions to the channels: they are checked as a whole, and the lanes' code stays in one piece for the compiler.</para>
/// </remarks>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class HalfCarEquations<T> : IOdeSystem<T>
    where T : struct, ILanes<T>
{
    private readonly SideLaws<T> _left;
    private readonly SideLaws<T> _right;
    private readonly bool _hasUnlikeSides;
    private readonly bool _leans;
    private readonly bool _turnsMounts;
    private readonly bool _hasTopMount;
    private readonly bool _hasRodChamber;
    private readonly bool _hasSpringFriction;
    private readonly int _leftFriction;
    private readonly bool _hasDuals;
    private readonly AssembledHalfCar?[] _cars = new AssembledHalfCar?[T.Count];
    private readonly RoadCursor?[] _roads = new RoadCursor?[T.Count];
    private readonly ICorneringCursor?[] _cornerings = new ICorneringCursor?[T.Count];
    private readonly LaneBuffer<T> _parameters = new(Unsafe.SizeOf<Parameters>() / Unsafe.SizeOf<T>());
    private readonly LaneBuffer<T> _inputs = new(Unsafe.SizeOf<Inputs>() / Unsafe.SizeOf<T>());
    private readonly LaneBuffer<T> _scratch = new(Unsafe.SizeOf<Scratch>() / Unsafe.SizeOf<T>());
    private readonly LaneBuffer<T> _channels = new(ChannelTable.Count);
    private readonly (double Start, double End)[] _segments = new (double, double)[T.Count];
    private readonly HalfCarEquations<T>? _second;
    private readonly BodyJoint<T>? _joint;
    private readonly LaneBuffer<T> _shownSecond;
    private readonly int _ownStates;
    private int _roadMoves;
    private int _corneringMoves;

    /// <summary>Makes the equations of half-cars of the form of one of them.</summary>
    /// <param name="like">A car of the form.</param>
    public HalfCarEquations(AssembledHalfCar like)
    {
        var form = HalfCarForm.Of(like);
        _left = new SideLaws<T>(like, Side.Left);
        _hasUnlikeSides = form.Right is not null;
        _right = _hasUnlikeSides ? new SideLaws<T>(like, Side.Right) : _left;
        _leans = form.Leans;
        _turnsMounts = _left.TurnsMounts || _right.TurnsMounts;
        HasFaults = _left.HasFaults || _right.HasFaults;
        _hasTopMount = like.HasTopMount;
        _hasRodChamber = like.HasRodChamber;
        _hasSpringFriction = like.HasSpringFriction;
        _leftFriction = HalfCarState.LeftFriction(_hasTopMount);
        Dimension = like.StateCount;
        _ownStates = like.OwnStateCount;
        _shownSecond = new LaneBuffer<T>(like.Second is null ? 0 : ChannelTable.Count);
        if (like.Second is { } second)
        {
            _second = new HalfCarEquations<T>(second);
            _joint = new BodyJoint<T>();
            HasFaults |= _second.HasFaults;
        }

        _hasDuals = like.Vehicle.Tyre.DualSpacing is not null;
    }

    /// <inheritdoc/>
    public int Dimension { get; }

    /// <summary>Where the states of the second axle start; null for one axle.</summary>
    public int? StartOfSecond => _second is null ? null : _ownStates;

    private ref Parameters Car => ref Unsafe.As<T, Parameters>(ref _parameters[0]);

    private ref Inputs Input => ref Unsafe.As<T, Inputs>(ref _inputs[0]);

    private ref Scratch Work => ref Unsafe.As<T, Scratch>(ref _scratch[0]);

    /// <inheritdoc/>
    public string StateName(int index) => index < _ownStates ? HalfCarState.Name(index, _hasTopMount) : $"{_second!.StateName(index - _ownStates)} of the other axle";

    /// <summary>Puts a car into a lane, without road and cornering yet.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="car">Vehicle and layout, of the form of these equations.</param>
    public void Load(int lane, AssembledHalfCar car)
    {
        var (vehicle, layout) = (car.Vehicle, car.Layout);
        _cars[lane] = car;
        (_roads[lane], _cornerings[lane]) = (null, null);
        Still(lane);
        _left.Load(lane, car, Side.Left);
        if (_hasUnlikeSides)
            _right.Load(lane, car, Side.Right);
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
        var (standing, inner) = (car.Standing, _hasDuals ? 1 : 0);
        p.LeftTyres.Set(lane, (car.ContactPositions[0], standing.TyreLoads[0]), (car.ContactPositions[inner], standing.TyreLoads[inner]));
        p.RightTyres.Set(lane, (-car.ContactPositions[0], standing.TyreLoads[^1]), (-car.ContactPositions[inner], standing.TyreLoads[^(1 + inner)]));
        var (left, right) = (layout.Damper, layout.On(Side.Right).Damper);
        Set(ref p.LeftMountStiffness, lane, left.TopMountStiffness ?? 0);
        Set(ref p.RightMountStiffness, lane, right.TopMountStiffness ?? 0);
        Set(ref p.SeatOffset, lane, vehicle.SeatOffset);
        Set(ref p.RestRoll, lane, standing.BodyRoll);
        Set(ref p.UnsprungRestRoll, lane, standing.UnsprungRoll);
        _second?.Load(lane, car.Second!);
        _joint?.Load(lane, car);
        if (!_leans)
            return;
        var arm = car.CgArm;
        Set(ref p.CgArm, lane, arm);
        Set(ref p.WeightOffset, lane, weight * vehicle.Body.CgOffset);
        Set(ref p.InverseCoupledRollInertia, lane, 1 / (vehicle.BodyRollInertia - (vehicle.Body.Mass * arm * arm)));
        Set(ref p.TyreMoment, lane, car.ContactPositions.Zip(standing.TyreLoads, (y, load) => y * load).Sum());
        Set(ref p.TyreSurplus, lane, standing.TyreLoads.Sum() - weight - (vehicle.Unsprung.Mass * vehicle.Gravity));
    }

    /// <summary>Puts a car and what it drives over and through into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="car">Vehicle and layout, of the form of these equations.</param>
    /// <param name="road">Road and speed.</param>
    /// <param name="cornering">Cornering input.</param>
    public void Load(int lane, AssembledHalfCar car, Road road, ICorneringInput cornering)
    {
        Load(lane, car);
        if (car.Vehicle.SecondAxle is not { } second)
        {
            (_roads[lane], _cornerings[lane]) = (road.CreateCursor(), cornering.CreateCursor());
            return;
        }

        // The rear axle meets the road later; each axle has a lateral acceleration of its own.
        if (road.Wheelbase != second.Chassis.Wheelbase && !road.IsFlat)
            throw new ArgumentException(FormattableString.Invariant($"The road is made for a wheelbase of {road.Wheelbase} m; the vehicle's is {second.Chassis.Wheelbase} m."), nameof(road));
        var (front, rear) = cornering.CreateAxleCursors();
        var isRear = second.StudiedPlace == Axle.Rear;
        (_roads[lane], _cornerings[lane]) = isRear ? (road.CreateRearCursor(), rear) : (road.CreateCursor(), front);
        (_second!._roads[lane], _second._cornerings[lane]) = isRear ? (road.CreateCursor(), front) : (road.CreateRearCursor(), rear);
    }

    /// <summary>The lane stands still from now on: nothing moves it any more.</summary>
    /// <param name="lane">The lane.</param>
    public void Rest(int lane)
    {
        Still(lane);
        _second?.Rest(lane);
    }

    private void Still(int lane) => (_roadMoves, _corneringMoves) = (_roadMoves & ~(1 << lane), _corneringMoves & ~(1 << lane));

    /// <inheritdoc/>
    public void EnterSegment(int lane, double start, double end)
    {
        _segments[lane] = (start, end);
        var middle = 0.5 * (start + end);
        var (road, cornering) = (_roads[lane]!, _cornerings[lane]!);
        road.EnterSegment(middle);
        cornering.EnterSegment(middle);
        ReadRoad(lane, middle);
        ReadCornering(lane, middle);
        Set(ref Input.Command, lane, cornering.Command(middle));
        Still(lane);
        _roadMoves |= road.IsHeld ? 0 : 1 << lane;
        _corneringMoves |= cornering.IsHeld ? 0 : 1 << lane;
        _second?.EnterSegment(lane, start, end);
    }

    /// <summary>The segment that a lane entered last: start and end, s.</summary>
    public (double Start, double End) SegmentOf(int lane) => _segments[lane];

    /// <summary>Holds a lane's inputs at given values, those of a second axle at the same.</summary>
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
        _second?.Hold(lane, roadLeft, roadRight, lateralAcceleration);
    }

    /// <summary>The inputs as held, to be differentiated by.</summary>
    public ref Inputs HeldInputs => ref Input;

    /// <inheritdoc/>
    public bool HasFaults { get; }

    /// <inheritdoc/>
    public Exception? TakeFault(int lane)
    {
        // All are taken, so that none outlives the step it belongs to.
        var (left, right, second) = (_left.TakeFault(lane), _right.TakeFault(lane), _second?.TakeFault(lane));
        return left ?? right ?? second;
    }

    /// <inheritdoc/>
    public void Derivatives(in T time, ReadOnlySpan<T> state, Span<T> derivative)
    {
        if (_second is not null)
        {
            EvaluateBoth(time, state, ref _channels[0], ref _second._channels[0]);
            _second.WriteDerivatives(state[_ownStates..], derivative[_ownStates..]);
        }
        else
        {
            Evaluate(time, state, ref _channels[0]);
        }

        WriteDerivatives(state, derivative);
    }

    /// <summary>The rates of this axle's states where it was evaluated last.</summary>
    private void WriteDerivatives(ReadOnlySpan<T> state, Span<T> derivative)
    {
        ref var at = ref _channels[0];
        ref var rates = ref MemoryMarshal.GetReference(derivative);
        ref var x = ref MemoryMarshal.GetReference(state);
        for (var i = 0; i < HalfCarState.Rates; i++)
            Unsafe.Add(ref rates, i) = Unsafe.Add(ref x, HalfCarState.Rates + i);
        Unsafe.Add(ref rates, HalfCarState.Rates + HalfCarState.BodyHeave) = Unsafe.Add(ref at, (int)Channel.BodyAcceleration);
        Unsafe.Add(ref rates, HalfCarState.Rates + HalfCarState.BodyRoll) = Unsafe.Add(ref at, (int)Channel.BodyRollAcceleration);
        Unsafe.Add(ref rates, HalfCarState.Rates + HalfCarState.UnsprungHeave) = Unsafe.Add(ref at, (int)Channel.UnsprungAcceleration);
        Unsafe.Add(ref rates, HalfCarState.Rates + HalfCarState.UnsprungRoll) = Unsafe.Add(ref at, (int)Channel.UnsprungRollAcceleration);
        if (_hasTopMount)
        {
            Unsafe.Add(ref rates, HalfCarState.LeftStroke) = Unsafe.Add(ref at, (int)Channel.DamperVelocityLeft);
            Unsafe.Add(ref rates, HalfCarState.LeftStroke + 1) = Unsafe.Add(ref at, (int)Channel.DamperVelocityRight);
        }

        if (_hasSpringFriction)
            (Unsafe.Add(ref rates, _leftFriction), Unsafe.Add(ref rates, _leftFriction + 1)) = (Work.LeftFrictionRate, Work.RightFrictionRate);
    }

    /// <summary>Writes every channel of the result at one instant of each lane, in SI units. Allocates nothing.</summary>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states.</param>
    /// <param name="at">Receives the channels, in the order of <see cref="Channel"/>; there are <see cref="ChannelTable.Count"/>.</param>
    public void WriteChannels(in T time, ReadOnlySpan<T> state, ref T at)
    {
        if (_second is not null)
            EvaluateBoth(time, state, ref at, ref _shownSecond[0]);
        else
            Evaluate(time, state, ref at);
        Complete(time, state, ref at);
        if (_second is not null)
            CompleteVehicle(time, state, ref at, ref _shownSecond[0]);
    }

    /// <summary>Writes the channels where the right-hand side was evaluated last.</summary>
    /// <param name="time">The time of that evaluation, s.</param>
    /// <param name="state">Its states.</param>
    /// <param name="at">Receives the channels.</param>
    public void CopyChannels(in T time, ReadOnlySpan<T> state, ref T at)
    {
        _channels.Elements.CopyTo(MemoryMarshal.CreateSpan(ref at, ChannelTable.Count));
        Complete(time, state, ref at);
        if (_second is not null)
            CompleteVehicle(time, state, ref at, ref _second._channels[0]);
    }

    /// <summary>
    /// Writes what a corner from rest is judged by at one instant of each lane, and nothing else: body roll and its rate, whether each side touches the road, and the
    /// command. None of them needs a force of the suspension.
    /// </summary>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states.</param>
    /// <param name="at">Receives these channels at their places.</param>
    public void WriteCornerChannels(in T time, ReadOnlySpan<T> state, ref T at)
    {
        ReadInputs(time);
        ref var x = ref MemoryMarshal.GetReference(state);
        Tyres(ref x, ref at, ref Work);
        CompleteCorner(time, x, ref at);
    }

    /// <summary>Of these, body roll and the command alone: those of which instants are sought between the nodes of a step.</summary>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states.</param>
    /// <param name="at">Receives these channels at their places.</param>
    public void WriteRollAndCommand(in T time, ReadOnlySpan<T> state, ref T at) => WriteRollAndCommand(time, MemoryMarshal.GetReference(state), ref at);

    /// <summary>What a corner from rest is judged by where the right-hand side was evaluated last.</summary>
    /// <param name="time">The time of that evaluation, s.</param>
    /// <param name="state">Its states.</param>
    /// <param name="at">Receives the channels.</param>
    public void CopyCornerChannels(in T time, ReadOnlySpan<T> state, ref T at)
    {
        foreach (var channel in (ReadOnlySpan<Channel>)[Channel.TyreContactLeftOuter, Channel.TyreContactLeftInner, Channel.TyreContactRightOuter, Channel.TyreContactRightInner])
            Put(ref at, channel, _channels[(int)channel]);
        CompleteCorner(time, MemoryMarshal.GetReference(state), ref at);
    }

    /// <summary>Both axles, each as if it stood alone, and then what the body between them changes.</summary>
    private void EvaluateBoth(in T time, ReadOnlySpan<T> state, ref T at, ref T atSecond)
    {
        var ofSecond = state[_ownStates..];
        Evaluate(time, state, ref at);
        _second!.Evaluate(time, ofSecond, ref atSecond);
        _joint!.Join(state, ofSecond, ref at, ref atSecond);
    }

    /// <summary>The channels of the vehicle as a whole.</summary>
    private void CompleteVehicle(in T time, ReadOnlySpan<T> state, ref T at, ref T atSecond)
    {
        var ofSecond = state[_ownStates..];
        _second!.Complete(time, ofSecond, ref atSecond);
        Put(ref at, Channel.SecondTyreLoadLeft, Unsafe.Add(ref atSecond, (int)Channel.TyreLoadLeft));
        Put(ref at, Channel.SecondTyreLoadRight, Unsafe.Add(ref atSecond, (int)Channel.TyreLoadRight));
        _joint!.Complete(state, ofSecond, Car.SeatOffset, ref at, ref atSecond);
    }

    /// <summary>Forces and accelerations, with the channels they come from.</summary>
    /// <remarks>
    /// What one method hands to another stands in memory of its own, aligned to the processor's cache: a call saves no vector register, and on
    /// the stack a vector of eight lies across two lines.
    /// </remarks>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states of this axle, as if it stood alone.</param>
    /// <param name="at">Receives the channels that are forces, or that forces depend on.</param>
    public void Evaluate(in T time, ReadOnlySpan<T> state, ref T at)
    {
        ReadInputs(time);
        ref var x = ref MemoryMarshal.GetReference(state);
        ref var work = ref Work;
        Place(ref x, ref work);
        if (_turnsMounts)
            LaneMath.SinCos(work.Position.Roll, out work.Position.SinRoll, out work.Position.CosRoll);
        if (_leans)
            Lean(Unsafe.Add(ref x, HalfCarState.BodyRoll) + Car.RestRoll, ref work);
        else
            LaneMath.Sin(Unsafe.Add(ref x, HalfCarState.BodyRoll), out work.SinBodyRoll);

        Springs(ref work, ref x, ref at);
        Dampers(ref work, ref x, ref at);
        if (_left.HasBumpStop)
            BumpStops(ref work, ref at);
        if (_left.HasReboundStop)
            ReboundStops(ref work, ref at);
        Tyres(ref x, ref at, ref work);
        if (_leans)
            AccelerateLeaning(ref work, ref at);
        else
            Accelerate(ref work, ref at);
    }

    private static void Lean(T bodyRoll, ref Scratch work) => LaneMath.SinCos(bodyRoll, out work.SinBodyRoll, out work.CosBodyRoll);

    private static void Place(ref T x, ref Scratch work)
    {
        work.Position.Heave = Unsafe.Add(ref x, HalfCarState.UnsprungHeave) - Unsafe.Add(ref x, HalfCarState.BodyHeave);
        work.Position.Roll = Unsafe.Add(ref x, HalfCarState.UnsprungRoll) - Unsafe.Add(ref x, HalfCarState.BodyRoll);
        work.HeaveRate = Unsafe.Add(ref x, HalfCarState.Rates + HalfCarState.UnsprungHeave) - Unsafe.Add(ref x, HalfCarState.Rates + HalfCarState.BodyHeave);
        work.RollRate = Unsafe.Add(ref x, HalfCarState.Rates + HalfCarState.UnsprungRoll) - Unsafe.Add(ref x, HalfCarState.Rates + HalfCarState.BodyRoll);
    }

    // Left and right stand next to each other in each of these, so that the processor works on both at once; and each side is summed for
    // itself, so that a mirrored manoeuvre gives exactly the mirrored motion.
    private void Springs(ref Scratch work, ref T x, ref T at)
    {
        Fit(_left.SpringFitting, _right.SpringFitting, ref work);
        ref var left = ref Unsafe.Add(ref at, (int)Channel.SpringForceLeft);
        ref var right = ref Unsafe.Add(ref at, (int)Channel.SpringForceRight);
        _left.Spring.At(work.Left.Compression, out left);
        _right.Spring.At(work.Right.Compression, out right);
        if (_hasSpringFriction)
            Rub(ref work, ref x, ref at);
        work.LeftSuspension.Set(work.Left, left);
        work.RightSuspension.Set(work.Right, right);
    }

    /// <summary>Adds the springs' friction to their forces.</summary>
    private void Rub(ref Scratch work, ref T x, ref T at)
    {
        ref var left = ref Unsafe.Add(ref at, (int)Channel.SpringFrictionLeft);
        ref var right = ref Unsafe.Add(ref at, (int)Channel.SpringFrictionRight);
        Velocities(ref work, out var leftVelocity, out var rightVelocity);
        _left.SpringFriction!.At(leftVelocity, Unsafe.Add(ref x, _leftFriction), out left, out work.LeftFrictionRate, out var leftHeat);
        _right.SpringFriction!.At(rightVelocity, Unsafe.Add(ref x, _leftFriction + 1), out right, out work.RightFrictionRate, out var rightHeat);
        Put(ref at, Channel.SpringFrictionHeat, leftHeat + rightHeat);
        Unsafe.Add(ref at, (int)Channel.SpringForceLeft) += left;
        Unsafe.Add(ref at, (int)Channel.SpringForceRight) += right;
    }

    private void Dampers(ref Scratch work, ref T x, ref T at)
    {
        Fit(_left.DamperFitting, _right.DamperFitting, ref work);
        if (_hasTopMount)
            MoveInMounts(ref work, ref x, ref at);
        else
            Move(ref work, ref at);
        _left.Damper.GasAt(work.Left.Compression, ref Unsafe.Add(ref at, (int)Channel.GasPressureLeft), out work.LeftGas);
        _right.Damper.GasAt(work.Right.Compression, ref Unsafe.Add(ref at, (int)Channel.GasPressureRight), out work.RightGas);
        work.LeftSuspension.Add(work.Left, Unsafe.Add(ref at, (int)Channel.DamperForceLeft) + work.LeftGas);
        work.RightSuspension.Add(work.Right, Unsafe.Add(ref at, (int)Channel.DamperForceRight) + work.RightGas);
    }

    private void Move(ref Scratch work, ref T at)
    {
        ref var left = ref Unsafe.Add(ref at, (int)Channel.DamperVelocityLeft);
        ref var right = ref Unsafe.Add(ref at, (int)Channel.DamperVelocityRight);
        Velocities(ref work, out left, out right);
        DamperLaw<T>.Force(_left.Damper, _right.Damper, left, right, out Unsafe.Add(ref at, (int)Channel.DamperForceLeft), out Unsafe.Add(ref at, (int)Channel.DamperForceRight));
        Put(ref at, Channel.DamperTravelLeft, work.Left.Compression);
        Put(ref at, Channel.DamperTravelRight, work.Right.Compression);
    }

    /// <summary>Rates of compression of the elements fitted last.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Velocities(ref Scratch work, out T left, out T right)
    {
        left = (work.Left.HeaveRatio * work.HeaveRate) + (work.Left.RollArm * work.RollRate);
        right = (work.Right.HeaveRatio * work.HeaveRate) + (work.Right.RollArm * work.RollRate);
    }

    /// <summary>Mount and damper in series carry the same force; the mount's part of the travel is what the damper does not take.</summary>
    private void MoveInMounts(ref Scratch work, ref T x, ref T at)
    {
        ref var left = ref Unsafe.Add(ref at, (int)Channel.DamperForceLeft);
        ref var right = ref Unsafe.Add(ref at, (int)Channel.DamperForceRight);
        Put(ref at, Channel.DamperTravelLeft, Unsafe.Add(ref x, HalfCarState.LeftStroke));
        Put(ref at, Channel.DamperTravelRight, Unsafe.Add(ref x, HalfCarState.LeftStroke + 1));
        left = Car.LeftMountStiffness * (work.Left.Compression - Unsafe.Add(ref x, HalfCarState.LeftStroke));
        right = Car.RightMountStiffness * (work.Right.Compression - Unsafe.Add(ref x, HalfCarState.LeftStroke + 1));
        _left.Damper.VelocityAt(left, out Unsafe.Add(ref at, (int)Channel.DamperVelocityLeft));
        _right.Damper.VelocityAt(right, out Unsafe.Add(ref at, (int)Channel.DamperVelocityRight));
    }

    private void BumpStops(ref Scratch work, ref T at)
    {
        Fit(_left.BumpFitting!, _right.BumpFitting!, ref work);
        ref var left = ref Unsafe.Add(ref at, (int)Channel.BumpStopForceLeft);
        ref var right = ref Unsafe.Add(ref at, (int)Channel.BumpStopForceRight);
        // Beyond a linkage's reach the ratio is NaN, which must reach the sum though nothing touches.
        if (!(_left.BumpStop!.Force(work.Left.Compression, out left) | _right.BumpStop!.Force(work.Right.Compression, out right) | HasFaults))
            return;
        work.LeftSuspension.Add(work.Left, left);
        work.RightSuspension.Add(work.Right, right);
    }

    private void ReboundStops(ref Scratch work, ref T at)
    {
        Fit(_left.ReboundFitting!, _right.ReboundFitting!, ref work);
        ref var left = ref Unsafe.Add(ref at, (int)Channel.ReboundStopForceLeft);
        ref var right = ref Unsafe.Add(ref at, (int)Channel.ReboundStopForceRight);
        (left, right) = (-work.Left.Compression, -work.Right.Compression);
        if (!(_left.ReboundStop!.Force(left, out left) | _right.ReboundStop!.Force(right, out right) | HasFaults))
            return;
        (left, right) = (-left, -right);
        work.LeftSuspension.Add(work.Left, left);
        work.RightSuspension.Add(work.Right, right);
    }

    private static void Fit(FittingLaw<T> left, FittingLaw<T> right, ref Scratch work)
    {
        if (left == right)
        {
            left.AtBoth(work.Position, out work.Left, out work.Right);
            return;
        }

        left.At(work.Position, Side.Left, out work.Left);
        right.At(work.Position, Side.Right, out work.Right);
    }

    private void Tyres(ref T x, ref T at, ref Scratch work)
    {
        ref var p = ref Car;
        ref var inputs = ref Input;
        Tyres(ref p, p.LeftTyres, inputs.RoadLeft, inputs.RoadLeftRate, ref x, ref Unsafe.Add(ref at, (int)Channel.TyreContactLeftOuter), ref Unsafe.Add(ref at, (int)Channel.TyreContactLeftInner), ref work.LeftTyres);
        Tyres(ref p, p.RightTyres, inputs.RoadRight, inputs.RoadRightRate, ref x, ref Unsafe.Add(ref at, (int)Channel.TyreContactRightOuter), ref Unsafe.Add(ref at, (int)Channel.TyreContactRightInner), ref work.RightTyres);
    }

    /// <summary>Force and moment of one side's tyres on the axle, counted from their static load.</summary>
    private void Tyres(ref Parameters p, in SideTyres tyres, in T road, in T roadRate, ref T x, ref T outer, ref T inner, ref Wrench sum)
    {
        var (heave, heaveRate) = (road - Unsafe.Add(ref x, HalfCarState.UnsprungHeave), roadRate - Unsafe.Add(ref x, HalfCarState.Rates + HalfCarState.UnsprungHeave));
        outer = Load(p, tyres.OuterContact, tyres.OuterLoad, heave, heaveRate, ref x);

        // A tyre pushes but never pulls.
        var change = T.Max(outer, default) - tyres.OuterLoad;
        (sum.Force, sum.Moment) = (change, tyres.OuterContact * change);
        if (!_hasDuals)
            return;
        inner = Load(p, tyres.InnerContact, tyres.InnerLoad, heave, heaveRate, ref x);
        change = T.Max(inner, default) - tyres.InnerLoad;
        (sum.Force, sum.Moment) = (sum.Force + change, T.Fma(tyres.InnerContact, change, sum.Moment));
    }

    /// <summary>Load of one tyre at its distance from the centre, not limited to zero.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Load(in Parameters p, in T y, in T atRest, in T heave, in T heaveRate, ref T x) => T.Fma(
        p.TyreDamping,
        T.NegatedFma(y, Unsafe.Add(ref x, HalfCarState.Rates + HalfCarState.UnsprungRoll), heaveRate),
        T.Fma(p.TyreStiffness, T.NegatedFma(y, Unsafe.Add(ref x, HalfCarState.UnsprungRoll), heave), atRest));

    private void Accelerate(ref Scratch work, ref T at)
    {
        ref var p = ref Car;
        ref var ay = ref Input.LateralAcceleration;
        var unbalanced = work.LeftSuspension.Force + work.RightSuspension.Force - p.Weight;
        var moment = (p.AntiRollBar * work.Position.Roll) + (work.LeftSuspension.Moment + work.RightSuspension.Moment);
        Put(ref at, Channel.BodyAcceleration, unbalanced * p.InverseBodyMass);
        Put(ref at, Channel.BodyRollAcceleration, (moment + (p.BodyLateralMoment * ay) + (p.GravityMoment * work.SinBodyRoll)) * p.InverseBodyRollInertia);
        Put(ref at, Channel.UnsprungAcceleration, (work.LeftTyres.Force + work.RightTyres.Force - unbalanced) * p.InverseUnsprungMass);
        Put(ref at, Channel.UnsprungRollAcceleration, (work.LeftTyres.Moment + work.RightTyres.Moment - moment + (p.UnsprungLateralMoment * ay)) * p.InverseUnsprungRollInertia);
    }

    /// <summary>
    /// With the centre of gravity <c>e = yG cos φ0 − h sin φ0</c> left of the roll centre at rest, and roll counted from level:
    /// <code>
    /// ms z̈s + ms e φ̈s                    = F − ms g
    /// (Is + ms (h² + yG²)) φ̈s + ms e z̈s = M + ms h ay + ms g (h sin φs − yG cos φs)
    /// </code>
    /// The tyres' forces count from where the vehicle is drawn; what they carry there beyond all weight, and their moment, is added.
    /// </summary>
    private void AccelerateLeaning(ref Scratch work, ref T at)
    {
        ref var p = ref Car;
        ref var ay = ref Input.LateralAcceleration;
        var unbalanced = work.LeftSuspension.Force + work.RightSuspension.Force - p.Weight;
        var moment = (p.AntiRollBar * (work.Position.Roll + p.UnsprungRestRoll - p.RestRoll)) + (work.LeftSuspension.Moment + work.RightSuspension.Moment);
        var onBody = moment + (p.BodyLateralMoment * ay) + ((p.GravityMoment * work.SinBodyRoll) - (p.WeightOffset * work.CosBodyRoll));
        var roll = (onBody - (p.CgArm * unbalanced)) * p.InverseCoupledRollInertia;
        Put(ref at, Channel.BodyRollAcceleration, roll);
        Put(ref at, Channel.BodyAcceleration, (unbalanced * p.InverseBodyMass) - (p.CgArm * roll));
        Put(ref at, Channel.UnsprungAcceleration, (work.LeftTyres.Force + work.RightTyres.Force - unbalanced + p.TyreSurplus) * p.InverseUnsprungMass);
        Put(ref at, Channel.UnsprungRollAcceleration, (work.LeftTyres.Moment + work.RightTyres.Moment - (moment - p.TyreMoment) + (p.UnsprungLateralMoment * ay)) * p.InverseUnsprungRollInertia);
    }

    /// <summary>The channels that no force depends on.</summary>
    private void Complete(in T time, ReadOnlySpan<T> state, ref T at)
    {
        ref readonly var p = ref Car;
        ref readonly var inputs = ref Input;
        ref readonly var x = ref MemoryMarshal.GetReference(state);
        state[..HalfCarState.Count].CopyTo(MemoryMarshal.CreateSpan(ref Unsafe.Add(ref at, (int)Channel.BodyHeave), HalfCarState.Count));
        CompleteCorner(time, x, ref at);

        // Roll angles count from level, all other motion from rest.
        if (_leans)
            Unsafe.Add(ref at, (int)Channel.UnsprungRoll) += p.UnsprungRestRoll;
        Put(ref at, Channel.SeatAcceleration, T.Fma(p.SeatOffset, Unsafe.Add(ref at, (int)Channel.BodyRollAcceleration), Unsafe.Add(ref at, (int)Channel.BodyAcceleration)));
        var q = At(x, HalfCarState.UnsprungHeave) - At(x, HalfCarState.BodyHeave);
        var wheel = p.HalfTrack * (At(x, HalfCarState.UnsprungRoll) - At(x, HalfCarState.BodyRoll));
        Put(ref at, Channel.SuspensionHeave, q);
        Put(ref at, Channel.WheelTravelLeft, q + wheel);
        Put(ref at, Channel.WheelTravelRight, q - wheel);
        if (_hasRodChamber)
        {
            CompleteRodChamber(_left.Damper, Channel.GasPressureLeft, Channel.DamperVelocityLeft, Channel.DamperForceLeft, Channel.RodChamberPressureLeft, ref at);
            CompleteRodChamber(_right.Damper, Channel.GasPressureRight, Channel.DamperVelocityRight, Channel.DamperForceRight, Channel.RodChamberPressureRight, ref at);
        }

        CompleteTyres(Channel.TyreContactLeftOuter, Channel.TyreContactLeftInner, Channel.TyreLoadLeftOuter, Channel.TyreLoadLeftInner, Channel.TyreLoadLeft, ref at);
        CompleteTyres(Channel.TyreContactRightOuter, Channel.TyreContactRightInner, Channel.TyreLoadRightOuter, Channel.TyreLoadRightInner, Channel.TyreLoadRight, ref at);
        Put(ref at, Channel.RoadLeft, inputs.RoadLeft);
        Put(ref at, Channel.RoadRight, inputs.RoadRight);
        Put(ref at, Channel.LateralAcceleration, inputs.LateralAcceleration);
    }

    /// <summary>Of those, the ones that a corner from rest is judged by.</summary>
    private void CompleteCorner(in T time, in T x, ref T at)
    {
        WriteRollAndCommand(time, x, ref at);
        Put(ref at, Channel.BodyRollRate, At(x, HalfCarState.Rates + HalfCarState.BodyRoll));
        CompleteContact(Channel.TyreContactLeftOuter, Channel.TyreContactLeftInner, Channel.TyreContactLeft, ref at);
        CompleteContact(Channel.TyreContactRightOuter, Channel.TyreContactRightInner, Channel.TyreContactRight, ref at);
    }

    private void WriteRollAndCommand(in T time, in T x, ref T at)
    {
        Put(ref at, Channel.BodyRoll, _leans ? At(x, HalfCarState.BodyRoll) + Car.RestRoll : At(x, HalfCarState.BodyRoll));
        foreach (var lane in new LaneSet(_corneringMoves))
            Set(ref Input.Command, lane, _cornerings[lane]!.Command(LaneMath.Get(time, lane)));
        Put(ref at, Channel.CorneringCommand, Input.Command);
    }

    private void CompleteContact(Channel outer, Channel inner, Channel side, ref T at)
    {
        // Single tyres are the outer and the inner ones at once.
        if (!_hasDuals)
            Put(ref at, inner, Unsafe.Add(ref at, (int)outer));
        Put(ref at, side, T.Max(Unsafe.Add(ref at, (int)outer), Unsafe.Add(ref at, (int)inner)));
    }

    private static void CompleteRodChamber(DamperLaw<T> damper, Channel gas, Channel velocity, Channel force, Channel pressure, ref T at) => damper.RodChamberPressureAt(
        Unsafe.Add(ref at, (int)gas), Unsafe.Add(ref at, (int)velocity), Unsafe.Add(ref at, (int)force), ref Unsafe.Add(ref at, (int)pressure));

    private void CompleteTyres(Channel outerContact, Channel innerContact, Channel outer, Channel inner, Channel side, ref T at)
    {
        var (outerLoad, innerLoad) = (T.Max(Unsafe.Add(ref at, (int)outerContact), default), T.Max(Unsafe.Add(ref at, (int)innerContact), default));
        Put(ref at, outer, outerLoad);
        Put(ref at, inner, innerLoad);
        var load = _hasDuals ? outerLoad + innerLoad : outerLoad;
        Put(ref at, side, load);
        ref readonly var p = ref Car;
        ref readonly var tyres = ref side == Channel.TyreLoadLeft ? ref p.LeftTyres : ref p.RightTyres;
        var rest = _hasDuals ? tyres.OuterLoad + tyres.InnerLoad : tyres.OuterLoad;
        Put(ref at, side == Channel.TyreLoadLeft ? Channel.TyreLoadChangeLeft : Channel.TyreLoadChangeRight, load - rest);
    }

    private void ReadInputs(in T time)
    {
        foreach (var lane in new LaneSet(_roadMoves))
            ReadRoad(lane, LaneMath.Get(time, lane));
        foreach (var lane in new LaneSet(_corneringMoves))
            ReadCornering(lane, LaneMath.Get(time, lane));
    }

    private void ReadRoad(int lane, double time)
    {
        ref var inputs = ref Input;
        var road = _roads[lane]!.Sample(time);
        Set(ref inputs.RoadLeft, lane, road.Left);
        Set(ref inputs.RoadRight, lane, road.Right);
        Set(ref inputs.RoadLeftRate, lane, road.LeftRate);
        Set(ref inputs.RoadRightRate, lane, road.RightRate);
    }

    private void ReadCornering(int lane, double time) => Set(ref Input.LateralAcceleration, lane, _cornerings[lane]!.LateralAcceleration(time));

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
        public SideTyres LeftTyres;
        public SideTyres RightTyres;
        public T LeftMountStiffness;
        public T RightMountStiffness;
        public T SeatOffset;
        public T RestRoll;
        public T UnsprungRestRoll;
        public T CgArm;
        public T WeightOffset;
        public T InverseCoupledRollInertia;
        public T TyreMoment;
        public T TyreSurplus;
    }

    /// <summary>The tyres of one side: where they touch the road, m left of the middle, and their load at rest, N.</summary>
    private struct SideTyres
    {
        public T OuterContact;
        public T OuterLoad;
        public T InnerContact;
        public T InnerLoad;

        public void Set(int lane, (double Contact, double Load) outer, (double Contact, double Load) inner)
        {
            HalfCarEquations<T>.Set(ref OuterContact, lane, outer.Contact);
            HalfCarEquations<T>.Set(ref OuterLoad, lane, outer.Load);
            HalfCarEquations<T>.Set(ref InnerContact, lane, inner.Contact);
            HalfCarEquations<T>.Set(ref InnerLoad, lane, inner.Load);
        }
    }

    /// <summary>What the parts of an evaluation hand to each other, SI.</summary>
    private struct Scratch
    {
        public RelativePosition<T> Position;
        public T HeaveRate;
        public T RollRate;
        public T SinBodyRoll;
        public T CosBodyRoll;
        public T LeftGas;
        public T RightGas;
        public T LeftFrictionRate;
        public T RightFrictionRate;
        public ElementMotion<T> Left;
        public ElementMotion<T> Right;
        public Wrench LeftSuspension;
        public Wrench RightSuspension;
        public Wrench LeftTyres;
        public Wrench RightTyres;
    }

    /// <summary>A force, N, and its moment about the roll axis, N·m.</summary>
    private struct Wrench
    {
        public T Force;
        public T Moment;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Set(in ElementMotion<T> element, in T force)
        {
            Force = element.HeaveRatio * force;
            Moment = element.RollArm * force;
        }

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

    /// <summary>The equations of a half-car on a flat road in a steady turn.</summary>
    /// <param name="car">Vehicle and layout, one axle.</param>
    /// <param name="lateralAcceleration">Lateral acceleration, m/s².</param>
    internal static HalfCarEquations Standing(AssembledHalfCar car, double lateralAcceleration)
    {
        var equations = new HalfCarEquations(car, Road.Flat(1), GivenLateralAcceleration.StraightAhead);
        equations.System.Hold(0, 0, 0, lateralAcceleration);
        return equations;
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
    public string StateName(int index) => System.StateName(index);

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
