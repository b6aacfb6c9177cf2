using RollRide.Damping;
using RollRide.Numerics;

namespace RollRide.Scenarios;

/// <summary>Turns the gas of a damper of a file into its record.</summary>
internal static class GasReader
{
    // Monotube dampers are charged to 10 to 30 bar, some twin tubes to a few; common practice, no source.
    private const double HighestPressure = 60e5;

    /// <summary>Reads the gas; null after a fault, or without one.</summary>
    public static GasChamber? Read(ReadingContext context, string damperPath, DamperFile damper)
    {
        if (damper.Gas is not { } file)
            return null;
        var path = $"{damperPath}.gas";
        if (damper.GasForce != 0)
        {
            context.Refuse($"{damperPath}.gasForce_N", $"the force of the gas follows from pressure and rod under gas{context.LineOf(path)}; leave out one of the two");
            return null;
        }

        var rod = Circle(file.RodDiameterMm);
        if (file.PistonDiameterMm <= file.RodDiameterMm)
        {
            context.Refuse($"{path}.pistonDiameter_mm", $"the piston must be thicker than its rod ({file.RodDiameterMm} mm)");
            return null;
        }

        var (pressure, key) = file.AbsolutePressure is { } absolute
            ? (absolute * Unit.Bar.InSi, "absolutePressure_bar")
            : ((file.GaugePressure!.Value * Unit.Bar.InSi) + GasChamber.Atmosphere, "gaugePressure_bar");
        if (pressure < GasChamber.Atmosphere)
        {
            context.Refuse($"{path}.{key}", $"gas below the pressure of the atmosphere ({Unit.Bar.Of(GasChamber.Atmosphere)} bar absolute) would pull the rod in; is this a gauge pressure?");
            return null;
        }

        if (pressure > HighestPressure)
            context.Warn($"{path}.{key}", $"dampers are charged to 60 bar at most, usually to 10 to 30; {Unit.Bar.Of(pressure):0.#} bar absolute is more");
        return context.Make(path, () => new GasChamber(pressure, file.VolumeCm3 * Unit.CubicCentimetre.InSi, rod)
        {
            PolytropicIndex = file.PolytropicIndex,
            PistonRingArea = file.PistonDiameterMm is { } piston ? Circle(piston) - rod : null,
        });
    }

    private static double Circle(double diameterMm) => Math.PI / 4 * diameterMm * Unit.Millimetre.InSi * diameterMm * Unit.Millimetre.InSi;
}
