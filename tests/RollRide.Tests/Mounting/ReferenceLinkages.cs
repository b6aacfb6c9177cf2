using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

/// <summary>Linkages of everyday proportions; all invented.</summary>
internal static class ReferenceLinkages
{
    public const double HalfTrack = 0.78;
    public const double WheelCentreHeight = 0.31;

    public static DoubleWishbone DoubleWishbone { get; } = new(new(0.36, 0.21), new(0.71, 0.18), new(0.43, 0.46), new(0.67, 0.49), WheelCentreHeight, HalfTrack);

    public static StrutSuspension Strut { get; } = new(new(0.35, 0.22), new(0.72, 0.19), new(0.64, 0.27), new(0.57, 0.82), WheelCentreHeight, HalfTrack);

    /// <summary>An axis slanting by about 20 degrees in the plan view and a little in the rear view.</summary>
    public static TrailingArm SemiTrailing { get; } = new(new(0.32, 0.25, 0.28), new(0.47, 0.65, 0.31), WheelCentreHeight, HalfTrack);

    public static IReadOnlyList<LinkageMountFitting> Fittings { get; } =
    [
        new(DoubleWishbone, LinkagePart.LowerArm, new(0, 0.60, 0.20), new(0.05, 0.52, 0.70)),
        new(DoubleWishbone, LinkagePart.UpperArm, new(0, 0.58, 0.49), new(0, 0.50, 0.85)),
        new(DoubleWishbone, LinkagePart.Upright, new(0, 0.69, 0.25), new(0, 0.55, 0.75)),
        new(Strut, LinkagePart.LowerArm, new(0, 0.55, 0.22), new(0, 0.50, 0.72)),
        new(Strut, LinkagePart.Upright, new(0, 0.64, 0.27), new(0, 0.57, 0.82)),
        new(SemiTrailing, LinkagePart.TrailingArm, new(-0.08, 0.68, 0.25), new(0.02, 0.60, 0.72)),
    ];

    public static TheoryData<int> FittingIndices { get; } = [.. Enumerable.Range(0, Fittings.Count)];

    /// <summary>Travels through bump and rebound, none of them zero but one, m.</summary>
    public static IReadOnlyList<double> Travels { get; } = [-0.10, -0.07, -0.03, 0, 0.02, 0.05, 0.09];
}
