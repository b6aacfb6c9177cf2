using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>What half-cars must have in common for one set of equations to hold them side by side: the kinds of their elements, not their numbers.</summary>
internal sealed record HalfCarForm
{
    /// <summary>The elements of the left side.</summary>
    public required SideForm Left { get; init; }

    /// <summary>Those of the right side; null where it is the left one mirrored.</summary>
    public required SideForm? Right { get; init; }

    /// <summary>Whether the body leans at rest, or has its centre of gravity beside the centre plane.</summary>
    public required bool Leans { get; init; }

    /// <summary>Whether the dampers sit in elastic top mounts.</summary>
    public required bool HasTopMount { get; init; }

    /// <summary>Whether either spring has friction.</summary>
    public required bool HasSpringFriction { get; init; }

    /// <summary>Number of tyres a side.</summary>
    public required int TyresASide { get; init; }

    /// <summary>The form of the second axle; null without one.</summary>
    public required HalfCarForm? Second { get; init; }

    /// <summary>The form of a half-car.</summary>
    /// <param name="car">Vehicle and layout.</param>
    public static HalfCarForm Of(AssembledHalfCar car) => new()
    {
        Left = SideForm.Of(car, Side.Left),
        Right = car.Vehicle.RightSide is null && car.Layout.RightSide is null ? null : SideForm.Of(car, Side.Right),
        Leans = car.Leans,
        HasTopMount = car.HasTopMount,
        HasSpringFriction = car.HasSpringFriction,
        TyresASide = car.ContactPositions.Length / 2,
        Second = car.Second is { } second ? Of(second) : null,
    };
}

/// <summary>The kinds of the elements of one side.</summary>
internal sealed record SideForm
{
    /// <summary>The kind of the spring's fitting.</summary>
    public required Type SpringFitting { get; init; }

    /// <summary>The form of the spring's table.</summary>
    public required CurveForm Spring { get; init; }

    /// <summary>The kind of the damper's fitting.</summary>
    public required Type DamperFitting { get; init; }

    /// <summary>The form of the damper.</summary>
    public required DamperForm Damper { get; init; }

    /// <summary>The kind of the bump stop's fitting and its form; null without one.</summary>
    public required (Type Fitting, StopForm Stop)? BumpStop { get; init; }

    /// <summary>The same of the rebound stop.</summary>
    public required (Type Fitting, StopForm Stop)? ReboundStop { get; init; }

    /// <summary>The form of one side of a half-car.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="side">The side.</param>
    public static SideForm Of(AssembledHalfCar car, Side side)
    {
        var (suspension, damper) = (car.Vehicle.On(side), car.Layout.On(side));
        return new SideForm
        {
            SpringFitting = KindOf(suspension.Spring.Fitting),
            Spring = CurveForm.Of(car.SpringForceOn(side).Pieces),
            DamperFitting = KindOf(damper.Fitting),
            Damper = DamperForm.Of(damper.Damper),
            BumpStop = FormOf(suspension.BumpStop),
            ReboundStop = FormOf(suspension.ReboundStop),
        };
    }

    private static (Type Fitting, StopForm Stop)? FormOf(TravelStop? stop) => stop is null ? null : (KindOf(stop.Fitting), stop.Form);

    private static Type KindOf(IFitting fitting) => fitting is WheelTravelFitting ? typeof(WheelTravelFitting) : fitting.GetType();
}
