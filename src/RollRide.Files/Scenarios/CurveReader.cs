using RollRide.Damping;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>Turns a force–velocity curve of a file, or of a file that it names, into its record.</summary>
internal static class CurveReader
{
    private const string Velocity = "velocity_m_per_s";
    private const string Force = "force_N";

    // A measured curve may push by this share of its largest force, as offsets of a load cell do; common practice, no source.
    private const double MeasuredPushShare = 0.02;

    // Rebound over compression below which a swap of the directions is the likely reason; common practice, no source.
    private const double LeastRebound = 0.7;

    // N·s/m: a thousand times what locks the suspension of a heavy lorry. Beyond it a curve jumps, and no setting between can be found.
    private const double SteepestCurve = 1e9;

    // The force at rest between two points is F_p − v_p (F_q − F_p)/(v_q − v_p). With half a spacing of doubles (2⁻⁵³) of error in
    // each number read and each operation, a line meant to pass through the origin misses it by less than 9 · 2⁻⁵³ of the larger force.
    private const double RoundingShare = 16 * 1.1102230246251565e-16;

    /// <summary>Reads a curve; null after a fault.</summary>
    /// <param name="context">The file.</param>
    /// <param name="owner">Path of what has the curve.</param>
    /// <param name="points">Its curve, point by point; null where it names a file.</param>
    /// <param name="file">The file that it names.</param>
    /// <param name="interpolation">How the curve runs between its points.</param>
    public static ReadCurve? Read(ReadingContext context, string owner, CurveFile? points, string? file, CurveInterpolation interpolation)
    {
        var path = points is null ? $"{owner}.dyno" : $"{owner}.curve";
        var read = points is null ? ReadDyno(context, path, file!, interpolation) : ReadPoints(context, path, points, interpolation);
        if (read is not null)
            CheckPlausible(context, path, read.Curve);
        return read;
    }

    private static void CheckPlausible(ReadingContext context, string path, ForceVelocityCurve curve)
    {
        var fastest = Math.Max(-curve.MinimumVelocity, curve.MaximumVelocity);
        var largest = curve.LargestForce;
        if (curve.MinimumVelocity > -0.1 || curve.MaximumVelocity < 0.1)
            context.Warn(path, $"the curve covers {curve.MinimumVelocity} to {curve.MaximumVelocity} m/s; ordinary roads move dampers at 0.5 m/s and more, and beyond its ends the curve is extended straight");
        if (fastest > 10)
            context.Warn(path, $"the curve reaches {fastest} m/s; dampers seldom pass 3 m/s: are these mm/s?");
        var both = Math.Min(-curve.MinimumVelocity, curve.MaximumVelocity);
        var split = -curve.Force(-both) / curve.Force(both);
        if (split < LeastRebound)
            context.Warn(path, $"rebound gives {split:F2} of the compression force at {both} m/s; most dampers give as much in rebound or more: are the directions swapped? Compression counts positive");
        if (largest is > 0 and < 20)
            context.Warn(path, $"the largest force of the curve is {largest:G4} N; dampers give hundreds or thousands of newtons: are these kN?");
        foreach (var (end, force) in (ForceVelocityPoint[])[curve.Points[0], curve.Points[^1]])
        {
            // One spacing of doubles further lies the straight extension.
            var slope = curve.Slope(end * (1 + 1e-9));
            if (slope < 0)
                context.Warn(path, $"the force falls with velocity at the end of the curve ({end} m/s); extended straight, it would push beyond {end - (force / slope):F2} m/s");
        }
    }

    private static ReadCurve? ReadPoints(ReadingContext context, string path, CurveFile points, CurveInterpolation interpolation)
    {
        if (!context.SameLength(path, Velocity, points.Velocity, Force, points.Force))
            return null;
        var before = context.Faults.Count;
        for (var i = 1; i < points.Velocity.Count; i++)
        {
            if (points.Velocity[i] <= points.Velocity[i - 1])
                context.Refuse($"{path}.{Velocity}[{i}]", $"it does not come after {points.Velocity[i - 1]} m/s; velocities must ascend, each given once");
        }

        if (JumpOf(points.Velocity, points.Force) is { } jump)
            context.Refuse($"{path}.{Velocity}[{jump.Index}]", jump.Reason);
        if (context.Faults.Count > before)
            return null;
        var curve = context.Make($"{path}.{Velocity}", () => ForceVelocityCurve.FromPoints(points.Velocity, points.Force, interpolation));
        if (curve is null)
            return null;
        foreach (var push in PushesOf(curve))
            context.Refuse(push.Index is { } i ? $"{path}.{Force}[{i}]" : $"{path}.{Force}", Pushes(push, curve));
        return context.Faults.Count > before ? null : new ReadCurve(curve, null);
    }

    private static ReadCurve? ReadDyno(ReadingContext context, string path, string file, CurveInterpolation interpolation)
    {
        if (context.CurveFile(path, file) is not { } table)
            return null;
        return context.Make(path, () =>
        {
            double[] velocities = [.. table.Points.Select(point => point.Velocity)], forces = [.. table.Points.Select(point => point.Force)];
            if (velocities[0] >= 0)
                throw new DataFileException(table.FaultAtVelocity(0, "no velocity is below 0, so rebound has no points; a curve needs both directions, compression positive"));
            if (velocities[^1] <= 0)
                throw new DataFileException(table.FaultAtVelocity(velocities.Length - 1, "no velocity is above 0, so compression has no points; a curve needs both directions, compression positive"));
            if (JumpOf(velocities, forces) is { } jump)
                throw new DataFileException(table.FaultAtVelocity(jump.Index, FormattableString.Invariant(jump.Reason)));
            var curve = ForceVelocityCurve.FromPoints(velocities, forces, interpolation);
            var slight = MeasuredPushShare * curve.LargestForce;
            var isRefused = false;
            foreach (var push in PushesOf(curve))
            {
                var reason = FormattableString.Invariant(Pushes(push, curve));
                var place = push.Index is { } row
                    ? table.FaultAtForce(row, reason)
                    : new DataFileFault(table.Table.Path, null, Force, null, reason);
                if (Math.Abs(push.Force) <= slight)
                {
                    context.Warn(place with { Reason = FormattableString.Invariant($"{reason}. It is less than {100 * MeasuredPushShare:F0} % of the largest force, as measured curves show, and is used as it stands") });
                    continue;
                }

                context.Refuse(place);
                isRefused = true;
            }

            return isRefused ? null : new ReadCurve(curve, table.Tolerance);
        });
    }

    /// <summary>The first point to which a curve rises or falls faster than any damper's; null where there is none.</summary>
    private static (int Index, FormattableString Reason)? JumpOf(IReadOnlyList<double> velocities, IReadOnlyList<double> forces)
    {
        for (var i = 1; i < velocities.Count; i++)
        {
            var slope = Math.Abs(forces[i] - forces[i - 1]) / (velocities[i] - velocities[i - 1]);
            if (slope > SteepestCurve)
                return (i, $"from the point before the force changes by {Math.Abs(forces[i] - forces[i - 1]):G4} N within {velocities[i] - velocities[i - 1]:G3} m/s; {SteepestCurve:G} N·s/m is the steepest accepted: give points that lie further apart, and velocities in m/s");
        }

        return null;
    }

    /// <summary>The places where a curve makes energy. One stands for all where every force has the wrong sign.</summary>
    private static IEnumerable<EnergyFault> PushesOf(ForceVelocityCurve curve)
    {
        var pushes = curve.EnergyFaults.Where(push => push.Index is not null || Math.Abs(push.Force) > RoundingAtRest(curve));
        return IsInverted(curve) ? pushes.Take(1) : pushes;
    }

    private static double RoundingAtRest(ForceVelocityCurve curve)
    {
        var above = curve.Points.First(point => point.Velocity >= 0);
        var below = curve.Points.Last(point => point.Velocity <= 0);
        return RoundingShare * Math.Max(Math.Abs(above.Force), Math.Abs(below.Force));
    }

    private static bool IsInverted(ForceVelocityCurve curve) =>
        curve.Points.Where(point => point.Velocity != 0).All(point => point.Force * point.Velocity < 0);

    private static FormattableString Pushes(EnergyFault push, ForceVelocityCurve curve) =>
        IsInverted(curve) ? (FormattableString)$"every force of this curve pushes the way the damper moves: turn the sign of the forces or of the velocities; both count positive in compression"
        : push.Velocity == 0 ? (FormattableString)$"the force at rest (0 m/s) is {push.Force:G4} N, so it pushes on one side of it; a damper takes energy out and needs 0 N at 0 m/s (a point 0, 0 belongs in the curve; a gas force has its own key)"
        : $"at {push.Velocity} m/s the force of {push.Force:G4} N pushes the way the damper moves; a damper takes energy out, so force and velocity need the same sign";
}

/// <summary>A curve as it was read.</summary>
/// <param name="Curve">The curve.</param>
/// <param name="Tolerance">Tolerance of its forces that its file names; null for none.</param>
internal sealed record ReadCurve(ForceVelocityCurve Curve, ForceTolerance? Tolerance);
