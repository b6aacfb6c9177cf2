using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns dampers and layouts of a file into records.</summary>
internal static class LayoutReader
{
    // A damper this far out would stand in the tyre or beside the vehicle; common practice, no source.
    private const double OutermostRollRatio = 1.2;

    /// <summary>Reads all layouts in order; null in the place of one with a fault.</summary>
    public static ImmutableArray<DamperLayout?> Read(ReadingContext context)
    {
        var file = context.File;
        var dampers = context.Dampers;
        foreach (var unused in file.Dampers.Keys.Except(file.Layouts.Select(layout => layout.Damper)).Where(name => name != file.Packaging?.Damper))
            context.Warn(ReadingContext.PathOfEntry("dampers", unused), $"no layout uses this damper");
        for (var i = 0; i < file.Layouts.Count; i++)
        {
            var earlier = file.Layouts.Take(i).ToList().FindIndex(other => IsSameName(other.Name, file.Layouts[i].Name));
            if (earlier >= 0)
                context.Refuse($"layouts[{i}].name", $"layouts[{earlier}] has this name; each layout needs its own, and upper or lower case makes no difference");
        }

        return [.. file.Layouts.Select((layout, i) => ReadLayout(context, $"layouts[{i}]", layout, dampers))];
    }

    private static bool IsSameName(string one, string other) => string.Equals(one.Trim(), other.Trim(), StringComparison.OrdinalIgnoreCase);

    private static DamperLayout? ReadLayout(ReadingContext context, string path, LayoutFile file, Dictionary<string, Damper?> dampers)
    {
        if (context.SetsUnplacedAside && file.Placement.Placed is { } side && PlacementReader.WhyUnplaced(context.Bands, side) is { } reason)
        {
            context.Unplaced.Add(new UnplacedLayout(file.Name, reason));
            return null;
        }

        var fitting = PlacementReader.ReadDamper(context, $"{path}.placement", file.Placement);
        if (!dampers.TryGetValue(file.Damper, out var damper))
        {
            var question = NearestName.Ask(file.Damper, dampers.Keys);
            context.Refuse($"{path}.damper", $"there is no such damper; {(question is null ? "" : question + " ")}known in dampers: {string.Join(", ", dampers.Keys)}");
        }

        if (fitting is null || damper is null)
            return null;
        if (fitting.HeaveRatio <= 0)
        {
            context.Refuse($"{path}.placement", $"the damper's heave ratio is {fitting.HeaveRatio:G4}; it must be greater than 0: the damper must be compressed when the wheel rises");
            return null;
        }

        if (Math.Abs(fitting.RollRatio) > OutermostRollRatio)
            context.Warn($"{path}.placement", $"the damper's roll ratio is {fitting.RollRatio:F2}: it stands well outside the tyre contact");
        return ReadTravel(context, path, file, fitting) is not { } travel
            ? null
            : context.Make(path, () => new DamperLayout
            {
                Name = file.Name,
                Fitting = fitting,
                Damper = damper,
                IsCandidate = file.Candidate,
                CompressionTravel = travel.Compression,
                ReboundTravel = travel.Rebound,
            });
    }

    /// <summary>What is left of the damper's stroke at ride height, both ways; null after a fault.</summary>
    private static (double? Compression, double? Rebound)? ReadTravel(ReadingContext context, string path, LayoutFile layout, IFitting fitting)
    {
        var file = context.File.Dampers[layout.Damper];
        if (file.ClosedLengthMm is null && file.ExtendedLengthMm is null)
            return (null, null);
        if (PlacementReader.RestLength(fitting) is not { } length)
        {
            context.Warn($"{path}.placement", $"ratios alone do not tell the distance between mounts, so the lengths of damper “{layout.Damper}” are not checked");
            return (null, null);
        }

        var rest = Unit.Millimetre.Of(length);
        if (file.ClosedLengthMm >= rest)
        {
            context.Refuse($"{path}.placement", $"the mounts are {rest:F1} mm apart at ride height, but damper “{layout.Damper}” is {file.ClosedLengthMm} mm long when closed: {file.ClosedLengthMm - rest:F1} mm are missing");
            return null;
        }

        if (file.ExtendedLengthMm <= rest)
        {
            context.Refuse($"{path}.placement", $"the mounts are {rest:F1} mm apart at ride height, but damper “{layout.Damper}” reaches only {file.ExtendedLengthMm} mm when extended: {rest - file.ExtendedLengthMm:F1} mm are missing");
            return null;
        }

        return ((rest - file.ClosedLengthMm) * Unit.Millimetre.InSi, (file.ExtendedLengthMm - rest) * Unit.Millimetre.InSi);
    }
}
