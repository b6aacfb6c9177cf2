using RollRide.Mounting;

namespace RollRide.Packaging;

/// <summary>A point in the rear view with its derivatives by heave (m/m) and by roll (m/rad).</summary>
internal readonly record struct MovingPoint(PlaneVector Position, PlaneVector ByHeave, PlaneVector ByRoll)
{
    /// <summary>The point of the other side that mirrors this one, this one being taken at the opposite roll.</summary>
    public MovingPoint Mirrored => new(new(-Position.Y, Position.Z), new(-ByHeave.Y, ByHeave.Z), new(ByRoll.Y, -ByRoll.Z));
}
