namespace RollRide.Mounting;

/// <summary>From the rest position that points were given at to another one, the same on both sides: how far everything has risen above the road.</summary>
/// <param name="Body">Rise of the body <c>zs</c>, m.</param>
/// <param name="Unsprung">Rise of the axle, or of both wheels, <c>zu</c>, m.</param>
/// <param name="RollCentre">Rise of the roll centre, m.</param>
public readonly record struct RideHeightChange(double Body, double Unsprung, double RollCentre)
{
    /// <summary>Travel of the wheels against the body <c>q = zu − zs</c>, m, positive in bump.</summary>
    public double Travel => Unsprung - Body;
}
