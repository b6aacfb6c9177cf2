namespace RollRide.Vehicle;

/// <summary>Which combinations of heave and roll within the travel count.</summary>
public enum TravelCombinations
{
    /// <summary>Every heave with every roll.</summary>
    All,

    /// <summary>Only as far as no stop, left or right, is past its contact.</summary>
    UntilStopsTouch,
}
