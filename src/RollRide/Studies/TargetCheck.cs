using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Tells what becomes of the targets of a tuning with any damper in a layout, in each of its load states, from the eigenvalues themselves.</summary>
internal sealed class TargetCheck(ImmutableArray<LayoutInLoad> states, DamperLayout layout, TuningTask task, bool includeFriction)
{
    /// <summary>What becomes of the heave target in each load state.</summary>
    public ImmutableArray<TargetOutcome> Heave(Damper damper) => [.. states.Select(state => Of(state, ModeName.Heave, task.Heave, damper))];

    /// <summary>What becomes of the roll target in each load state.</summary>
    public ImmutableArray<TargetOutcome> Roll(Damper damper) => [.. states.Select(state => Of(state, ModeName.Roll, task.Roll, damper))];

    private TargetOutcome Of(LayoutInLoad state, ModeName mode, TuningTarget target, Damper damper)
    {
        // Not from the table: solved anew.
        double Ratio(DamperLayout of) => ModeFollower.Solve(state.Linear, of.InDamperState(state.Load?.DamperState), target.DamperVelocity, includeFriction)[mode].DampingRatio;
        return new TargetOutcome(target, Ratio(layout), Ratio(layout.Fitted(damper)), state.In(damper).EquivalentCoefficient(target.DamperVelocity, DampingDirection.Both, includeFriction), state.Map.Coefficient(mode, target.Ratio))
        {
            Load = state.Load?.Name,
            LowestCoefficient = state.Map.Coefficient(mode, target.Ratio - target.Tolerance),
            HighestCoefficient = state.Map.Coefficient(mode, target.Ratio + target.Tolerance),
        };
    }
}
