using CsCheck;
using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics.Series;

/// <summary>Invented vehicles whose force laws are straight between kinks, and manoeuvres that drive them into every kink.</summary>
internal static class StraightCars
{
    /// <summary>Vehicle, layout and manoeuvre at random: bent curves, stops of either law, spring tables, single and dual tyres.</summary>
    public static Gen<(AssembledHalfCar Car, Manoeuvre Manoeuvre)> Any { get; } =
        from mass in Gen.Double[600, 1600]
        from spring in Gen.Double[25e3, 70e3]
        from heave in Gen.Double[0.6, 1.1]
        from roll in Gen.Double[0.1, 0.9]
        from scale in Gen.Double[0.3, 2]
        from bend in Gen.Double[0.2, 0.9]
        from clearance in Gen.Double[0.015, 0.05]
        from exponents in Gen.Select(Gen.Int[1, 2], Gen.Int[1, 2])
        from isDual in Gen.Bool
        from hasTable in Gen.Bool
        from height in Gen.Double[0.02, 0.09]
        from ay in Gen.Double[-4, 4]
        from side in Gen.OneOf(Gen.Const(RoadSide.Left), Gen.Const(RoadSide.Right), Gen.Const(RoadSide.Both))
        select (
            new AssembledHalfCar(
                LiveAxle with
                {
                    Body = new SprungBody { Mass = mass, RollInertia = 0.3 * mass, CgHeight = 0.7 },
                    Spring = new Spring(
                        hasTable ? new RideHeightSpringTable(PiecewiseLinear.Through([-0.1, -0.02, 0, 0.03, 0.1], [-0.09 * spring, -0.02 * spring, 0, 0.03 * spring, 0.15 * spring])) : new LinearSpring(spring),
                        Ratio(1, 0.6)),
                    BumpStop = new TravelStop { Clearance = clearance, Stiffness = exponents.Item1 == 1 ? 2e5 : 5e6, Exponent = exponents.Item1, Fitting = Ratio(1, 0.7) },
                    ReboundStop = new TravelStop { Clearance = clearance, Stiffness = exponents.Item2 == 1 ? 2e5 : 5e6, Exponent = exponents.Item2, Fitting = Ratio(0.9, 0.7) },
                    Tyre = new Tyre { Stiffness = isDual ? 120e3 : 230e3, Damping = 300, DualSpacing = isDual ? 0.28 : null },
                    SeatOffset = 0.4,
                },
                Layout(Ratio(heave, roll), new Damper("bent", ForceVelocityCurve.FromPoints(
                    [-1, -0.3, -0.08, 0, 0.06, 0.25, 1],
                    [-scale * (1200 + (2500 * bend)), -scale * (600 + (900 * bend)), -scale * 500, 0, scale * 250, scale * (250 + (500 * bend)), scale * (250 + (1600 * bend))])))),
            BumpThenTurn(side, height, ay));

    /// <summary>The vehicles of <see cref="Any"/> on roads of every other kind, at any speed, with tyres of any damping and close knots of the damper curve.</summary>
    public static Gen<(AssembledHalfCar Car, Manoeuvre Manoeuvre)> Rough { get; } =
        from sample in Any
        from speed in Gen.Double[3, 40]
        from damping in Gen.Double[0, 800]
        from bleed in Gen.Double[0.002, 0.03]
        from wavelength in Gen.Double[0.4, 6]
        from height in Gen.Double[0.005, 0.05]
        from kind in Gen.Int[0, 4]
        from side in Gen.OneOf(Gen.Const(RoadSide.Left), Gen.Const(RoadSide.Both))
        let road = kind switch
        {
            0 => RoadEvents.Sine(3, wavelength, height / 2, 6),
            1 => RoadEvents.Step(3, height, 0.1),
            2 => RoadEvents.Pothole(3, wavelength, height, 0.1),
            3 => RoadEvents.Ramp(3, wavelength, height),
            _ => RoadEvents.HaversineBump(3, 0.1 * wavelength, height),
        }
        let curve = sample.Car.Layout.Damper.Curve
        select (
            new AssembledHalfCar(
                sample.Car.Vehicle with { Tyre = sample.Car.Vehicle.Tyre with { Damping = damping } },
                sample.Car.Layout with
                {
                    Damper = new Damper("close knots", ForceVelocityCurve.FromPoints(
                        [-1, -0.3, -2 * bleed, -bleed, 0, bleed, 2 * bleed, 0.3, 1],
                        [curve.Force(-1), curve.Force(-0.3), 0.6 * curve.Force(-0.3), 0.45 * curve.Force(-0.3), 0, 0.3 * curve.Force(0.3), 0.5 * curve.Force(0.3), curve.Force(0.3), curve.Force(1)])),
                }),
            sample.Manoeuvre with { Road = Road.Flat(speed).With(road, side), Phases = [], Duration = Math.Max(1.5, (20 / speed) + 1) });

    /// <summary>The same at hand, as a list.</summary>
    public static IReadOnlyList<(AssembledHalfCar Car, Manoeuvre Manoeuvre)> Some(int count) => [.. Any.Samples(count)];

    /// <summary>The solution of a run from its derivatives, without series.</summary>
    public static Trajectory StepByStep(AssembledHalfCar car, Manoeuvre manoeuvre, double tolerance)
    {
        var trajectory = new Trajectory();
        var equations = new HalfCarEquations(car, manoeuvre.Road, manoeuvre.Cornering);
        Integrator.Run(equations, 0, manoeuvre.Duration, new double[equations.Dimension], manoeuvre.Breakpoints, Tolerance(tolerance), trajectory, TestContext.Current.CancellationToken);
        return trajectory;
    }

    /// <summary>The given lateral acceleration of a manoeuvre, as a signal over time.</summary>
    public static PiecewiseSignal Signal(Manoeuvre manoeuvre) => ((GivenLateralAcceleration)manoeuvre.Cornering).Signal;
}
