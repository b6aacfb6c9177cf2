using RollRide.Dynamics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>One thing of a vehicle with a layout that can be changed alone, everything else left where it is, and how far it is tried.</summary>
/// <param name="Kind">What is changed.</param>
/// <param name="Present">Its present value, SI units as in <see cref="WindowRemedy"/>.</param>
/// <param name="Lowest">The lowest value that is tried.</param>
/// <param name="Highest">The highest one.</param>
/// <param name="At">The vehicle and the layout as written, with another value; throws an <see cref="ArgumentException"/> where they cannot be built.</param>
internal sealed record SingleChange(RemedyKind Kind, double Present, double Lowest, double Highest, Func<double, AssembledHalfCar> At)
{
    // How far each thing is tried; common practice, no source.
    internal const double InnermostShare = 0.1; // of the half-track
    internal const double TrackChange = 0.3;
    internal const double StiffestBar = 3; // times the present roll stiffness of the bar
    private const double DualClearance = 1e-3; // of the spacing, left between the inner tyres' centres

    /// <summary>The dampers' lateral position, tried out to beside the tyre; null where it is not their own to choose.</summary>
    public static SingleChange? DamperPosition(AssembledHalfCar written)
    {
        var (vehicle, fitting) = (written.Vehicle, written.Layout.Fitting);
        if (!LayoutVariation.CanMove(vehicle, fitting))
            return null;
        var present = LayoutVariation.PositionOf(fitting, vehicle.HalfTrack);
        return new(RemedyKind.DamperPosition, present, 0, Math.Max(present, TyreOutline.OutermostDamper(vehicle)), y => LayoutVariation.WithDampersShifted(written, y - present));
    }

    /// <summary>The springs' lateral position; null where it is not their own to choose.</summary>
    public static SingleChange? SpringPosition(AssembledHalfCar written)
    {
        var (vehicle, fitting) = (written.Vehicle, written.Vehicle.Spring.Fitting);
        if (!LayoutVariation.CanMove(vehicle, fitting))
            return null;
        var present = LayoutVariation.PositionOf(fitting, vehicle.HalfTrack);
        return new(RemedyKind.SpringPosition, present, InnermostShare * vehicle.HalfTrack, vehicle.HalfTrack, y => LayoutVariation.WithSpringsShifted(written, y - present));
    }

    /// <summary>The stiffness of the anti-roll bar; null without one.</summary>
    public static SingleChange? AntiRollBar(AssembledHalfCar written)
    {
        var present = written.Vehicle.AntiRollBar;
        return present == 0 ? null : new(RemedyKind.AntiRollBar, present, 0, StiffestBar * present, stiffness => LayoutVariation.WithBar(written, stiffness));
    }

    /// <summary>The track.</summary>
    public static SingleChange Track(AssembledHalfCar written)
    {
        var present = written.Vehicle.Track;

        // Dual tyres need their spacing between the sides.
        var narrowest = Math.Max((1 - TrackChange) * present, (1 + DualClearance) * (written.Vehicle.Tyre.DualSpacing ?? 0));
        return new(RemedyKind.Track, present, Math.Min(narrowest, present), (1 + TrackChange) * present, track => LayoutVariation.WithHalfTrack(written, track / 2));
    }
}
