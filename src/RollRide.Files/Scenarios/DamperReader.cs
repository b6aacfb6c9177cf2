using RollRide.Damping;
using RollRide.Numerics;

namespace RollRide.Scenarios;

/// <summary>Turns a damper of a file into its record.</summary>
internal static class DamperReader
{
    // Explicit steps are no longer than about three times the time in which mount and damper in series settle. From the first, s, on no run ends within a day;
    // from the second on a second of driving takes millions of steps. Derived.
    private const double NeverEnds = 1e-9, Slow = 3e-6;

    // Of the damper's force, N: what the solver's tolerances may stand for in the mount; as little as a good dynamometer resolves. Common practice, no source.
    // At five times as much the peak velocity of a damper over a bump came out 1 % wrong.
    private const double Resolved = 5;

    // A stroke, m, of which the relative tolerance is a part.
    private const double UsualStroke = 0.05;

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

        if (file.TopMountStiffness * Unit.NewtonPerMillimetre.InSi is { } mount)
            CheckMount(context, $"{path}.topMountStiffness_N_per_mm", mount, curve, file.ForceScale);
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

    /// <summary>A mount against which the damper gives next to no force, or that hardly yields itself, makes a run long, and its damper's velocity a difference of large numbers.</summary>
    private static void CheckMount(ReadingContext context, string path, double mount, ForceVelocityCurve curve, double scale)
    {
        var softest = scale * curve.Points.Skip(1).Zip(curve.Points, (after, before) => (after.Force - before.Force) / (after.Velocity - before.Velocity)).Min();
        var (absolute, relative) = (context.File.Solver.AbsoluteTolerance, context.File.Solver.RelativeTolerance);
        var error = mount * (absolute + (relative * UsualStroke));
        if (softest / mount < NeverEnds)
            context.Refuse(path, $"where this damper is softest it has {softest:G3} N·s/m, almost nothing compared with its mount: it follows within {softest / mount:G3} s, and no run with such steps would end; leave the mount out, or give the damper its forces");
        else if (error > Resolved)
            context.Warn(path, $"the solver's tolerances stand for {error:F0} N in a mount as stiff as this, so the damper's velocity is inaccurate: leave the key out for a rigid mount, which 10000 N/mm hardly differs from, or give smaller values to solver.absoluteTolerance (now {absolute:G2}) and solver.relativeTolerance (now {relative:G2}); rubber mounts have some hundred to some thousand N/mm");
        else if (softest / mount < Slow)
            context.Warn(path, $"where this damper is softest it has {softest:G3} N·s/m and follows its mount within {softest / mount:G3} s, so that a run takes very many steps; leave the mount out unless it matters");
    }
}
