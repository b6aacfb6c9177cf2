using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

[Description("Where an element (damper, spring, stop) of the left side sits; the right side mirrors it.")]
[ExactlyOneOf("motionRatios", "mounts", "arm", "onLinkage", "strut", "placed")]
internal sealed record PlacementFile
{
    [Key("motionRatios", "element travel over wheel travel, given as numbers (for a drawing that is not there yet)")]
    public MotionRatiosFile? MotionRatios { get; init; }

    [Key("mounts", "mount points of an element that stands between a live axle and the body, left side; the ratios follow")]
    public MountsFile? Mounts { get; init; }

    [Key("arm", "mount points of an element that stands between an independent wheel's arm and the body, left side; the ratio follows")]
    public ArmFile? Arm { get; init; }

    [Key("onLinkage", "mount points of an element between a part of the vehicle's linkage and the body, left side")]
    public OnLinkageFile? OnLinkage { get; init; }

    [Key("strut", "true: the element is the strut of the vehicle's linkage, from its foot to the top mount")]
    public bool? Strut { get; init; }

    [Key("placed", "the damper stands where packaging allows: the most outboard position of the band on that side of the frame rail; only for dampers")]
    public PlacedSide? Placed { get; init; }
}

/// <summary>A side of the frame rail.</summary>
internal enum PlacedSide
{
    /// <summary>Between the centre plane and the rail.</summary>
    InboardOfRail,

    /// <summary>Between the rail and the tyre.</summary>
    OutboardOfRail,
}

[Description("Mount points on a part of the vehicle's linkage at ride height: x forward from the axle, y to the left from the centre plane, z up from the road.")]
internal sealed record OnLinkageFile
{
    [Key("part", "the part that carries the element's outer end")]
    public required RollRide.Mounting.LinkagePart Part { get; init; }

    [Key("partEnd_mm", "the element's mount on that part: x, y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> PartEndMm { get; init; }

    [Key("bodyEnd_mm", "the element's mount on the body: x, y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> BodyEndMm { get; init; }
}

[Description("Motion ratios as numbers, the same at every travel.")]
internal sealed record MotionRatiosFile
{
    [Key("heave", "element travel over wheel travel when both wheels move together; 1 for an upright element on a live axle")]
    [Between(0, 3)]
    public required double Heave { get; init; }

    [Key("roll", "element travel over wheel travel when the wheels move oppositely; on independent suspension the same as heave")]
    [Between(0, 3)]
    public required double Roll { get; init; }
}

[Description("Mount points on a live axle at ride height: x forward from the axle, y to the left from the centre plane, z up from the road. The simulation uses the exact length between them.")]
internal sealed record MountsFile
{
    [Key("axleEnd_mm", "end on the axle: x forward from the axle, y to the left from the centre plane, z up from the road, at ride height")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> AxleEndMm { get; init; }

    [Key("bodyEnd_mm", "end on the body: x, y, z as for the axle end")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> BodyEndMm { get; init; }
}

[Description("Mount points on the arm of an independent wheel at ride height, in the rear view: y to the left from the centre plane, z up from the road.")]
internal sealed record ArmFile
{
    [Key("pivot_mm", "the arm's pivot on the body: y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> PivotMm { get; init; }

    [Key("outerJoint_mm", "the arm's outer joint, which rises and falls with the wheel: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> OuterJointMm { get; init; }

    [Key("armMount_mm", "the element's mount on the arm: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> ArmMountMm { get; init; }

    [Key("bodyMount_mm", "the element's mount on the body: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> BodyMountMm { get; init; }
}
