using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>
/// Warns of a vehicle that is possible but unlike any on the road: most often a slip in a unit. The limits are wide on purpose;
/// common practice, no source.
/// </summary>
internal static class VehiclePlausibility
{
    public static void Check(ReadingContext context, string path, HalfCar vehicle)
    {
        if (vehicle.Track is < 0.8 or > 3)
            context.Warn($"{path}.track_mm", $"road vehicles have 800 to 3000 mm");
        if (vehicle.Body.CgHeight > 2.5 || vehicle.Body.CgHeight < 0.2)
            context.Warn($"{path}.body.cgHeight_mm", $"road vehicles have 200 to 2500 mm");
        if (vehicle.RollArm < 0)
            context.Warn($"{path}.rollCentreHeight_mm", $"the roll centre lies above the centre of gravity ({Unit.Millimetre.Show(vehicle.Body.CgHeight):F0}): the body would lean into the turn");
        var gyration = Math.Sqrt(vehicle.Body.RollInertia / vehicle.Body.Mass) / vehicle.Track;
        if (gyration is < 0.2 or > 0.7)
            context.Warn($"{path}.body.rollInertia_kg_m2", $"its radius of gyration is {gyration:F2} of the track; road vehicles have 0.2 to 0.7");
        if (vehicle.Unsprung.Mass > vehicle.Body.Mass)
            context.Warn($"{path}.unsprung.mass_kg", $"the unsprung mass is more than the sprung mass ({vehicle.Body.Mass:F0} kg)");
        if (vehicle.Unsprung.AxleRollInertia is { } inertia)
        {
            var axleGyration = Math.Sqrt(inertia / vehicle.Unsprung.Mass) / vehicle.Track;
            if (axleGyration is < 0.1 or > 0.7)
                context.Warn($"{path}.unsprung.axleRollInertia_kg_m2", $"its radius of gyration is {axleGyration:F2} of the track; live axles have 0.1 to 0.7");
        }

        var deflection = vehicle.StaticTyreLoad / vehicle.Tyre.Stiffness;
        if (deflection is < 0.003 or > 0.1)
            context.Warn($"{path}.tyres.stiffness_N_per_mm", $"at rest the tyre is pressed in by {Unit.Millimetre.Show(deflection):F1}; road tyres give 3 to 100 mm");
        if (Math.Abs(vehicle.SeatOffset) > vehicle.Track)
            context.Warn($"{path}.seatOffset_mm", $"the seat lies outside the vehicle");
        if (Math.Abs(vehicle.SeatOffset) is > 0 and < 0.005)
            context.Warn($"{path}.seatOffset_mm", $"the seat lies {Unit.Millimetre.Show(Math.Abs(vehicle.SeatOffset)):0.###} off the centre plane: is this one in m?");
        if (vehicle.RollCentreHeight < vehicle.Suspension.LowestUsualRollCentre)
            context.Warn($"{path}.rollCentreHeight_mm", $"the roll centre lies {Unit.Millimetre.Show(-vehicle.RollCentreHeight):F0} below the road; {vehicle.Suspension.UsualRollCentre}");
        if (vehicle.Spring.Fitting.RollRatio > 1.3)
            context.Warn($"{path}.springs.placement", $"the springs' roll ratio is {vehicle.Spring.Fitting.RollRatio:F2}: they stand well outside the tyre contact");

        // The roll that the bar alone would leave under 1 g; stiff racing cars have some tenths of a degree with springs and all.
        var byBar = Unit.Degree.Of(vehicle.Body.Mass * HalfCar.StandardGravity * vehicle.RollArm / vehicle.AntiRollBar);
        if (vehicle.RollArm > 0.1 && byBar < 0.3)
            context.Warn($"{path}.antiRollBar_N_m_per_deg", $"the bar alone would hold roll to {byBar:F2} deg per g: is this one in N·m per rad?");
    }
}
