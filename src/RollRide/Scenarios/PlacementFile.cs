using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>Where an element of the left side sits; the right side mirrors it.</summary>
[Description("Where an element (damper, spring, stop) of the left side sits; the right side mirrors it.")]
[ExactlyOneOf("motionRatios", "mounts", "arm", "onLinkage", "strut", "placed")]
public sealed record PlacementFile
{
    /// <summary>Given ratios.</summary>
    [Key("motionRatios", "element travel over wheel travel, given as numbers (for a drawing that is not there yet)")]
    public MotionRatiosFile? MotionRatios { get; init; }

    /// <summary>Mounts on a live axle.</summary>
    [Key("mounts", "mount points of an element that stands between a live axle and the body, left side; the ratios follow")]
    public MountsFile? Mounts { get; init; }

    /// <summary>Mounts on an independent wheel's arm.</summary>
    [Key("arm", "mount points of an element that stands between an independent wheel's arm and the body, left side; the ratio follows")]
    public ArmFile? Arm { get; init; }

    /// <summary>Mounts on a part of the vehicle's linkage.</summary>
    [Key("onLinkage", "mount points of an element between a part of the vehicle's linkage and the body, left side")]
    public OnLinkageFile? OnLinkage { get; init; }

    /// <summary>The strut of a strut suspension.</summary>
    [Key("strut", "true: the element is the strut of the vehicle's linkage, from its foot to the top mount")]
    public bool? Strut { get; init; }

    /// <summary>The best position of a band.</summary>
    [Key("placed", "the damper stands where packaging allows: the most outboard position of the band on that side of the frame rail; only for dampers")]
    public PlacedSide? Placed { get; init; }
}

/// <summary>A side of the frame rail.</summary>
public enum PlacedSide
{
    /// <summary>Between the centre plane and the rail.</summary>
    InboardOfRail,

    /// <summary>Between the rail and the tyre.</summary>
    OutboardOfRail,
}

/// <summary>Mount points on a part of the vehicle's linkage.</summary>
[Description("Mount points on a part of the vehicle's linkage at ride height: x forward from the axle, y to the left from the centre plane, z up from the road.")]
public sealed record OnLinkageFile
{
    /// <summary>The part.</summary>
    [Key("part", "the part that carries the element's outer end")]
    public required RollRide.Mounting.LinkagePart Part { get; init; }

    /// <summary>Mount on the part.</summary>
    [Key("partEnd_mm", "the element's mount on that part: x, y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> PartEndMm { get; init; }

    /// <summary>Mount on the body.</summary>
    [Key("bodyEnd_mm", "the element's mount on the body: x, y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> BodyEndMm { get; init; }
}

/// <summary>Motion ratios as numbers.</summary>
[Description("Motion ratios as numbers, the same at every travel.")]
public sealed record MotionRatiosFile
{
    /// <summary>Ratio in heave.</summary>
    [Key("heave", "element travel over wheel travel when both wheels move together; 1 for an upright element on a live axle")]
    [Between(0, 3)]
    public required double Heave { get; init; }

    /// <summary>Ratio in roll.</summary>
    [Key("roll", "element travel over wheel travel when the wheels move oppositely; for an upright element on a live axle its distance from the centre plane over half the track; on independent suspension the same as heave")]
    [Between(0, 3)]
    public required double Roll { get; init; }
}

/// <summary>Mount points on a live axle.</summary>
[Description("Mount points on a live axle at ride height: x forward from the axle, y to the left from the centre plane, z up from the road. The simulation uses the exact length between them.")]
public sealed record MountsFile
{
    /// <summary>End on the axle.</summary>
    [Key("axleEnd_mm", "end on the axle: x forward from the axle, y to the left from the centre plane, z up from the road, at ride height")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> AxleEndMm { get; init; }

    /// <summary>End on the body.</summary>
    [Key("bodyEnd_mm", "end on the body: x, y, z as for the axle end")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> BodyEndMm { get; init; }
}

/// <summary>Mount points on the lower arm of an independent wheel, in the rear view.</summary>
[Description("Mount points on the arm of an independent wheel at ride height, in the rear view: y to the left from the centre plane, z up from the road.")]
public sealed record ArmFile
{
    /// <summary>Pivot of the arm.</summary>
    [Key("pivot_mm", "the arm's pivot on the body: y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> PivotMm { get; init; }

    /// <summary>Outer joint.</summary>
    [Key("outerJoint_mm", "the arm's outer joint, which rises and falls with the wheel: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> OuterJointMm { get; init; }

    /// <summary>Mount on the arm.</summary>
    [Key("armMount_mm", "the element's mount on the arm: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> ArmMountMm { get; init; }

    /// <summary>Mount on the body.</summary>
    [Key("bodyMount_mm", "the element's mount on the body: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> BodyMountMm { get; init; }
}
