namespace RollRide.Mounting;

/// <summary>Where a point of a linkage is, and its first and second derivatives, by wheel travel or by the angle of an arm.</summary>
internal readonly record struct PointMotion(SpaceVector Position, SpaceVector First, SpaceVector Second)
{
    /// <summary>
    /// Turns derivatives by an angle <c>α</c> into derivatives by the travel <c>d(α)</c>: <c>α' = 1/d_α</c> and
    /// <c>α'' = −d_αα/d_α³</c>.
    /// </summary>
    public PointMotion ByTravel(double travelByAngle, double travelByAngleTwice)
    {
        double rate = 1 / travelByAngle;
        return new(Position, rate * First, rate * rate * (Second - (travelByAngleTwice * rate * First)));
    }
}
