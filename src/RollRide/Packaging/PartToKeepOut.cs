namespace RollRide.Packaging;

/// <summary>A part of the damper against a keep-out.</summary>
/// <remarks>
/// To slide the damper either way along the body, or along the axle, is to widen what is fixed there by as much on both sides. If what is left of
/// a narrowed keep-out is in the way, the keep-out is at every position.
/// </remarks>
internal sealed record PartToKeepOut(KeepOut KeepOut) : Pair
{
    public override double Gap(Scene scene, double slide) => KeepOut.Outer - KeepOut.Inner + (2 * slide) < 0
        ? double.PositiveInfinity
        : OrientedBox.Distance(scene.Part(Part!.Value, ofOther: false), scene.Place(KeepOut, slide)) - Allowance(scene);

    public override double Sway(Scene scene, double slide, double heave, double roll) =>
        scene.PartMotion(Part!.Value, KeepOut.MovesWithAxle, scene.EndMotion(slide, heave, roll));

    public override double Allowance(Scene scene) => Clearance + scene.Damper.Radius(Part!.Value);
}
