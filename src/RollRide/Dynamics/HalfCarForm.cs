using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>What half-cars must have in common for one set of equations to hold them side by side: the kinds of their elements, not their numbers.</summary>
internal sealed record HalfCarForm
{
    /// <summary>The kind of the springs' fitting.</summary>
    public required Type SpringFitting { get; init; }

    /// <summary>The form of the springs' table.</summary>
    public required CurveForm Spring { get; init; }

    /// <summary>The kind of the dampers' fitting.</summary>
    public required Type DamperFitting { get; init; }

    /// <summary>The form of the dampers.</summary>
    public required DamperForm Damper { get; init; }

    /// <summary>Whether the dampers sit in elastic top mounts.</summary>
    public required bool HasTopMount { get; init; }

    /// <summary>The kind of the bump stops' fitting and their form; null without bump stops.</summary>
    public required (Type Fitting, StopForm Stop)? BumpStop { get; init; }

    /// <summary>The same of the rebound stops.</summary>
    public required (Type Fitting, StopForm Stop)? ReboundStop { get; init; }

    /// <summary>Number of tyres a side.</summary>
    public required int TyresASide { get; init; }

    /// <summary>The form of a half-car.</summary>
    /// <param name="car">Vehicle and layout.</param>
    public static HalfCarForm Of(AssembledHalfCar car)
    {
        var (vehicle, layout) = (car.Vehicle, car.Layout);
        return new HalfCarForm
        {
            SpringFitting = KindOf(vehicle.Spring.Fitting),
            Spring = CurveForm.Of(car.SpringForce.Pieces),
            DamperFitting = KindOf(layout.Fitting),
            Damper = DamperForm.Of(layout.Damper),
            HasTopMount = car.HasTopMount,
            BumpStop = FormOf(vehicle.BumpStop),
            ReboundStop = FormOf(vehicle.ReboundStop),
            TyresASide = car.ContactPositions.Length / 2,
        };
    }

    private static (Type Fitting, StopForm Stop)? FormOf(TravelStop? stop) => stop is null ? null : (KindOf(stop.Fitting), stop.Form);

    private static Type KindOf(IFitting fitting) => fitting is WheelTravelFitting ? typeof(WheelTravelFitting) : fitting.GetType();
}
