using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Tests.Modes;

/// <summary>Vehicles whose modes are known, with linear dampers.</summary>
internal static class ReferenceCars
{
    /// <summary>
    /// A body on independent wheels with all ratios 1: cars A to C. The roll centre lies at the centre of gravity, so
    /// gravity has no moment and the body's inertia is its own.
    /// </summary>
    public static AssembledHalfCar HalfCar(
        double mass, double inertia, double b, double wheelMass, double springRate, double tyreRate, double damping, double bar) =>
        Assemble(
            new HalfCar
            {
                Name = "half car",
                Suspension = new IndependentSuspension(),
                Track = 2 * b,
                RollCentreHeight = 0.5,
                Body = new SprungBody { Mass = mass, RollInertia = inertia, CgHeight = 0.5 },
                Unsprung = new UnsprungMass { Mass = 2 * wheelMass, CgHeight = 0.3 },
                Spring = new Spring(new LinearSpring(springRate), new FixedRatioFitting(1, 1, b)),
                AntiRollBar = bar,
                Tyre = new Tyre { Stiffness = tyreRate },
            },
            new FixedRatioFitting(1, 1, b),
            new Damper("linear", ForceVelocityCurve.Linear(damping)));

    /// <summary>Car A.</summary>
    public static AssembledHalfCar Mod10 { get; } = HalfCar(635, 250, 0.75, 45.4, 22e3, 192e3, 1500, 0);

    /// <summary>
    /// A live axle with springs at ±ys and vertical dampers at ±yd: axles A to E. The inertias of the rows are those
    /// about the roll centre, so the share of the heights is taken off again.
    /// </summary>
    public static AssembledHalfCar LiveAxle(LiveAxleRow row, Damper? damper = null) =>
        Assemble(
            new HalfCar
            {
                Name = "live axle",
                Suspension = new LiveAxleSuspension(),
                Track = 2 * row.HalfTrack,
                RollCentreHeight = row.RollCentre,
                Body = new SprungBody
                {
                    Mass = row.BodyMass,
                    RollInertia = row.BodyInertia - (row.BodyMass * row.RollArm * row.RollArm),
                    CgHeight = row.RollCentre + row.RollArm,
                },
                Unsprung = new UnsprungMass
                {
                    Mass = row.AxleMass,
                    CgHeight = row.AxleHeight,
                    AxleRollInertia = row.AxleInertia - (row.AxleMass * (row.AxleHeight - row.RollCentre) * (row.AxleHeight - row.RollCentre)),
                },
                Spring = new Spring(new LinearSpring(row.SpringRate), new FixedRatioFitting(1, row.SpringPosition / row.HalfTrack, row.HalfTrack)),
                AntiRollBar = row.Bar,
                Tyre = new Tyre { Stiffness = row.TyreRate },
                Gravity = 9.81,
            },
            new FixedRatioFitting(1, row.DamperPosition / row.HalfTrack, row.HalfTrack),
            damper ?? new Damper("linear", ForceVelocityCurve.Linear(row.Damping)));

    /// <summary>Axle A; without gravity's moment as long as the roll arm is 0.</summary>
    public static LiveAxleRow Mod20 { get; } = new();

    /// <summary>Axle D: axle A with gravity's moment.</summary>
    public static LiveAxleRow Mod23 { get; } = Mod20 with { RollArm = 0.50, RollCentre = 0.30, AxleHeight = 0.32 };

    /// <summary>Axle C.</summary>
    public static LiveAxleRow Mod22 { get; } = new()
    {
        BodyMass = 2800,
        BodyInertia = 1500,
        AxleMass = 450,
        AxleInertia = 180,
        HalfTrack = 0.90,
        SpringRate = 120e3,
        SpringPosition = 0.50,
        Damping = 9000,
        DamperPosition = 0.42,
        Bar = 0,
        TyreRate = 800e3,
    };

    /// <summary>Axle E: axle C with gravity's moment.</summary>
    public static LiveAxleRow Mod24 { get; } = Mod22 with { RollArm = 0.70, RollCentre = 0.45, AxleHeight = 0.40 };

    public static AssembledHalfCar Assemble(HalfCar vehicle, IFitting fitting, Damper damper) =>
        new(vehicle, new DamperLayout { Name = "test", Fitting = fitting, Damper = damper });
}

/// <summary>One live-axle row, SI units; the defaults are axle A.</summary>
internal sealed record LiveAxleRow
{
    public double BodyMass { get; init; } = 1000;

    public double BodyInertia { get; init; } = 450;

    public double AxleMass { get; init; } = 180;

    public double AxleInertia { get; init; } = 60;

    public double HalfTrack { get; init; } = 0.75;

    public double SpringRate { get; init; } = 35e3;

    public double SpringPosition { get; init; } = 0.50;

    public double Damping { get; init; } = 2500;

    public double DamperPosition { get; init; } = 0.45;

    public double Bar { get; init; } = 10e3;

    public double TyreRate { get; init; } = 220e3;

    public double RollArm { get; init; }

    public double RollCentre { get; init; } = 0.5;

    public double AxleHeight { get; init; } = 0.5;
}
