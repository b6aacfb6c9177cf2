namespace RollRide.Mounting;

/// <summary>
/// The motion of a rigid part in the rear view by the lower arm's angle: one point of it, and its turn, with first and second
/// derivatives.
/// </summary>
internal readonly record struct PlanarPart(
    PlaneVector Origin, PlaneVector OriginRate, PlaneVector OriginRateSlope, double Sin, double Cos, double TurnRate, double TurnRateSlope)
{
    /// <summary>The motion of a point at <paramref name="arm"/> from the origin when the part is not turned.</summary>
    public (PlaneVector Position, PlaneVector First, PlaneVector Second) PointAt(PlaneVector arm)
    {
        var rho = arm.Rotate(Sin, Cos);
        return (
            Origin + rho,
            OriginRate + (TurnRate * rho.Turned),
            OriginRateSlope + (TurnRateSlope * rho.Turned) - (TurnRate * TurnRate * rho));
    }
}
