using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

[Description("What guides an independent wheel at ride height: the left one, the right mirrors it. The wheel centre stands at half the track, above the axle's x = 0.")]
[ExactlyOneOf("doubleWishbone", "strut", "trailingArm")]
internal sealed record LinkageFile
{
    [Key("wheelCentreHeight_mm", "height of the wheel centre above the road")]
    [Between(1, 5000)]
    public required double WheelCentreHeightMm { get; init; }

    [Key("doubleWishbone", "two arms joined by the upright, in the rear view; parts: lowerArm, upperArm, upright")]
    public DoubleWishboneFile? DoubleWishbone { get; init; }

    [Key("strut", "a lower arm and a strut that carries the upright, in the rear view; parts: lowerArm, upright")]
    public StrutFile? Strut { get; init; }

    [Key("trailingArm", "an arm that turns about a fixed axis: trailing, semi-trailing or swing axle; part: trailingArm")]
    public TrailingArmFile? TrailingArm { get; init; }
}

[Description("A double wishbone in the rear view.")]
internal sealed record DoubleWishboneFile
{
    [Key("lowerPivot_mm", "the lower arm's pivot on the body: y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> LowerPivotMm { get; init; }

    [Key("lowerJoint_mm", "joint of lower arm and upright: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> LowerJointMm { get; init; }

    [Key("upperPivot_mm", "the upper arm's pivot on the body: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> UpperPivotMm { get; init; }

    [Key("upperJoint_mm", "joint of upper arm and upright: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> UpperJointMm { get; init; }
}

[Description("A strut suspension in the rear view.")]
internal sealed record StrutFile
{
    [Key("lowerPivot_mm", "the lower arm's pivot on the body: y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> LowerPivotMm { get; init; }

    [Key("lowerJoint_mm", "joint of lower arm and upright: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> LowerJointMm { get; init; }

    [Key("foot_mm", "the strut's lower end on its axis, fixed to the upright: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> FootMm { get; init; }

    [Key("topMount_mm", "the strut's top mount on the body: y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public required IReadOnlyList<double> TopMountMm { get; init; }
}

[Description("An arm that turns about the axis through its two pivots.")]
internal sealed record TrailingArmFile
{
    [Key("innerPivot_mm", "one pivot on the body: x forward from the axle, y to the left from the centre plane, z up from the road")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> InnerPivotMm { get; init; }

    [Key("outerPivot_mm", "the other pivot: x, y, z")]
    [Between(-10_000, 10_000)]
    [MinCount(3)]
    [MaxCount(3)]
    public required IReadOnlyList<double> OuterPivotMm { get; init; }
}
