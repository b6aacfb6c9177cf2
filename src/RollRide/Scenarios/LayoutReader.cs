using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns dampers and layouts of a file into records.</summary>
internal static class LayoutReader
{
    // A measured curve may push by this share of its largest force, as offsets of a load cell do; common practice, no source.
    private const double MeasuredPushShare = 0.02;

    /// <summary>Reads all layouts in order; null in the place of one with a fault.</summary>
    public static ImmutableArray<DamperLayout?> Read(ReadingContext context)
    {
        var file = context.File;
        var dampers = file.Dampers.ToDictionary(entry => entry.Key, entry => ReadDamper(context, entry.Key, entry.Value));
        foreach (var unused in file.Dampers.Keys.Except(file.Layouts.Select(layout => layout.Damper)))
            context.Warn($"dampers.{unused}", $"no layout uses this damper");
        foreach (var twin in file.Layouts.Select((layout, i) => (layout.Name, Index: i)).GroupBy(x => x.Name, StringComparer.OrdinalIgnoreCase).SelectMany(g => g.Skip(1)))
            context.Refuse($"layouts[{twin.Index}].name", $"another layout has this name; each needs its own");
        return [.. file.Layouts.Select((layout, i) => ReadLayout(context, $"layouts[{i}]", layout, dampers))];
    }

    private static DamperLayout? ReadLayout(ReadingContext context, string path, LayoutFile file, Dictionary<string, Damper?> dampers)
    {
        var fitting = PlacementReader.Read(context, $"{path}.placement", file.Placement);
        if (!dampers.TryGetValue(file.Damper, out var damper))
        {
            context.Refuse($"{path}.damper", $"there is no such damper; known: {string.Join(", ", dampers.Keys)}");
            return null;
        }

        if (fitting is null || damper is null)
            return null;
        if (fitting.HeaveRatio <= 0)
            context.Refuse($"{path}.placement", $"the damper's heave ratio is {fitting.HeaveRatio:G4}; it must be greater than 0: compressed when the wheel rises");
        var (compression, rebound) = ReadTravel(context, path, file, fitting);
        return context.Make(path, () => new DamperLayout
        {
            Name = file.Name,
            Fitting = fitting,
            Damper = damper,
            CompressionTravel = compression,
            ReboundTravel = rebound,
        });
    }

    /// <summary>What is left of the damper's stroke at ride height, both ways.</summary>
    private static (double? Compression, double? Rebound) ReadTravel(ReadingContext context, string path, LayoutFile layout, IFitting fitting)
    {
        var file = context.File.Dampers[layout.Damper];
        if (file.ClosedLengthMm is null && file.ExtendedLengthMm is null)
            return (null, null);
        if (PlacementReader.RestLength(fitting) is not { } length)
        {
            context.Warn($"{path}.placement", $"ratios alone do not tell the distance between mounts, so the lengths of damper '{layout.Damper}' are not checked");
            return (null, null);
        }

        var rest = length / Units.MetresPerMm;
        if (file.ClosedLengthMm >= rest)
        {
            context.Refuse($"{path}.placement", $"the mounts are {rest:F1} mm apart at ride height, but damper '{layout.Damper}' is {file.ClosedLengthMm} mm long when closed: {file.ClosedLengthMm - rest:F1} mm are missing");
            return (null, null);
        }

        if (file.ExtendedLengthMm <= rest)
        {
            context.Refuse($"{path}.placement", $"the mounts are {rest:F1} mm apart at ride height, but damper '{layout.Damper}' reaches only {file.ExtendedLengthMm} mm when extended: {rest - file.ExtendedLengthMm:F1} mm are missing");
            return (null, null);
        }

        return ((rest - file.ClosedLengthMm) * Units.MetresPerMm, (file.ExtendedLengthMm - rest) * Units.MetresPerMm);
    }

    private static Damper? ReadDamper(ReadingContext context, string name, DamperFile file)
    {
        var path = $"dampers.{name}";
        if (file.ClosedLengthMm >= file.ExtendedLengthMm)
            context.Refuse($"{path}.closedLength_mm", $"the closed length must be less than the extended length ({file.ExtendedLengthMm} mm)");
        var curve = file.Curve is { } points ? ReadPoints(context, $"{path}.curve", points, file) : ReadDyno(context, $"{path}.dyno", file);
        if (curve is null)
            return null;
        if (curve.MinimumVelocity > -0.1 || curve.MaximumVelocity < 0.1)
            context.Warn(path, $"the curve covers {curve.MinimumVelocity} to {curve.MaximumVelocity} m/s; ordinary roads move dampers at 0.5 m/s and more, and beyond its ends the curve is extended straight");
        if (Math.Max(-curve.MinimumVelocity, curve.MaximumVelocity) > 10)
            context.Warn(path, $"the curve reaches {Math.Max(-curve.MinimumVelocity, curve.MaximumVelocity)} m/s; dampers seldom pass 3 m/s, are these mm/s?");
        if (file.TopMountStiffness is not null && !curve.IsStrictlyIncreasing)
        {
            context.Refuse($"{path}.topMountStiffness_N_per_mm", $"with an elastic top mount the curve must rise everywhere, so that each force has one velocity");
            return null;
        }

        return context.Make(path, () => new Damper(name, curve.Scaled(file.ForceScale))
        {
            Friction = file.Friction,
            FrictionVelocity = file.FrictionVelocity,
            GasForce = file.GasForce,
            TopMountStiffness = file.TopMountStiffness * Units.Kilo,
        });
    }

    private static ForceVelocityCurve? ReadPoints(ReadingContext context, string path, CurveFile points, DamperFile file)
    {
        if (!context.SameLength(path, points.Velocity, points.Force))
            return null;
        for (var i = 1; i < points.Velocity.Count; i++)
        {
            if (points.Velocity[i] <= points.Velocity[i - 1])
            {
                context.Refuse($"{path}.velocity_m_per_s[{i}]", $"it does not come after {points.Velocity[i - 1]} m/s; velocities must ascend and none may stand twice");
                return null;
            }
        }

        var curve = context.Make(path, () => ForceVelocityCurve.FromPoints(points.Velocity, points.Force, file.Interpolation));
        if (curve is null)
            return null;
        foreach (var push in curve.EnergyFaults)
            context.Refuse(push.Index is { } i ? $"{path}.force_N[{i}]" : path, Pushes(push));
        return curve;
    }

    private static ForceVelocityCurve? ReadDyno(ReadingContext context, string path, DamperFile file)
    {
        const string Velocity = "velocity_m_per_s";
        const string Force = "force_N";
        var table = context.Table(path, file.Dyno!, [Velocity, Force]);
        if (table is null)
            return null;
        return context.Make(path, () =>
        {
            table.RequireStrictlyAscending(Velocity);
            var (velocities, forces) = (table.Column(Velocity), table.Column(Force));
            var curve = ForceVelocityCurve.FromPoints(velocities, forces, file.Interpolation);
            var largest = forces.Max(Math.Abs);
            foreach (var push in curve.EnergyFaults)
            {
                var slight = Math.Abs(push.Force) <= MeasuredPushShare * largest;
                if (slight)
                    context.Warn(path, $"{(push.Index is { } line ? $"line {table.LineOf(line)}: " : "")}{Pushes(push)}");
                else
                    context.Faults.Add(push.Index is { } row ? table.FaultAt(row, Force, FormattableString.Invariant(Pushes(push))) : new DataFileFault(table.Path, null, null, null, FormattableString.Invariant(Pushes(push))));
            }

            return curve;
        });
    }

    private static FormattableString Pushes(EnergyFault push) =>
        push.Velocity == 0
            ? (FormattableString)$"the curve has {push.Force:G4} N at rest, so it pushes on one side of it; a damper takes energy out and needs 0 N at 0 m/s (a gas force has its own key)"
            : $"at {push.Velocity} m/s the force of {push.Force:G4} N pushes the way the damper moves; a damper takes energy out, so force and velocity need the same sign";
}
