using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;

namespace RollRide.Benchmarks;

/// <summary>
/// The fixed cases on which speed is measured: an invented delivery van's live rear axle takes a bump under the left wheel, then a
/// corner. One has motion ratios as numbers; in the other the dampers stand between mount points and have friction, as users' scenarios
/// have them. They never change, so that figures stay comparable.
/// </summary>
internal static class ReferenceCase
{
    private const double HalfTrack = 0.82;

    /// <summary>With motion ratios as numbers.</summary>
    public static AssembledHalfCar Given { get; } = new(
        new HalfCar
        {
            Name = "delivery van",
            Suspension = new LiveAxleSuspension(),
            Track = 2 * HalfTrack,
            RollCentreHeight = 0.42,
            Body = new SprungBody { Mass = 1150, RollInertia = 560, CgHeight = 0.92 },
            Unsprung = new UnsprungMass { Mass = 195, CgHeight = 0.36, AxleRollInertia = 62 },
            Spring = new Spring(new LinearSpring(52e3), new FixedRatioFitting(1, 0.64, HalfTrack)),
            BumpStop = new TravelStop { Clearance = 0.075, Stiffness = 7e6, Exponent = 2, Fitting = new FixedRatioFitting(1, 1, HalfTrack) },
            ReboundStop = new TravelStop { Clearance = 0.095, Stiffness = 7e6, Exponent = 2, Fitting = new FixedRatioFitting(1, 1, HalfTrack) },
            AntiRollBar = 11e3,
            Tyre = new Tyre { Stiffness = 310e3, Damping = 450 },
        },
        new DamperLayout
        {
            Name = "inboard",
            Fitting = new FixedRatioFitting(0.97, 0.58, HalfTrack),
            Damper = new Damper("reference", ForceVelocityCurve.FromPoints(
                [-1.4, -0.7, -0.3, -0.10, 0, 0.10, 0.3, 0.7, 1.4],
                [-4100, -2600, -1700, -800, 0, 330, 750, 1250, 1950])),
        });

    /// <summary>With dampers between mount points, and friction in them.</summary>
    public static AssembledHalfCar Mounts { get; } = new(Given.Vehicle, Given.Layout with
    {
        Fitting = new LiveAxleMountFitting(new Point3(0, 0.500, 0.31), new Point3(0.03, 0.455, 0.765), Given.Vehicle.RollCentreHeight, HalfTrack),
        Damper = Given.Layout.Damper with { Friction = 25, FrictionVelocity = 0.01 },
    });

    /// <summary>A case by its name: the two that the yardstick runs too, and the second one with what makes a run slower.</summary>
    public static AssembledHalfCar Car(string name) => name switch
    {
        "given" => Given,
        "mounts" => Mounts,
        "gas" => With(damper => damper with { Gas = Monotube }),
        "gas and piston" => With(damper => damper with { Gas = Monotube with { PistonRingArea = 1.3e-3 } }),
        "spring friction" => new(Mounts.Vehicle with { Spring = Mounts.Vehicle.Spring with { Friction = new SpringFriction(400, 0.004) } }, Mounts.Layout),
        "worn damper" => new(Mounts.Vehicle, Mounts.Layout with { RightSide = Mounts.Layout.On(Side.Left) with { Damper = Mounts.Layout.Damper with { Curve = Mounts.Layout.Damper.Curve.Scaled(0.8) } } }),
        _ => throw new ArgumentException($"There is no case “{name}”.", nameof(name)),
    };

    private static GasChamber Monotube { get; } = new(25e5, 0.15e-3, 2e-4);

    private static AssembledHalfCar With(Func<Damper, Damper> change) => new(Mounts.Vehicle, Mounts.Layout with { Damper = change(Mounts.Layout.Damper) });

    /// <summary>The bump, then the corner.</summary>
    public static Manoeuvre Manoeuvre { get; } = new()
    {
        Road = Road.Flat(20).With(RoadEvents.HaversineBump(10, 2, 0.045), RoadSide.Left),
        Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(2, 0.3, 3.5)),
        Duration = 6,
        Phases = [new Phase("bump", 0.5, 2), new Phase("corner", 2, 6)],
    };

    /// <summary>The tolerances at which both cases meet the errors asked of them; a fraction or multiple of them for others.</summary>
    /// <param name="factor">Factor on both tolerances.</param>
    public static IntegratorOptions Solver(double factor = 1) => new()
    {
        RelativeTolerance = IntegratorOptions.DefaultRelativeTolerance * factor,
        AbsoluteTolerance = IntegratorOptions.DefaultAbsoluteTolerance * factor,
        MaximumStep = double.PositiveInfinity,
    };
}
