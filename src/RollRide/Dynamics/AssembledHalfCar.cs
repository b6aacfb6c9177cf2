using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>
/// A vehicle with one damper layout fitted, standing at rest: what each spring must carry at rest is settled here, once,
/// for the equations of motion, the static solution and the linearised model. Immutable and thread-safe.
/// </summary>
public sealed class AssembledHalfCar
{
    /// <summary>Fits a layout to a vehicle, with springs that hold it level.</summary>
    /// <param name="vehicle">The vehicle, its centre of gravity on the centre plane.</param>
    /// <param name="layout">The damper layout.</param>
    /// <exception cref="ArgumentException">The two do not go together; the message says why.</exception>
    public AssembledHalfCar(HalfCar vehicle, DamperLayout layout)
        : this(vehicle, layout, null)
    {
    }

    /// <summary>Fits a layout to a vehicle that stands in a given way.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The damper layout.</param>
    /// <param name="standing">How it stands; null for level on springs that are set so.</param>
    /// <exception cref="ArgumentException">The two do not go together; the message says why.</exception>
    internal AssembledHalfCar(HalfCar vehicle, DamperLayout layout, Standing? standing)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(layout);
        CheckAxle(vehicle);
        Vehicle = vehicle;
        Layout = layout;
        ContactPositions = [.. vehicle.ContactPositions];
        Standing = standing ?? Level(vehicle, layout);
        SpringForce = vehicle.Spring.Characteristic.AtRideHeight(Standing.LeftSpring);
        RightSpringForce = vehicle.RightSide is null && Standing.RightSpring == Standing.LeftSpring ? SpringForce : vehicle.On(Side.Right).Spring.Characteristic.AtRideHeight(Standing.RightSpring);
        if (HasTopMount != (layout.On(Side.Right).Damper.TopMountStiffness is not null))
            throw new ArgumentException("Both dampers sit in elastic top mounts, or neither does.", nameof(layout));
        if (vehicle.SecondAxle is not { } second)
            return;
        Second = new AssembledHalfCar(second.Vehicle, second.Layout);
        if (Leans || Second.Leans)
            throw new ArgumentException("A vehicle with two axles is modelled standing level only: take the second axle out, or the load off to one side and the spring that is raised or has sagged.", nameof(vehicle));
    }

    /// <summary>The other axle with its share of the body and its dampers; null for one axle by itself.</summary>
    public AssembledHalfCar? Second { get; }

    /// <summary>The axle that the layouts are for by itself, as if its share of the body belonged to no other axle.</summary>
    public AssembledHalfCar Alone() => Second is null ? this : new(Vehicle with { SecondAxle = null }, Layout, Standing);

    /// <summary>The vehicle.</summary>
    public HalfCar Vehicle { get; }

    /// <summary>The damper layout fitted to it.</summary>
    public DamperLayout Layout { get; }

    /// <summary>Force of the left spring at rest <c>P</c>, N, and of the right one where the sides are the same; negative where gas and stops lift more than the body weighs, so that the springs pull.</summary>
    public double SpringPreload => Standing.LeftSpring;

    /// <summary>Force of the left spring, N, over its compression from ride height, m; of the right one too where the sides are the same.</summary>
    public PiecewiseLinear SpringForce { get; }

    /// <summary>Force of the right spring, N, over its compression from ride height, m.</summary>
    internal PiecewiseLinear RightSpringForce { get; }

    /// <summary>Force of the spring of one side without its friction, N, over its compression from ride height, m.</summary>
    /// <param name="side">The side of the vehicle.</param>
    public PiecewiseLinear SpringForceOn(Side side) => side == Side.Left ? SpringForce : RightSpringForce;

    /// <summary>How it stands at rest.</summary>
    internal Standing Standing { get; }

    /// <summary>Lateral positions of the tyre contacts, left to right, m.</summary>
    internal double[] ContactPositions { get; }

    /// <summary>Whether left and right are not each other's mirror image.</summary>
    public bool HasUnlikeSides => Vehicle.RightSide is not null || Layout.RightSide is not null || Leans || Second is { HasUnlikeSides: true };

    /// <summary>Whether it stands in a turn as its mirror image does: as where its sides differ in the valves of their dampers alone, which give no force at rest.</summary>
    internal bool StandsAsMirrored => Vehicle.RightSide is null && !Leans && HasSameGas && Second is not { StandsAsMirrored: false };

    private bool HasSameGas
    {
        get
        {
            var (left, right) = (Layout.On(Side.Left), Layout.On(Side.Right));
            return (left.Damper.GasForce, left.Damper.Gas) == (right.Damper.GasForce, right.Damper.Gas)
                && (left.Damper is { GasForce: 0, Gas: null } || left.Fitting == right.Fitting);
        }
    }

    /// <summary>Whether it leans at rest or has its centre of gravity beside the centre plane, so that heave and roll are coupled by inertia.</summary>
    internal bool Leans => Vehicle.Body.CgOffset != 0 || Standing.BodyRoll != 0 || Standing.UnsprungRoll != 0 || !Standing.IsRest;

    /// <summary>Roll angle of the body at rest <c>φ0</c>, rad: 0 unless a load stands beside the centre plane or the sides are unlike.</summary>
    public double RestRoll => Standing.BodyRoll;

    /// <summary>Lateral position of the body's centre of gravity seen from the roll centre, at rest: <c>e = yG cos φ0 − h sin φ0</c>, m, positive to the left.</summary>
    internal double CgArm => (Vehicle.Body.CgOffset * Math.Cos(Standing.BodyRoll)) - (Vehicle.RollArm * Math.Sin(Standing.BodyRoll));

    /// <summary>Load of one side's tyres together at rest, N.</summary>
    /// <param name="side">The side of the vehicle.</param>
    public double StaticSideLoad(Side side) => Standing.SideLoad(side);

    /// <summary>Whether the dampers sit in elastic top mounts, which add the damper strokes to the states.</summary>
    internal bool HasTopMount => Layout.Damper.TopMountStiffness is not null;

    /// <summary>Whether the pressure around the rod is known of either damper.</summary>
    internal bool HasRodChamber => (Layout.Damper.Gas?.PistonRingArea ?? Layout.On(Side.Right).Damper.Gas?.PistonRingArea) is not null;

    /// <summary>Whether either spring has friction, which adds its deflections to the states.</summary>
    internal bool HasSpringFriction => (Vehicle.Spring.Friction ?? Vehicle.On(Side.Right).Spring.Friction) is not null;

    /// <summary>Number of states of this axle, see <see cref="HalfCarState"/>; those of a second axle follow them.</summary>
    internal int OwnStateCount => (HasTopMount ? HalfCarState.CountWithStrokes : HalfCarState.Count) + (HasSpringFriction ? 2 : 0);

    /// <summary>Number of states.</summary>
    internal int StateCount => OwnStateCount + (Second?.OwnStateCount ?? 0);

    /// <summary>The same car with dampers in rigid mounts that give no force while they move; their gas force stays.</summary>
    internal AssembledHalfCar WithoutDamping()
    {
        var linear = ForceVelocityCurve.Linear(0);
        var vehicle = Second?.WithoutDamping() is { } second ? Vehicle with { SecondAxle = Vehicle.SecondAxle! with { Layout = second.Layout } } : Vehicle;
        return new(vehicle, Layout.With(side => side with { Damper = side.Damper with { TopMountStiffness = null } with { Curve = linear, Friction = 0 } }), Standing);
    }

    /// <summary>The mirror image: what it does in a manoeuvre is what this car does in the mirrored one, with left and right exchanged and the signs of roll angles turned.</summary>
    internal AssembledHalfCar Mirrored() => new(
        (Vehicle with
        {
            Body = Vehicle.Body with { CgOffset = -Vehicle.Body.CgOffset },
            SeatOffset = -Vehicle.SeatOffset,
            SecondAxle = Second?.Mirrored() is { } second ? Vehicle.SecondAxle! with { Vehicle = second.Vehicle, Layout = second.Layout } : null,
        }).With(Vehicle.On(Side.Right), Vehicle.On(Side.Left)),
        Layout.Mirrored(),
        Standing with
        {
            LeftSpring = Standing.RightSpring,
            RightSpring = Standing.LeftSpring,
            TyreLoads = [.. Standing.TyreLoads.Reverse()],
            BodyRoll = -Standing.BodyRoll,
            UnsprungRoll = -Standing.UnsprungRoll,
        });

    /// <summary>Springs that hold the body level at ride height: with the heave forces in balance, and the roll moments where the sides are unlike.</summary>
    private static Standing Level(HalfCar vehicle, DamperLayout layout)
    {
        var loads = Enumerable.Repeat(vehicle.StaticTyreLoad, vehicle.ContactPositions.Count);
        Spring left = vehicle.Spring, right = vehicle.On(Side.Right).Spring;
        foreach (var ratio in (ReadOnlySpan<double>)[left.Fitting.HeaveRatio, right.Fitting.HeaveRatio])
        {
            if (!(ratio > 0))
                throw new ArgumentException(FormattableString.Invariant($"The spring's heave ratio is {ratio:G4}; it must be greater than 0 to carry the body."), nameof(vehicle));
        }

        if (vehicle.RightSide is null && layout.RightSide is null)
        {
            // At rest each side carries Rh,spring·P + Rh,damper·G = ms g/2, and stops that touch take their share.
            var share = vehicle.Body.Mass * vehicle.Gravity / 2;
            var preload = (share - SideForces.WithoutSpring(vehicle, layout, Side.Left, 0).Force) / left.Fitting.HeaveRatio;
            return new Standing { LeftSpring = preload, RightSpring = preload, TyreLoads = [.. loads] };
        }

        // Σ Rh P = ms g − others, Σ s Rr T P = −others: two springs, two balances.
        var (ofLeft, ofRight) = (SideForces.WithoutSpring(vehicle, layout, Side.Left, 0), SideForces.WithoutSpring(vehicle, layout, Side.Right, 0));
        var force = (vehicle.Body.Mass * vehicle.Gravity) - ofLeft.Force - ofRight.Force;
        var moment = ofLeft.Moment + ofRight.Moment;
        var (leftArm, rightArm) = (left.Fitting.At(0, 0, Side.Left).RollArm, right.Fitting.At(0, 0, Side.Right).RollArm);
        var determinant = (left.Fitting.HeaveRatio * rightArm) - (right.Fitting.HeaveRatio * leftArm);
        if (!(Math.Abs(determinant) > 0))
            throw new ArgumentException("Springs that stand on the centre plane cannot hold a body level whose sides differ.", nameof(vehicle));
        return new Standing
        {
            LeftSpring = ((force * rightArm) + (moment * right.Fitting.HeaveRatio)) / determinant,
            RightSpring = -((left.Fitting.HeaveRatio * moment) + (leftArm * force)) / determinant,
            TyreLoads = [.. loads],
        };
    }

    private static void CheckAxle(HalfCar vehicle)
    {
        if (vehicle.Tyre.DualSpacing >= vehicle.Track)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The spacing of the dual tyres, {vehicle.Tyre.DualSpacing} m, must be less than the track, {vehicle.Track} m."),
                nameof(vehicle));
        }

        if (vehicle.Suspension.RefusalOf(vehicle.Unsprung.AxleRollInertia) is { } refusal)
            throw new ArgumentException($"{nameof(UnsprungMass.AxleRollInertia)}: {refusal}.", nameof(vehicle));
    }
}
