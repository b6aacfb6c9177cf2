using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>
/// What only vehicle and layout together can get wrong: what the springs must carry, whether the body stands, and whether it
/// rides as road vehicles do. The limits of the warnings are wide on purpose; common practice, no source.
/// </summary>
internal static class StandingCheck
{
    // N: out of all proportion to any vehicle; beyond it the arithmetic ends.
    private const double LargestPreload = 1e15;

    // m: ride heights are set to within this; common practice, no source.
    private const double WideBand = 0.010;

    /// <summary>Checks a layout.</summary>
    /// <param name="context">The file.</param>
    /// <param name="index">The layout's place in it.</param>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The layout.</param>
    /// <param name="isOtherAxle">Whether it is the other axle's, which may go without dampers.</param>
    public static void Check(ReadingContext context, int index, HalfCar vehicle, DamperLayout layout, bool isOtherAxle = false)
    {
        if (!CanCarry(context, index, vehicle, layout))
            return;
        var (left, right) = (vehicle.On(Side.Left).Spring.Fitting, vehicle.On(Side.Right).Spring.Fitting);
        if ((vehicle.RightSide is not null || layout.RightSide is not null) && !(Math.Abs((left.HeaveRatio * right.RollRatio) + (right.HeaveRatio * left.RollRatio)) > 0))
        {
            context.Refuse("vehicle.springs.placement", $"with a roll ratio of 0 the springs stand on the centre plane, where they cannot hold a body level whose sides differ; give them a distance from it, or give both sides the same parts");
            return;
        }

        var car = context.Make($"layouts[{index}]", () => new AssembledHalfCar(vehicle, layout));
        if (car is null)
            return;
        var linear = LinearHalfCar.AtRest(car);
        if (!Array.TrueForAll(linear.Stiffness.AsColumnMajorArray(), double.IsFinite))
        {
            context.Refuse($"layouts[{index}]", $"with these numbers the stiffness at ride height is not finite; a value of the vehicle or of this placement is out of all proportion");
            return;
        }

        var heaveRate = linear.Stiffness[HalfCarState.BodyHeave, HalfCarState.BodyHeave];
        if (heaveRate <= 0)
            context.Refuse("vehicle.springs", $"nothing holds the body at ride height: the springs' rate there is {Unit.NewtonPerMillimetre.Show(heaveRate):G4} at the wheels; it must be greater than 0");
        else if (!Stability.Holds(linear.Mass, linear.Stiffness))
            RefuseUnstable(context, new UnstableBodyException(linear));
        else if (index == 0 && !ModeNaming.Swings(linear))
            context.Refuse("vehicle.tyres.damping_N_s_per_m", $"with tyres as strongly damped as these the axle does not oscillate, so it has no modes to find; some hundred N·s/m are usual");
        else
            CheckRide(context, index, vehicle, layout, heaveRate, isOtherAxle);
        if (index == 0)
            CheckFriction(context, car);
    }

    /// <summary>The rest position of a spring with friction is not one place but a band.</summary>
    private static void CheckFriction(ReadingContext context, AssembledHalfCar car)
    {
        const double Beside = 1e-3;
        foreach (var side in car.Vehicle.RightSide is null ? [Side.Left] : (Side[])[Side.Left, Side.Right])
        {
            if (car.Vehicle.On(side).Spring.Friction is not { } friction)
                continue;
            var force = car.SpringForceOn(side);
            var band = friction.Force * 2 * Beside / (force.Value(Beside) - force.Value(-Beside));
            if (band > WideBand)
                context.Warn(VehicleReader.PathOfSpring(context.File.Vehicle.Springs, side, spring => spring.Friction, "friction"), $"friction of {friction.Force:F0} N holds a spring of this rate anywhere within {Unit.Millimetre.Show(band):F0} of its rest position either way; ride heights, clearances and static solutions are those without friction");
        }
    }

    /// <summary>Whether springs and gas can carry the body.</summary>
    private static bool CanCarry(ReadingContext context, int index, HalfCar vehicle, DamperLayout layout) =>
        CanCarry(context, index, vehicle, layout, Side.Left) && ((vehicle.RightSide is null && layout.RightSide is null) || CanCarry(context, index, vehicle, layout, Side.Right));

    private static bool CanCarry(ReadingContext context, int index, HalfCar vehicle, DamperLayout layout, Side side)
    {
        var (damper, spring) = (layout.On(side), vehicle.On(side).Spring);
        var share = vehicle.Body.Mass * vehicle.Gravity / 2;
        var lifted = damper.Fitting.HeaveRatio * damper.Damper.GasForce;
        if (lifted >= share)
        {
            context.Refuse(
                $"{ReadingContext.PathOfEntry("dampers", damper.Damper.Name)}.{(damper.Damper.Gas is null ? "gasForce_N" : "gas")}",
                $"in layout “{layout.Name}” the gas lifts {lifted:F0} N a side at the wheel and the body weighs {share:F0} N a side, so nothing is left for the springs; less is needed");
            return false;
        }

        if (damper.Damper.Gas is { } gas && damper.CompressionTravel >= gas.LongestStroke)
        {
            context.Refuse(
                $"{ReadingContext.PathOfEntry("dampers", damper.Damper.Name)}.gas.volume_cm3",
                $"in layout “{layout.Name}” the damper has {Unit.Millimetre.Show(damper.CompressionTravel.Value):F1} from ride height until it is closed, and the rod displaces all of this volume within {Unit.Millimetre.Show(gas.LongestStroke):F1}: it could not close");
            return false;
        }

        var preload = (share - lifted) / spring.Fitting.HeaveRatio;
        if (preload > LargestPreload)
        {
            context.Refuse(VehicleReader.PathOfSpring(context.File.Vehicle.Springs, side, own => own.Placement, "placement"), $"in heave the springs move {spring.Fitting.HeaveRatio:G3} of the wheels' travel, so that each would carry {Unit.Kilonewton.Show(preload):G4} at ride height; no vehicle's spring does");
            return false;
        }

        if (spring.Characteristic is not FreeLengthSpringTable { Curve: var curve })
            return true;
        var table = $"{VehicleReader.PathOfSpring(context.File.Vehicle.Springs, side, own => own.TableFromFreeLength, "tableFromFreeLength")}.force_N";
        if (preload < curve.Y[0] || preload > curve.Y[^1])
        {
            context.Refuse(table, $"each spring must carry {preload:F0} N at ride height, but the table covers {curve.Y[0]:F0} N to {curve.Y[^1]:F0} N");
            return false;
        }

        if (Enumerable.Range(1, curve.Y.Length - 1).Any(i => curve.Y[i] == curve.Y[i - 1] && curve.Y[i] == preload))
        {
            context.Refuse(table, $"the table is flat at {preload:F0} N, which each spring must carry at ride height; it must rise there");
            return false;
        }

        return true;
    }

    private static void RefuseUnstable(ReadingContext context, UnstableBodyException unstable)
    {
        if (unstable.RollStiffness > unstable.GravityMoment)
        {
            context.Refuse("vehicle.springs", $"with these numbers one motion of the vehicle has almost no stiffness compared with the others; check springs, tyres and masses");
            return;
        }

        context.Refuse(
            "vehicle.antiRollBar_N_m_per_deg",
            $"the body cannot stand: its weight above the roll centre (ms g h) takes {unstable.GravityMoment * Unit.Degree.InSi:F0} N·m per degree of roll, and springs, bar and tyres give back only {unstable.RollStiffness * Unit.Degree.InSi:F0}; a higher roll stiffness or a lower centre of gravity is needed");
    }

    private static void CheckRide(ReadingContext context, int index, HalfCar vehicle, DamperLayout layout, double heaveRate, bool isOtherAxle)
    {
        var frequency = Math.Sqrt(heaveRate / vehicle.Body.Mass) / (2 * Math.PI);
        if (index == 0 && frequency is < 0.5 or > 4)
            context.Warn("vehicle.springs", $"on these springs the body's natural frequency in heave is {frequency:F2} Hz; road vehicles have 0.5 to 4 Hz");
        var velocity = context.File.Analysis.ReferenceDamperVelocity;
        var coefficient = layout.EquivalentCoefficient(velocity);
        var ratio = coefficient * layout.Fitting.HeaveRatio * layout.Fitting.HeaveRatio / Math.Sqrt(heaveRate * vehicle.Body.Mass);
        if (isOtherAxle && coefficient == 0)
            context.Warn($"layouts[{index}]", $"the other axle has no dampers: the body there swings until the studied axle's dampers stop it");
        else if (ratio is < 0.03 or > 1.2)
            context.Warn($"layouts[{index}].damper", $"at {velocity} m/s these dampers give the body a damping ratio of about {ratio:F2} in heave; road vehicles have 0.1 to 0.6");
    }
}
