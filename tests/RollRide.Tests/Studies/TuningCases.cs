using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Tests.Studies;

/// <summary>An invented van and a short manoeuvre, small enough to be run hundreds of times.</summary>
internal static class TuningCases
{
    public static readonly HalfCar Van = new()
    {
        Name = "test van",
        Suspension = new LiveAxleSuspension(),
        Track = 1.6,
        RollCentreHeight = 0.5,
        Body = new SprungBody { Mass = 1200, RollInertia = 450, CgHeight = 0.9 },
        Unsprung = new UnsprungMass { Mass = 160, CgHeight = 0.36, AxleRollInertia = 55 },
        Spring = new Spring(new LinearSpring(55_000), new FixedRatioFitting(1, 0.65, 0.8)),
        AntiRollBar = 20_000,
        Tyre = new Tyre { Stiffness = 300_000, Damping = 300 },
    };

    /// <summary>The same van on tyres so stiff that the body alone moves: then the closed form of a linear damper holds.</summary>
    public static HalfCar OnRigidTyres => Van with { Tyre = new Tyre { Stiffness = 1e10 } };

    public static readonly Damper Digressive = new("present", ForceVelocityCurve.FromPoints(
        [-1, -0.13, -0.05, 0, 0.05, 0.13, 1], [-2600, -560, -240, 0, 120, 280, 1300]));

    public static readonly TuningTask Task = new()
    {
        Heave = new TuningTarget(0.30, 0.02, 0.26),
        Roll = new TuningTarget(0.32, 0.02, 0.05),
        Limits = new TuningLimits { Force = 6000 },
    };

    public static DamperLayout Layout(double rollRatio, Damper? damper = null, double heaveRatio = 1) => new()
    {
        Name = FormattableString.Invariant($"roll ratio {rollRatio}"),
        Fitting = new FixedRatioFitting(heaveRatio, rollRatio, Van.HalfTrack),
        Damper = damper ?? Digressive,
    };

    public static StudyCase Case(params DamperLayout[] layouts) => new()
    {
        Provenance = new Provenance("test", "test.json", "", "0"),
        Vehicle = Van,
        Layouts = [.. layouts],
        Manoeuvre = new Manoeuvre
        {
            Road = Road.Flat(15).With(RoadEvents.HaversineBump(0.5, 2, 0.05), RoadSide.Left),
            Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(0.9, 0.3, 3.5)),
            Duration = 2,
            Phases = [new Phase("bump", 0.03, 0.9), new Phase("corner", 0.9, 2)],
        },
        Solver = new IntegratorOptions { RelativeTolerance = 1e-5, AbsoluteTolerance = 1e-7 },
        Analysis = new AnalysisSettings(0.13, [0.05, 0.13], false),
    };
}
