namespace RollRide.Vehicle;

/// <summary>Where an axle stands under a vehicle with two.</summary>
public enum Axle
{
    /// <summary>The front axle.</summary>
    Front,

    /// <summary>The rear axle: it meets the road later, by the time that the wheelbase takes.</summary>
    Rear,
}
