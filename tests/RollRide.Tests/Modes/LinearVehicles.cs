using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Tests.Modes;

/// <summary>Linear vehicles of the published and derived check values, whose body rolls about its own centre of gravity.</summary>
internal static class LinearVehicles
{
    private const double Height = 0.6;

    /// <summary>Independent wheels: body, one wheel's spring, damper, mass and tyre, and a bar on the relative roll.</summary>
    public static AssembledHalfCar Independent(
        double mass, double inertia, double halfTrack, double wheel, double spring, double tyre, double damper, double bar) =>
        Car(new IndependentSuspension(), mass, inertia, halfTrack, 2 * wheel, null, spring, 1, tyre, damper, 1, bar);

    /// <summary>A live axle, its springs and dampers at lateral positions of their own.</summary>
    public static AssembledHalfCar LiveAxle(
        double mass, double inertia, double axle, double axleInertia, double halfTrack, double spring, double springAt,
        double damper, double damperAt, double bar, double tyre) =>
        Car(new LiveAxleSuspension(), mass, inertia, halfTrack, axle, axleInertia, spring, springAt / halfTrack, tyre, damper, damperAt / halfTrack, bar);

    private static AssembledHalfCar Car(
        Suspension kind, double mass, double inertia, double t, double unsprung, double? axleInertia,
        double spring, double springRatio, double tyre, double damper, double damperRatio, double bar)
    {
        var vehicle = new HalfCar
        {
            Name = "check",
            Suspension = kind,
            Track = 2 * t,
            RollCentreHeight = Height,
            Body = new SprungBody { Mass = mass, RollInertia = inertia, CgHeight = Height },
            Unsprung = new UnsprungMass { Mass = unsprung, CgHeight = Height, AxleRollInertia = axleInertia },
            Spring = new Spring(new LinearSpring(spring), new FixedRatioFitting(1, springRatio, t)),
            AntiRollBar = bar,
            Tyre = new Tyre { Stiffness = tyre },
        };
        return new AssembledHalfCar(vehicle, new DamperLayout
        {
            Name = "linear",
            Fitting = new FixedRatioFitting(1, damperRatio, t),
            Damper = new Damper("linear", ForceVelocityCurve.FromPoints([-1, 0, 1], [-damper, 0, damper])),
        });
    }
}
