using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;

namespace RollRide.Benchmarks;

/// <summary>
/// The fixed case on which speed is measured: an invented delivery van's live rear axle takes a bump under the left wheel, then a
/// corner. It never changes, so that figures stay comparable.
/// </summary>
internal static class ReferenceCase
{
    private const double HalfTrack = 0.82;

    public static AssembledHalfCar Car { get; } = new(
        new HalfCar
        {
            Name = "delivery van",
            Suspension = SuspensionKind.LiveAxle,
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

    public static Manoeuvre Manoeuvre { get; } = new()
    {
        Road = Road.Flat(20).With(RoadEvents.HaversineBump(10, 2, 0.045), RoadSide.Left),
        Cornering = new GivenLateralAcceleration(CorneringEvents.RampStep(2, 0.3, 3.5)),
        Duration = 6,
        Phases = [new Phase("bump", 0.5, 2), new Phase("corner", 2, 6)],
    };

    public static IntegratorOptions Solver(double relativeTolerance) =>
        new() { RelativeTolerance = relativeTolerance, AbsoluteTolerance = 1e-2 * relativeTolerance, MaximumStep = double.PositiveInfinity };
}
