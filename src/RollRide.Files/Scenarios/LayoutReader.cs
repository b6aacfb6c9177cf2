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
        foreach (var unused in file.Dampers.Keys.Except(file.Layouts.SelectMany(DampersOf)).Except(file.WholeVehicle?.OtherAxle.Layout is { } other ? DampersOf(other) : []).Where(name => name != file.Packaging?.Damper))
            context.Warn(ReadingContext.PathOfEntry("dampers", unused), $"no layout uses this damper");
        for (var i = 0; i < file.Layouts.Count; i++)
        {
            var earlier = file.Layouts.Take(i).ToList().FindIndex(other => IsSameName(other.Name, file.Layouts[i].Name));
            if (earlier >= 0)
                context.Refuse($"layouts[{i}].name", $"layouts[{earlier}] has this name; each layout needs its own, and upper or lower case makes no difference");
        }

        return [.. file.Layouts.Select((layout, i) => ReadLayout(context, $"layouts[{i}]", layout, dampers))];
    }

    /// <summary>Reads the first layout alone; null after a fault.</summary>
    public static DamperLayout? ReadFirst(ReadingContext context) => ReadLayout(context, "layouts[0]", context.File.Layouts[0], context.Dampers);

    private static bool IsSameName(string one, string other) => string.Equals(one.Trim(), other.Trim(), StringComparison.OrdinalIgnoreCase);

    private static DamperLayout? ReadLayout(ReadingContext context, string path, LayoutFile file, Dictionary<string, Damper?> dampers)
    {
        if (context.SetsUnplacedAside && file.Placement.Placed is { } side && PlacementReader.WhyUnplaced(context.Bands, side) is { } reason)
        {
            context.Unplaced.Add(new UnplacedLayout(file.Name, reason));
            return null;
        }

        if (ReadSide(context, path, file, file.Left, "left", dampers) is not { } left)
            return null;
        var right = file.Left is null && file.Right is null ? null : ReadSide(context, path, file, file.Right, "right", dampers);
        if (right is null && (file.Left ?? file.Right) is not null)
            return null;
        if (right is not null && (file.Left?.Placement ?? file.Right?.Placement) is null)
            right = right with { Fitting = left.Fitting }; // one place for both, so that what depends on it alone is found once
        if (right is not null && (right.Damper.TopMountStiffness is null) != (left.Damper.TopMountStiffness is null))
        {
            context.Refuse(path, $"one damper has topMountStiffness_N_per_mm and the other has none; give both a stiffness; 10000 is nearly rigid");
            return null;
        }

        return context.Make(path, () => new DamperLayout
        {
            Name = file.Name,
            Fitting = left.Fitting,
            Damper = left.Damper,
            IsCandidate = file.Candidate,
            CompressionTravel = left.CompressionTravel,
            ReboundTravel = left.ReboundTravel,
            RightSide = right,
        });
    }

    /// <summary>Names of the dampers of a layout.</summary>
    public static IEnumerable<string> DampersOf(LayoutFile layout) =>
        new[] { layout.Left?.Damper ?? layout.Damper, layout.Right?.Damper ?? layout.Damper };

    /// <summary>Reads the damper of one side: as given for both, with what this side has of its own; null after a fault.</summary>
    private static DamperSide? ReadSide(ReadingContext context, string path, LayoutFile file, LayoutSideFile? own, string name, Dictionary<string, Damper?> dampers)
    {
        var (damperName, damperPath) = own?.Damper is { } chosen ? (chosen, $"{path}.{name}.damper") : (file.Damper, $"{path}.damper");
        var (placement, placementPath) = own?.Placement is { } place ? (place, $"{path}.{name}.placement") : (file.Placement, $"{path}.placement");
        var fitting = PlacementReader.ReadDamper(context, placementPath, placement);
        if (!dampers.TryGetValue(damperName, out var damper))
        {
            var question = NearestName.Ask(damperName, dampers.Keys);
            context.Refuse(damperPath, $"there is no such damper; {(question is null ? "" : question + " ")}known: {string.Join(", ", dampers.Keys)}");
        }

        if (fitting is null || damper is null)
            return null;
        var (state, statePath) = own?.DamperState is { } ownState ? (ownState, $"{path}.{name}.damperState") : (file.DamperState, $"{path}.damperState");
        if (state is not null && damper.States.All(known => known.Name != state))
        {
            context.Refuse(statePath, $"damper “{damperName}” has no such state; {(damper.States.IsEmpty ? "it has none" : $"known: {string.Join(", ", damper.States.Select(known => known.Name))}")}");
            return null;
        }

        damper = damper.KeptIn(state);
        if (fitting.HeaveRatio <= 0)
        {
            context.Refuse(placementPath, $"the damper's heave ratio is {fitting.HeaveRatio:G4}; it must be greater than 0: the damper must be compressed when the wheel rises");
            return null;
        }

        if (Math.Abs(fitting.RollRatio) > OutermostRollRatio)
            context.Warn(placementPath, $"the damper's roll ratio is {fitting.RollRatio:F2}: it stands well outside the tyre contact");
        return ReadTravel(context, placementPath, damperName, fitting) is not { } travel
            ? null
            : context.Make(placementPath, () => new DamperSide(fitting, damper) { CompressionTravel = travel.Compression, ReboundTravel = travel.Rebound });
    }

    /// <summary>What is left of the damper's stroke at ride height, both ways; null after a fault.</summary>
    private static (double? Compression, double? Rebound)? ReadTravel(ReadingContext context, string path, string damper, IFitting fitting)
    {
        var file = context.File.Dampers[damper];
        if (file.ClosedLengthMm is null && file.ExtendedLengthMm is null)
            return (null, null);
        if (PlacementReader.RestLength(fitting) is not { } length)
        {
            context.Warn(path, $"ratios alone do not tell the distance between mounts, so the lengths of damper “{damper}” are not checked");
            return (null, null);
        }

        var rest = Unit.Millimetre.Of(length);
        if (file.ClosedLengthMm >= rest)
        {
            context.Refuse(path, $"the mounts are {rest:F1} mm apart at ride height, but damper “{damper}” is {file.ClosedLengthMm} mm long when closed: {file.ClosedLengthMm - rest:F1} mm are missing");
            return null;
        }

        if (file.ExtendedLengthMm <= rest)
        {
            context.Refuse(path, $"the mounts are {rest:F1} mm apart at ride height, but damper “{damper}” reaches only {file.ExtendedLengthMm} mm when extended: {rest - file.ExtendedLengthMm:F1} mm are missing");
            return null;
        }

        return ((rest - file.ClosedLengthMm) * Unit.Millimetre.InSi, (file.ExtendedLengthMm - rest) * Unit.Millimetre.InSi);
    }
}
