using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>The force, N, with which the elements of one side lift the body at a relative heave, nothing moving and nothing leaning, and its moment about the roll axis, N·m.</summary>
internal static class SideForces
{
    /// <summary>Of spring, gas and stops of the left side, which the right side mirrors.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The damper layout.</param>
    /// <param name="springForce">Force of the spring, N, over its compression, m.</param>
    /// <param name="heave">Relative heave <c>q</c>, m.</param>
    public static double OfLeft(HalfCar vehicle, DamperLayout layout, PiecewiseLinear springForce, double heave)
    {
        var spring = vehicle.Spring.Fitting.At(heave, 0, Side.Left);
        return (spring.HeaveRatio * springForce.Value(spring.Compression)) + WithoutSpring(vehicle, layout, Side.Left, heave).Force;
    }

    /// <summary>Of gas and stops.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The damper layout.</param>
    /// <param name="side">The side of the vehicle.</param>
    /// <param name="heave">Relative heave <c>q</c>, m.</param>
    public static (double Force, double Moment) WithoutSpring(HalfCar vehicle, DamperLayout layout, Side side, double heave)
    {
        var (suspension, damper) = (vehicle.On(side), layout.On(side));
        var motion = damper.Fitting.At(heave, 0, side);
        var gas = Of(motion, damper.Damper.GasForceAtRest(motion.Compression));
        var bump = OfStop(suspension.BumpStop, side, heave, 1);
        var rebound = OfStop(suspension.ReboundStop, side, heave, -1);
        return (gas.Force + bump.Force + rebound.Force, gas.Moment + bump.Moment + rebound.Moment);
    }

    private static (double Force, double Moment) Of(ElementMotion element, double force) => (element.HeaveRatio * force, element.RollArm * force);

    private static (double Force, double Moment) OfStop(TravelStop? stop, Side side, double heave, int way)
    {
        if (stop is null)
            return (0, 0);
        var motion = stop.Fitting.At(heave, 0, side);
        return Of(motion, way * stop.Force((way * motion.Compression) - stop.Clearance));
    }
}
