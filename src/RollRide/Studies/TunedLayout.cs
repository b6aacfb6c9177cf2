using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>A layout with its damper tuned for the targets.</summary>
public sealed record TunedLayout
{
    /// <summary>The layout as it was.</summary>
    public required DamperLayout Before { get; init; }

    /// <summary>The same layout with the tuned damper, each side in the state in which the layout keeps it.</summary>
    public required DamperLayout After { get; init; }

    /// <summary>The tuned damper as drawn.</summary>
    public Damper Drawn => After.Damper.AsWritten;

    /// <summary>The tuned valving.</summary>
    public required Valving Valving { get; init; }

    /// <summary>What became of the heave target in each load state, in the order of the case; one where it has none.</summary>
    public required ImmutableArray<TargetOutcome> HeaveInLoads { get; init; }

    /// <summary>What became of the roll target likewise.</summary>
    public required ImmutableArray<TargetOutcome> RollInLoads { get; init; }

    /// <summary>What became of the heave target in the load state in which it is farthest from it.</summary>
    public TargetOutcome Heave => TargetOutcome.Worst(HeaveInLoads);

    /// <summary>What became of the roll target in the load state in which it is farthest from it.</summary>
    public TargetOutcome Roll => TargetOutcome.Worst(RollInLoads);

    /// <summary>Whether both targets are met, in every load state.</summary>
    public bool MeetsBoth => Heave.IsMet && Roll.IsMet;

    /// <summary>Rebound over compression of the damper as it was, at the heave target's velocity; the tuned one keeps it if the limits allow.</summary>
    public required double ReboundToCompressionBefore { get; init; }

    /// <summary>Rebound over compression of the tuned valving.</summary>
    public required double ReboundToCompression { get; init; }

    /// <summary>The limits that stand between this valving and its targets; empty where both are met, or where no single limit does.</summary>
    public ImmutableArray<BindingLimit> BindingLimits { get; init; } = [];
}

/// <summary>A target and how near the damper comes.</summary>
/// <param name="Target">The target.</param>
/// <param name="Before">Damping ratio with the damper as it was.</param>
/// <param name="Reached">Damping ratio with the tuned damper.</param>
/// <param name="Coefficient">Equivalent coefficient of the tuned damper at the target's velocity, N·s/m.</param>
/// <param name="CoefficientWanted">The coefficient that gives exactly the target, N·s/m; null if no damper in this place does.</param>
public sealed record TargetOutcome(TuningTarget Target, double Before, double Reached, double Coefficient, double? CoefficientWanted)
{
    /// <summary>Name of the load state; null for the vehicle as written.</summary>
    public string? Load { get; init; }

    /// <summary>The coefficient at the lower edge of the band, N·s/m; null if no damper in this place reaches it.</summary>
    public double? LowestCoefficient { get; init; }

    /// <summary>The coefficient at the upper edge of the band, N·s/m; null if no damper in this place reaches it.</summary>
    public double? HighestCoefficient { get; init; }

    // A setting on the edge of its band still meets the target; this is the rounding of the search, in tolerances.
    private const double Edge = 1e-3;

    /// <summary>Whether the ratio lies within the tolerance.</summary>
    public bool IsMet => Math.Abs(Target.Deviation(Reached)) <= 1 + Edge;

    /// <summary>Reached minus wanted.</summary>
    public double Miss => Reached - Target.Ratio;

    /// <summary>The outcome farthest from its target, in tolerances; of equal ones the first.</summary>
    /// <param name="outcomes">What became of one target in several load states, at least one.</param>
    public static TargetOutcome Worst(ImmutableArray<TargetOutcome> outcomes) => outcomes.MaxBy(outcome => Math.Abs(outcome.Target.Deviation(outcome.Reached)))!;
}
