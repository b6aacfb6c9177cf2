namespace RollRide.Packaging;

/// <summary>A length that the damper must not exceed, or not fall short of, m.</summary>
internal sealed record LengthLimit(double Length, bool IsMost) : Pair
{
    public override double Gap(Scene scene, double slide) => IsMost ? Length - scene.Damper.Length : scene.Damper.Length - Length;

    public override double MotionBound(Scene scene, double slide, double heave, double roll) => scene.EndMotion(slide, heave, roll);

    public override double Allowance(Scene scene) => Length;
}
