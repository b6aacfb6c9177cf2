namespace RollRide.Studies;

/// <summary>What a valving for many vehicles makes least.</summary>
public enum RobustGoal
{
    /// <summary>The largest miss of any vehicle in any of its states.</summary>
    WorstCase,

    /// <summary>The share of vehicles that miss a target in any of their states.</summary>
    MissShare,
}
