using RollRide.Damping;

namespace RollRide.Tests.Damping;

public class RefusedNumbersTests
{
    private static readonly ValveCharacteristic Valve = new(3000, 0.1, 1000);
    private static readonly BlowOff BlowOff = new(0.6, 200);
    private static readonly GasChamber Gas = new(2e6, 1e-4, 2e-4);
    private static readonly Damper Damper = new("plain", ForceVelocityCurve.Linear(1000));

    [Fact]
    public void Valving_NumberOutOfItsLimits_IsNamedWithItsUnit()
    {
        Refused.NumberIn("N·s/m", "BleedSlope", () => new ValveCharacteristic(0, 0.1, 1000));
        Refused.NumberIn("N·s/m", "BleedSlope", () => Valve with { BleedSlope = 0 });
        Refused.NumberIn("m/s", "KneeVelocity", () => new ValveCharacteristic(3000, 0, 1000));
        Refused.NumberIn("m/s", "KneeVelocity", () => Valve with { KneeVelocity = 0 });
        Refused.NumberIn("N·s/m", "HighSpeedSlope", () => new ValveCharacteristic(3000, 0.1, -1));
        Refused.NumberIn("N·s/m", "HighSpeedSlope", () => Valve with { HighSpeedSlope = -1 });
        Refused.NumberIn("m/s", "Velocity", () => new BlowOff(0, 200));
        Refused.NumberIn("m/s", "Velocity", () => BlowOff with { Velocity = 0 });
        Refused.NumberIn("N·s/m", "Slope", () => new BlowOff(0.6, -1));
        Refused.NumberIn("N·s/m", "Slope", () => BlowOff with { Slope = -1 });
        Refused.NumberIn("m/s", "velocities", () => new Valving(Valve, Valve).ForcesAt([0.1, 0]));
        Refused.NumberIn("m/s", "compressionVelocity", () => new Valving(Valve, Valve).ToCurve(0, 1));
        Refused.NumberIn("m/s", "reboundVelocity", () => new Valving(Valve, Valve).ToCurve(1, 0));
    }

    [Fact]
    public void Valve_RoundingOrBlowOffOutOfItsLimits_IsToldTheLimits()
    {
        Assert.Equal(1, (Valve with { Rounding = 1 }).Rounding);
        foreach (var rounding in (double[])[-0.1, 1.1, double.NaN])
            Assert.Contains("from 0 (sharp) to 1", Assert.Throws<ArgumentOutOfRangeException>(() => Valve with { Rounding = rounding }).Message, StringComparison.Ordinal);

        // A blow-off at the knee would leave nothing between the two.
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Valve with { BlowOff = new BlowOff(0.1, 200) });
        Assert.Contains("above the knee velocity of 0.1 m/s", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Damper_NumberOutOfItsLimits_IsNamedWithItsUnit()
    {
        Refused.NumberIn("N", "Friction", () => Damper with { Friction = -1 });
        Refused.NumberIn("m/s", "FrictionVelocity", () => Damper with { FrictionVelocity = 0 });
        Refused.NumberIn("N", "GasForce", () => Damper with { GasForce = -1 });
        Refused.NumberIn("N/m", "TopMountStiffness", () => Damper with { TopMountStiffness = 0 });
        Refused.NumberIn("Pa", "Pressure", () => new GasChamber(0, 1e-4, 2e-4));
        Refused.NumberIn("Pa", "Pressure", () => Gas with { Pressure = 0 });
        Refused.NumberIn("m³", "Volume", () => new GasChamber(2e6, 0, 2e-4));
        Refused.NumberIn("m³", "Volume", () => Gas with { Volume = 0 });
        Refused.NumberIn("m²", "RodArea", () => new GasChamber(2e6, 1e-4, 0));
        Refused.NumberIn("m²", "RodArea", () => Gas with { RodArea = 0 });
        Refused.NumberIn("m²", "PistonRingArea", () => Gas with { PistonRingArea = 0 });
        Refused.NumberIn("W/K", "Conductance", () => new DamperHeat(0, 20));
        Refused.NumberIn("W/K", "Conductance", () => DamperHeat.Default with { Conductance = 0 });
        Refused.NumberIn("W", "power", () => DamperHeat.Default.SteadyTemperature(-1));
    }

    [Fact]
    public void Curve_NumberOutOfItsLimits_IsNamedWithItsUnit()
    {
        Refused.NumberIn("N·s/m", "coefficient", () => ForceVelocityCurve.Linear(-1));
        Refused.NumberIn("m/s", "velocityAmplitude", () => Damper.Curve.EquivalentCoefficient(-1));
        Refused.NumberIn("m/s", "velocityAmplitude", () => Damper.Curve.MeanForce(-1));
        Refused.NumberIn("1", "share", () => new ForceTolerance(0));
        Refused.NumberIn("1", "shares", () => new ForceTolerance([0.1, 0.5], [0.1, 0]));
    }
}
