namespace RollRide.Packaging;

/// <summary>A part of the damper against a keep-out.</summary>
/// <remarks>
/// Sliding the damper either way along the body, or along the axle, is the same as widening the keep-out there by as much on both sides. If even
/// the narrowed keep-out is in the way, the keep-out itself is in the way at every position.
/// </remarks>
internal sealed record PartToKeepOut(KeepOut KeepOut) : Pair
{
    public override double Gap(Scene scene, double slide) => KeepOut.Outer - KeepOut.Inner + (2 * slide) < 0
        ? double.PositiveInfinity
        : OrientedBox.Distance(scene.Part(Part!.Value, ofOther: false), scene.Place(KeepOut, slide)) - Allowance(scene);

    public override double MotionBound(Scene scene, double slide, double heave, double roll) =>
        scene.PartMotion(Part!.Value, KeepOut.MovesWithAxle, scene.EndMotion(slide, heave, roll));

    public override double Allowance(Scene scene) => Clearance + scene.Damper.Radius(Part!.Value);
}
