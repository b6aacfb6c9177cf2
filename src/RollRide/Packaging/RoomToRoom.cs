namespace RollRide.Packaging;

/// <summary>A keep-out that moves with the axle against one fixed to the body, wherever the damper stands.</summary>
internal sealed record RoomToRoom(KeepOut Axle, KeepOut Body) : Pair
{
    public override double Gap(Scene scene, double slide) => OrientedBox.Distance(scene.Place(Axle), scene.Place(Body));

    public override double MotionBound(Scene scene, double slide, double heave, double roll) => heave + (scene.ReachOf(Axle) * roll);

    public override double Allowance(Scene scene) => 0;
}
