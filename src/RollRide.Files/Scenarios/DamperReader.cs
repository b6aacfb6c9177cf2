using RollRide.Damping;
using RollRide.Numerics;

namespace RollRide.Scenarios;

/// <summary>Turns a damper of a file into its record.</summary>
internal static class DamperReader
{
    /// <summary>Reads a damper; null after a fault.</summary>
    public static Damper? Read(ReadingContext context, string name, DamperFile file)
    {
        var path = ReadingContext.PathOfEntry("dampers", name);
        if (file.ClosedLengthMm >= file.ExtendedLengthMm)
            context.Refuse($"{path}.closedLength_mm", $"the closed length must be less than the extended length ({file.ExtendedLengthMm} mm)");
        var read = CurveReader.Read(context, path, file.Curve, file.Dyno, file.Interpolation);
        var faults = context.Faults.Count;
        var gas = GasReader.Read(context, path, file);
        if (read is null || context.Faults.Count > faults)
            return null;
        var curve = read.Curve;
        if (file.ForceTolerance * Unit.Percent.InSi is { } tolerance && read.Tolerance is { } other && !(other.IsOne && other.Shares[0] == tolerance))
        {
            context.Refuse($"{path}.forceTolerance_percent", $"the valving sheet “{file.Dyno}” names a tolerance of {string.Join(", ", other.Shares.Select(share => FormattableString.Invariant($"{Unit.Percent.Of(share):0.###}")))} %; give one of the two");
            return null;
        }

        if (file.Friction > curve.LargestForce * file.ForceScale)
            context.Warn($"{path}.friction_N", $"the friction is more than the largest force of the curve ({curve.LargestForce * file.ForceScale:F0} N); a damper's seals and guide give tens of newtons");
        if (file.TopMountStiffness is not null && !curve.IsStrictlyIncreasing)
        {
            context.Refuse(
                $"{path}.topMountStiffness_N_per_mm",
                $"with an elastic top mount the force must rise with velocity everywhere, so that each force has one velocity; the curve of this damper is flat or falls somewhere");
            return null;
        }

        var states = DamperStateReader.Read(context, path, file, curve);
        if (context.Faults.Count > faults)
            return null;
        return context.Make(path, () => new Damper(name, curve.Scaled(file.ForceScale))
        {
            Temperature = file.Temperature,
            States = states,
            Heat = new DamperHeat(file.ThermalConductance, file.AirTemperature),
            ForceTolerance = read.Tolerance ?? (file.ForceTolerance is { } share ? new ForceTolerance(share * Unit.Percent.InSi) : null),
            Friction = file.Friction,
            FrictionVelocity = file.FrictionVelocity,
            GasForce = file.GasForce,
            Gas = gas,
            TopMountStiffness = file.TopMountStiffness * Unit.NewtonPerMillimetre.InSi,
        });
    }
}
