namespace RollRide.Packaging;

/// <summary>A part of the left damper against one of the right.</summary>
internal sealed record PartToOtherDamper(DamperPart Other) : Pair
{
    // The slide moves both dampers outboard or both inboard, so their distance changes by twice as much.
    public override double Gap(Scene scene, double slide) =>
        OrientedBox.Distance(scene.Part(Part!.Value, ofOther: false), scene.Part(Other, ofOther: true)) - Allowance(scene) - (2 * slide);

    public override double MotionBound(Scene scene, double slide, double heave, double roll)
    {
        bool seenFromAxle = DamperShape.IsAtAxle(Part!.Value) && DamperShape.IsAtAxle(Other);
        double ends = scene.EndMotion(slide, heave, roll);
        return scene.PartMotion(Part.Value, seenFromAxle, ends) + scene.PartMotion(Other, seenFromAxle, ends);
    }

    public override double Allowance(Scene scene) => Clearance + scene.Damper.Radius(Part!.Value) + scene.Damper.Radius(Other);
}
