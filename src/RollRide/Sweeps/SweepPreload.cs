namespace RollRide.Sweeps;

/// <summary>What becomes of the springs' preload in a variant.</summary>
public enum SweepPreload
{
    /// <summary>The vehicle is set to its design position anew.</summary>
    Set,

    /// <summary>The springs stay set as in the scenario as it stands.</summary>
    Kept,
}
