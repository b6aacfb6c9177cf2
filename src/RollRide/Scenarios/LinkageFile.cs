using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>What guides an independent wheel: the left one, the right mirrors it.</summary>
[Description("What guides an independent wheel at ride height: the left one, the right mirrors it. The wheel centre stands at half the track, above the axle's x = 0.")]
[ExactlyOneOf("doubleWishbone", "strut", "trailingArm")]
public sealed record LinkageFile
{
    /// <summary>Height of the wheel centre.</summary>
    [Key("wheelCentreHeight_mm", "height of the wheel centre above the road")]
    [Between(1, 5000)]
    public required double WheelCentreHeightMm { get; init; }

    /// <summary>A double wishbone.</summary>
    [Key("doubleWishbone", "two arms joined by the upright, in the rear view; parts: lowerArm, upperArm, upright")]
    public DoubleWishboneFile? DoubleWishbone { get; init; }

    /// <summary>A strut.</summary>
    [Key("strut", "a lower arm and a strut that carries the upright, in the rear view; parts: lowerArm, upright")]
    public StrutFile? Strut { get; init; }

    /// <summary>A trailing or semi-trailing arm.</summary>
    [Key("trailingArm", "an arm that turns about a fixed axis: trailing, semi-trailing or swing axle; part: trailingArm")]
    public TrailingArmFile? TrailingArm { get; init; }
}

/// <summary>A double wishbone.</summary>
[Description("A double wishbone in the rear view.")]
public sealed record DoubleWishboneFile
{
    /// <summary>Lower pivot.</summary>
    [Key("lowerPivot_mm", "the lower arm's pivot on the body: y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> LowerPivotMm { get; init; }

    /// <summary>Lower joint.</summary>
    [Key("lowerJoint_mm", "joint of lower arm and upright: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> LowerJointMm { get; init; }

    /// <summary>Upper pivot.</summary>
    [Key("upperPivot_mm", "the upper arm's pivot on the body: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> UpperPivotMm { get; init; }

    /// <summary>Upper joint.</summary>
    [Key("upperJoint_mm", "joint of upper arm and upright: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> UpperJointMm { get; init; }
}

/// <summary>A strut suspension.</summary>
[Description("A strut suspension in the rear view.")]
public sealed record StrutFile
{
    /// <summary>Lower pivot.</summary>
    [Key("lowerPivot_mm", "the lower arm's pivot on the body: y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> LowerPivotMm { get; init; }

    /// <summary>Lower joint.</summary>
    [Key("lowerJoint_mm", "joint of lower arm and upright: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> LowerJointMm { get; init; }

    /// <summary>Foot.</summary>
    [Key("foot_mm", "the strut's lower end on its axis, fixed to the upright: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> FootMm { get; init; }

    /// <summary>Top mount.</summary>
    [Key("topMount_mm", "the strut's top mount on the body: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> TopMountMm { get; init; }
}

/// <summary>A trailing or semi-trailing arm.</summary>
[Description("An arm that turns about the axis through its two pivots.")]
public sealed record TrailingArmFile
{
    /// <summary>Inner pivot.</summary>
    [Key("innerPivot_mm", "one pivot on the body: x forward from the axle, y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> InnerPivotMm { get; init; }

    /// <summary>Outer pivot.</summary>
    [Key("outerPivot_mm", "the other pivot: x, y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> OuterPivotMm { get; init; }
}
