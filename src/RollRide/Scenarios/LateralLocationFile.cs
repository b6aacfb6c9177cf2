using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>What holds a live axle sideways.</summary>
[Description("What holds a live axle sideways. The height of the roll centre follows: Panhard rod, where the rod crosses the centre plane; Watt linkage, its pivot; leaf springs, the line through the eyes at the axle.")]
[ExactlyOneOf("panhardRod", "wattLinkage", "leafSprings")]
public sealed record LateralLocationFile
{
    /// <summary>A Panhard rod.</summary>
    [Key("panhardRod", "a rod across the vehicle from the axle to the body")]
    public PanhardRodFile? PanhardRod { get; init; }

    /// <summary>A Watt linkage.</summary>
    [Key("wattLinkage", "a Watt linkage")]
    public WattLinkageFile? WattLinkage { get; init; }

    /// <summary>Leaf springs.</summary>
    [Key("leafSprings", "leaf springs that hold the axle by themselves")]
    public LeafSpringsFile? LeafSprings { get; init; }
}

/// <summary>A Panhard rod.</summary>
[Description("A Panhard rod in the rear view; its ends lie on either side of the centre plane.")]
public sealed record PanhardRodFile
{
    /// <summary>End on the axle.</summary>
    [Key("axleEnd_mm", "end on the axle: y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> AxleEndMm { get; init; }

    /// <summary>End on the body.</summary>
    [Key("bodyEnd_mm", "end on the body: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> BodyEndMm { get; init; }
}

/// <summary>A Watt linkage.</summary>
[Description("A Watt linkage.")]
public sealed record WattLinkageFile
{
    /// <summary>Height of the pivot.</summary>
    [Key("pivotHeight_mm", "height of its centre pivot above the road")]
    [Between(-2000, 3000)]
    public required double PivotHeightMm { get; init; }
}

/// <summary>Leaf springs.</summary>
[Description("A leaf spring's eyes in the side view.")]
public sealed record LeafSpringsFile
{
    /// <summary>Front eye.</summary>
    [Key("frontEye_mm", "front eye: x forward from the axle (greater than 0), z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> FrontEyeMm { get; init; }

    /// <summary>Rear eye.</summary>
    [Key("rearEye_mm", "rear eye: x (less than 0), z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> RearEyeMm { get; init; }
}
