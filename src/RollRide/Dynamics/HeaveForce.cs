using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>The force with which the elements of one side lift the body at a relative heave, nothing moving and nothing leaning, N.</summary>
internal static class HeaveForce
{
    /// <summary>Of spring, gas and stops.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The damper layout.</param>
    /// <param name="springForce">Force of one spring, N, over its compression, m.</param>
    /// <param name="heave">Relative heave <c>q</c>, m.</param>
    public static double Of(HalfCar vehicle, DamperLayout layout, PiecewiseLinear springForce, double heave)
    {
        var spring = vehicle.Spring.Fitting.At(heave, 0, Side.Left);
        return (spring.HeaveRatio * springForce.Value(spring.Compression)) + WithoutSpring(vehicle, layout, heave);
    }

    /// <summary>Of gas and stops.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The damper layout.</param>
    /// <param name="heave">Relative heave <c>q</c>, m.</param>
    public static double WithoutSpring(HalfCar vehicle, DamperLayout layout, double heave) =>
        (layout.Fitting.At(heave, 0, Side.Left).HeaveRatio * layout.Damper.GasForce)
        + OfStop(vehicle.BumpStop, heave, 1)
        + OfStop(vehicle.ReboundStop, heave, -1);

    private static double OfStop(TravelStop? stop, double heave, int way)
    {
        if (stop is null)
            return 0;
        var motion = stop.Fitting.At(heave, 0, Side.Left);
        return way * motion.HeaveRatio * stop.Force((way * motion.Compression) - stop.Clearance);
    }
}
