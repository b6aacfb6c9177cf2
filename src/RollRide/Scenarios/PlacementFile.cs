using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>Where an element of the left side sits; the right side mirrors it.</summary>
[ExactlyOneOf("motionRatios", "mounts", "arm")]
public sealed record PlacementFile
{
    /// <summary>Given ratios.</summary>
    [Key("motionRatios", "element travel over wheel travel, given as numbers")]
    public MotionRatiosFile? MotionRatios { get; init; }

    /// <summary>Mounts on a live axle.</summary>
    [Key("mounts", "mount points between a live axle and the body, left side")]
    public MountsFile? Mounts { get; init; }

    /// <summary>Mounts on an independent wheel's arm.</summary>
    [Key("arm", "mount points on the lower arm of an independent wheel, left side")]
    public ArmFile? Arm { get; init; }
}

/// <summary>Motion ratios as numbers.</summary>
public sealed record MotionRatiosFile
{
    /// <summary>Ratio in heave.</summary>
    [Key("heave", "element travel over wheel travel when both wheels move together")]
    [Between(0, 3)]
    public required double Heave { get; init; }

    /// <summary>Ratio in roll.</summary>
    [Key("roll", "element travel over wheel travel when the wheels move oppositely; on independent suspension the same as heave")]
    [Between(0, 3)]
    public required double Roll { get; init; }
}

/// <summary>Mount points on a live axle.</summary>
public sealed record MountsFile
{
    /// <summary>End on the axle.</summary>
    [Key("axleEnd_mm", "end on the axle: x forward from the axle, y to the left from the centre plane, z up from the road, at ride height")]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> AxleEndMm { get; init; }

    /// <summary>End on the body.</summary>
    [Key("bodyEnd_mm", "end on the body: x, y, z as for the axle end")]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> BodyEndMm { get; init; }
}

/// <summary>Mount points on the lower arm of an independent wheel, in the rear view.</summary>
public sealed record ArmFile
{
    /// <summary>Pivot of the arm.</summary>
    [Key("pivot_mm", "the arm's pivot on the body: y to the left from the centre plane, z up from the road")]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> PivotMm { get; init; }

    /// <summary>Outer joint.</summary>
    [Key("outerJoint_mm", "the arm's outer joint, which rises and falls with the wheel: y, z")]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> OuterJointMm { get; init; }

    /// <summary>Mount on the arm.</summary>
    [Key("armMount_mm", "the element's mount on the arm: y, z")]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> ArmMountMm { get; init; }

    /// <summary>Mount on the body.</summary>
    [Key("bodyMount_mm", "the element's mount on the body: y, z")]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> BodyMountMm { get; init; }
}
