namespace RollRide.Vehicle;

/// <summary>Which combinations of heave and roll within the travel count.</summary>
public enum TravelCombinations
{
    /// <summary>Every heave with every roll.</summary>
    All,

    /// <summary>Only as far as no stop, left or right, is past its contact.</summary>
    UntilStopsTouch,

    /// <summary>Of these, only as far as no tyre would have to pull to hold the suspension there (<see cref="StandingTyres"/>).</summary>
    UntilStopsTouchOrTyresLift,
}
