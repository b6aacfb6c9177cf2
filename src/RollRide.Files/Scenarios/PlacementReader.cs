using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Packaging;

namespace RollRide.Scenarios;

/// <summary>Turns a placement into a fitting.</summary>
internal static class PlacementReader
{
    /// <summary>Reads the placement of a damper, which fits in every load state where packaging places it; null after a fault.</summary>
    public static IFitting? ReadDamper(ReadingContext context, string path, PlacementFile file) => Read(context, path, file, () => context.Bands);

    /// <summary>Reads the placement of a part of the vehicle, which is placed before it is known how the vehicle stands under a load; null after a fault.</summary>
    public static IFitting? Read(ReadingContext context, string path, PlacementFile file) => Read(context, path, file, () => context.DesignBands);

    private static IFitting? Read(ReadingContext context, string path, PlacementFile file, Func<PlacementBands?> bands)
    {
        var vehicle = context.File.Vehicle;
        var suspension = vehicle.Suspension;
        var halfTrack = vehicle.TrackMm / 2 * Unit.Millimetre.InSi;
        if (file.MotionRatios is { } ratios)
        {
            if (suspension.GuidesEachWheel && ratios.Heave != ratios.Roll)
            {
                context.Refuse(
                    $"{path}.motionRatios.roll",
                    $"on {suspension.Noun} each wheel moves its own element, so this must equal heave ({ratios.Heave})");
                return null;
            }

            return context.Make(path, () => new FixedRatioFitting(ratios.Heave, ratios.Roll, halfTrack));
        }

        if (file.Mounts is { } mounts)
        {
            if (!suspension.HasAxle)
            {
                context.Refuse($"{path}.mounts", $"these are mounts on a live axle, and this vehicle has {suspension.Noun}; give arm or motionRatios, or with vehicle.linkage onLinkage or strut");
                return null;
            }

            var before = context.Faults.Count;
            foreach (var (end, height) in new[] { ("axleEnd_mm", mounts.AxleEndMm[2]), ("bodyEnd_mm", mounts.BodyEndMm[2]) })
            {
                if (height <= 0)
                    context.Refuse($"{path}.mounts.{end}[2]", $"this end is under the road; z counts up from the road and must be greater than 0");
            }

            if (context.Faults.Count > before)
                return null;
            if (mounts.AxleEndMm[1] < 0)
                context.Warn($"{path}.mounts.axleEnd_mm[1]", $"the left element stands right of the centre plane; y counts to the left");
            if (context.Geometry is not { } geometry || IsInTyre(context, $"{path}.mounts", mounts))
                return null;
            return context.Make($"{path}.mounts", () => new LiveAxleMountFitting(
                Points.Space(mounts.AxleEndMm), Points.Space(mounts.BodyEndMm), geometry.RollCentreHeight, halfTrack));
        }

        if (file.OnLinkage is not null || file.Strut is not null)
            return ReadOnLinkage(context, path, file);
        if (file.Placed is { } side)
            return ReadPlaced(context, $"{path}.placed", side, halfTrack, bands);

        if (!suspension.GuidesEachWheel)
        {
            context.Refuse($"{path}.arm", $"this is an independent wheel's arm, and this vehicle has {suspension.Noun}; give mounts or motionRatios");
            return null;
        }

        return context.Make($"{path}.arm", () => new ArmMountFitting(
            Points.RearView(file.Arm!.PivotMm),
            Points.RearView(file.Arm.OuterJointMm),
            Points.RearView(file.Arm.ArmMountMm),
            Points.RearView(file.Arm.BodyMountMm),
            halfTrack));
    }

    /// <summary>Length between the mounts at ride height, m; null where only ratios are given.</summary>
    public static double? RestLength(IFitting fitting) => (fitting as IMountedElement)?.Length;

    private static LinkageMountFitting? ReadOnLinkage(ReadingContext context, string path, PlacementFile file)
    {
        string key = file.OnLinkage is null ? $"{path}.strut" : $"{path}.onLinkage";
        if (context.File.Vehicle.Linkage is null)
        {
            context.Refuse(key, $"the vehicle has no linkage; give vehicle.linkage, with the points of the left wheel");
            return null;
        }

        if (context.Geometry?.Linkage is not { } linkage)
            return null;
        if (file.OnLinkage is { } mounts)
            return context.Make(key, () => new LinkageMountFitting(linkage, mounts.Part, Points.Space(mounts.PartEndMm), Points.Space(mounts.BodyEndMm)));
        if (file.Strut != true || linkage is not StrutSuspension strut)
        {
            context.Refuse(key, $"this must be true, and vehicle.linkage a strut; otherwise leave it out");
            return null;
        }

        // Foot and top mount both lie on the strut's line at every travel, so its length is their distance.
        return context.Make(key, () => new LinkageMountFitting(
            strut, LinkagePart.Upright, new Point3(0, strut.StrutFoot.Y, strut.StrutFoot.Z), new Point3(0, strut.TopMount.Y, strut.TopMount.Z)));
    }

    private static LiveAxleMountFitting? ReadPlaced(ReadingContext context, string path, PlacedSide placed, double halfTrack, Func<PlacementBands?> bandsThere)
    {
        if (context.File.Packaging is null)
            context.Refuse(path, $"without packaging there is nothing to place the damper in; give it, or mounts");
        if (bandsThere() is not { } bands)
            return null;
        if (bands.On(SideOf(placed)) is { } band)
        {
            var mounts = bands.Space.Mounts;
            return context.Make(path, () => new LiveAxleMountFitting(mounts.AxleEndAt(band.Outer), mounts.BodyEndAt(band.Outer), bands.Space.RollCentreHeight, halfTrack));
        }

        context.Refuse(path, $"{WhyUnplaced(bands, placed)}");
        return null;
    }

    /// <summary>Why a side of the rail takes no damper, and what it would take; null where it takes one, or that is not known.</summary>
    public static string? WhyUnplaced(PlacementBands? known, PlacedSide placed)
    {
        var side = SideOf(placed);
        if (known is not { } bands || bands.On(side) is not null)
            return null;
        var shortfall = bands.Shortfalls.FirstOrDefault(slot => slot.Side == side || slot.Side == RailSide.Across);
        string missing = shortfall is null ? ""
            : shortfall.Walls.IsEmpty ? $"; in the way: {shortfall.Worst.Text}"
            : $": {string.Join(", or ", shortfall.Walls.Select(wall => $"the {wall.Wall} would have to go {wall.Words}"))}";
        return $"no damper fits there{missing}";
    }

    private static RailSide SideOf(PlacedSide side) => side == PlacedSide.InboardOfRail ? RailSide.Inboard : RailSide.Outboard;

    /// <summary>Whether a mount lies inside the tyre's room, where packaging gives one: a cylinder about the wheel's axis.</summary>
    private static bool IsInTyre(ReadingContext context, string path, MountsFile mounts)
    {
        if (context.File.Packaging?.Tyre is not { } tyre)
            return false;
        double halfTrack = context.File.Vehicle.TrackMm / 2;
        double inner = halfTrack - (tyre.WidthMm / 2) - ((context.File.Vehicle.Tyres.DualSpacingMm ?? 0) / 2);
        bool inside = false;
        foreach (var (end, point) in new[] { ("axleEnd_mm", mounts.AxleEndMm), ("bodyEnd_mm", mounts.BodyEndMm) })
        {
            double fromCentre = Math.Sqrt((point[0] * point[0]) + ((point[2] - tyre.CentreHeightMm) * (point[2] - tyre.CentreHeightMm)));
            if (point[1] <= inner || point[1] >= (2 * halfTrack) - inner || fromCentre >= tyre.RadiusMm)
                continue;
            context.Refuse($"{path}.{end}", $"this end lies inside the tyre: {point[1] - inner:F1} mm outboard of its inner wall (y = {inner:F1} mm)");
            inside = true;
        }

        return inside;
    }
}
