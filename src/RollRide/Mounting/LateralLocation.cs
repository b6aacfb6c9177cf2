namespace RollRide.Mounting;

/// <summary>What holds a live axle sideways, and with it the height of the roll centre.</summary>
public abstract record LateralLocation
{
    /// <summary>Height of the roll centre above the ground at ride height, m.</summary>
    public abstract double RollCentreHeight { get; }
}
