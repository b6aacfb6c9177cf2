using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

[Description("What holds a live axle sideways. The height of the roll centre follows: Panhard rod, where the rod crosses the centre plane; Watt linkage, its pivot; leaf springs, the line through the eyes at the axle.")]
[ExactlyOneOf("panhardRod", "wattLinkage", "leafSprings")]
internal sealed record LateralLocationFile
{
    [Key("panhardRod", "a rod across the vehicle from the axle to the body")]
    public PanhardRodFile? PanhardRod { get; init; }

    [Key("wattLinkage", "a Watt linkage")]
    public WattLinkageFile? WattLinkage { get; init; }

    [Key("leafSprings", "leaf springs that hold the axle by themselves")]
    public LeafSpringsFile? LeafSprings { get; init; }
}

[Description("A Panhard rod in the rear view; its ends lie on either side of the centre plane.")]
internal sealed record PanhardRodFile
{
    [Key("axleEnd_mm", "end on the axle: y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> AxleEndMm { get; init; }

    [Key("bodyEnd_mm", "end on the body: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> BodyEndMm { get; init; }
}

[Description("A Watt linkage.")]
internal sealed record WattLinkageFile
{
    [Key("pivotHeight_mm", "height of its centre pivot above the road")]
    [Between(-2000, 3000)]
    public required double PivotHeightMm { get; init; }

    [Key("pivotOn", "what carries the pivot: axle, or body, with which it then sinks under a load")]
    public PivotPlace PivotOn { get; init; }
}

/// <summary>What carries a Watt linkage's pivot.</summary>
internal enum PivotPlace
{
    /// <summary>The axle.</summary>
    Axle,

    /// <summary>The body.</summary>
    Body,
}

[Description("A leaf spring's eyes in the side view.")]
internal sealed record LeafSpringsFile
{
    [Key("frontEye_mm", "front eye: x forward from the axle (greater than 0), z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> FrontEyeMm { get; init; }

    [Key("rearEye_mm", "rear eye: x (less than 0), z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> RearEyeMm { get; init; }
}
