namespace RollRide.Mounting;

/// <summary>What holds a live axle sideways, and with it the height of the roll centre.</summary>
public abstract record LateralLocation
{
    /// <summary>Height of the roll centre above the ground at ride height, m.</summary>
    public abstract double RollCentreHeight { get; }

    /// <summary>
    /// How far the roll centre follows the body when the ride height changes, <c>σ</c>: 0 where it stays on the axle, 1 where it moves with the
    /// body.
    /// </summary>
    public abstract double RollCentreBodyShare { get; }
}
