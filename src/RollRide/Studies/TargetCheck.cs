using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Tells what becomes of the targets of a tuning with any damper in a layout, from the eigenvalues themselves.</summary>
internal sealed class TargetCheck(LinearHalfCar linear, DampingRatioMap map, DamperLayout layout, TuningTask task, bool includeFriction)
{
    /// <summary>What becomes of the heave target.</summary>
    public TargetOutcome Heave(Damper damper) => Of(ModeName.Heave, task.Heave, damper);

    /// <summary>What becomes of the roll target.</summary>
    public TargetOutcome Roll(Damper damper) => Of(ModeName.Roll, task.Roll, damper);

    private TargetOutcome Of(ModeName mode, TuningTarget target, Damper damper)
    {
        double Coefficient(Damper of) => of.EquivalentCoefficient(target.DamperVelocity, DampingDirection.Both, includeFriction);

        // Not from the table: solved anew.
        double Ratio(Damper of) => ModeFollower.Solve(linear, Coefficient(of))[mode].DampingRatio;
        return new TargetOutcome(target, Ratio(layout.Damper), Ratio(damper), Coefficient(damper), map.Coefficient(mode, target.Ratio))
        {
            LowestCoefficient = map.Coefficient(mode, target.Ratio - target.Tolerance),
            HighestCoefficient = map.Coefficient(mode, target.Ratio + target.Tolerance),
        };
    }
}
