using RollRide.Damping;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>
/// A vehicle with one damper layout fitted, standing at rest: what each spring must carry at rest is settled here, once,
/// for the equations of motion, the static solution and the linearised model. Immutable and thread-safe.
/// </summary>
public sealed class AssembledHalfCar
{
    /// <summary>Fits a layout to a vehicle.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The damper layout.</param>
    /// <exception cref="ArgumentException">The two do not go together; the message says why.</exception>
    public AssembledHalfCar(HalfCar vehicle, DamperLayout layout)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(layout);
        CheckAxle(vehicle);
        Vehicle = vehicle;
        Layout = layout;
        ContactPositions = [.. vehicle.ContactPositions];

        // At rest each side carries Rh,spring·P + Rh,damper·G = ms g/2, and stops that touch take their share.
        var springRatio = vehicle.Spring.Fitting.HeaveRatio;
        if (!(springRatio > 0))
            throw new ArgumentException(FormattableString.Invariant($"The spring's heave ratio is {springRatio:G4}; it must be greater than 0 to carry the body."), nameof(vehicle));
        var share = vehicle.Body.Mass * vehicle.Gravity / 2;
        SpringPreload = (share - HeaveForce.WithoutSpring(vehicle, layout, 0)) / springRatio;
        SpringForce = vehicle.Spring.Characteristic.AtRideHeight(SpringPreload);
    }

    /// <summary>The vehicle.</summary>
    public HalfCar Vehicle { get; }

    /// <summary>The damper layout fitted to it.</summary>
    public DamperLayout Layout { get; }

    /// <summary>Force of one spring at rest <c>P</c>, N; negative where gas and stops lift more than the body weighs, so that the springs pull.</summary>
    public double SpringPreload { get; }

    /// <summary>Force of one spring, N, over its compression from ride height, m.</summary>
    public PiecewiseLinear SpringForce { get; }

    /// <summary>Lateral positions of the tyre contacts, left to right, m.</summary>
    internal double[] ContactPositions { get; }

    /// <summary>Whether the dampers sit in elastic top mounts, which add the damper strokes to the states.</summary>
    internal bool HasTopMount => Layout.Damper.TopMountStiffness is not null;

    /// <summary>Number of states, see <see cref="HalfCarState"/>.</summary>
    internal int StateCount => HasTopMount ? HalfCarState.CountWithStrokes : HalfCarState.Count;

    /// <summary>The same car with dampers in rigid mounts that give no force while they move; their gas force stays.</summary>
    internal AssembledHalfCar WithoutDamping() => new(Vehicle, Layout with
    {
        Damper = Layout.Damper with { TopMountStiffness = null } with { Curve = ForceVelocityCurve.Linear(0), Friction = 0 },
    });

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
