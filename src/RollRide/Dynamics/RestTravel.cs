using MathNet.Numerics.RootFinding;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>The travel at which the suspension carries a body, followed from the design position as the load grows or shrinks.</summary>
internal static class RestTravel
{
    // The suspension is moved in these steps, m, until it carries the body: what happens within one of them is no vehicle's doing.
    private const double Step = 1e-3;

    // No suspension moves farther, m.
    private const double Furthest = 2;

    // The travel is found to this, m: rounding of a travel of some centimetres.
    private const double Accuracy = 1e-15;

    // Forces that differ by this share are the same.
    private const double Rounding = 1e-13;

    /// <summary>Finds it, m, positive in bump.</summary>
    /// <param name="vehicle">The vehicle in its design position, with the body it has under the load.</param>
    /// <param name="layout">The damper layout.</param>
    /// <param name="springForce">Force of one spring, N, over its compression from the design position, m.</param>
    /// <param name="refused">Makes the exception of a reason.</param>
    public static double Find(HalfCar vehicle, DamperLayout layout, PiecewiseLinear springForce, Func<FormattableString, NoRestPositionException> refused)
    {
        var weight = vehicle.Body.Mass * vehicle.Gravity / 2;
        double Carried(double heave) => SideForces.OfLeft(vehicle, layout, springForce, heave);
        var before = Carried(0);
        var missing = weight - before;
        if (Math.Abs(missing) <= Rounding * weight)
            return 0;
        var way = Math.Sign(missing);
        for (var i = 1; i * Step <= Furthest; i++)
        {
            var (from, to) = (way * (i - 1) * Step, way * i * Step);
            var after = Carried(to);
            if (double.IsNaN(after))
                throw refused($"at {Unit.Millimetre.Show(from):F0} of wheel travel next to nothing is left of the volume of the dampers' gas; the load asks for more");
            if (way * (after - weight) >= 0)
                return Brent.FindRoot(heave => Carried(heave) - weight, Math.Min(from, to), Math.Max(from, to), Accuracy);
            if (way * (after - before) < -Rounding * weight)
                throw refused($"at {Unit.Millimetre.Show(from):F0} of wheel travel the suspension carries {before:F0} N a side and {(way > 0 ? "less" : "more")} beyond; the load asks for {weight:F0} N");
            before = after;
        }

        throw refused($"even after {Unit.Millimetre.Show(way * Furthest):F0} of wheel travel the suspension carries {before:F0} N a side; the load asks for {weight:F0} N");
    }
}
