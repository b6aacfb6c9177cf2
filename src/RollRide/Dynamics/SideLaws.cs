using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>The equations of the elements of one side. Sides that are each other's mirror image share one set.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class SideLaws<T>
    where T : struct, ILanes<T>
{
    /// <summary>Makes room for the elements of one side of a car.</summary>
    /// <param name="like">A car of the form.</param>
    /// <param name="side">The side.</param>
    public SideLaws(AssembledHalfCar like, Side side)
    {
        var (suspension, damper) = (like.Vehicle.On(side), like.Layout.On(side));
        SpringFitting = FittingLaw<T>.Of(suspension.Spring.Fitting);
        DamperFitting = FittingLaw<T>.Of(damper.Fitting);
        Spring = new CurveLaw<T>(CurveForm.Of(like.SpringForceOn(side).Pieces));
        if (like.HasSpringFriction)
            SpringFriction = new SpringFrictionLaw<T>();
        Damper = new DamperLaw<T>(DamperForm.Of(damper.Damper));
        if (suspension.BumpStop is { } bump)
            (BumpFitting, BumpStop) = (FittingLaw<T>.Of(bump.Fitting), new StopLaw<T>(bump.Form));
        if (suspension.ReboundStop is { } rebound)
            (ReboundFitting, ReboundStop) = (FittingLaw<T>.Of(rebound.Fitting), new StopLaw<T>(rebound.Form));
        TurnsMounts = SpringFitting.TurnsMounts || DamperFitting.TurnsMounts || BumpFitting is { TurnsMounts: true } || ReboundFitting is { TurnsMounts: true };
        HasFaults = SpringFitting.HasFaults || DamperFitting.HasFaults || BumpFitting is { HasFaults: true } || ReboundFitting is { HasFaults: true };
    }

    /// <summary>Where the spring sits.</summary>
    public FittingLaw<T> SpringFitting { get; }

    /// <summary>Where the damper sits.</summary>
    public FittingLaw<T> DamperFitting { get; }

    /// <summary>Where the bump stop sits; null without one.</summary>
    public FittingLaw<T>? BumpFitting { get; }

    /// <summary>Where the rebound stop sits; null without one.</summary>
    public FittingLaw<T>? ReboundFitting { get; }

    /// <summary>The spring's force over compression.</summary>
    public CurveLaw<T> Spring { get; }

    /// <summary>The friction beside the spring; null where neither spring has any.</summary>
    public SpringFrictionLaw<T>? SpringFriction { get; }

    /// <summary>The damper's force over velocity.</summary>
    public DamperLaw<T> Damper { get; }

    /// <summary>The bump stop; null without one.</summary>
    public StopLaw<T>? BumpStop { get; }

    /// <summary>The rebound stop; null without one.</summary>
    public StopLaw<T>? ReboundStop { get; }

    /// <summary>Whether there is a bump stop.</summary>
    public bool HasBumpStop => BumpStop is not null;

    /// <summary>Whether there is a rebound stop.</summary>
    public bool HasReboundStop => ReboundStop is not null;

    /// <summary>Whether any fitting asks for sine and cosine of the relative roll.</summary>
    public bool TurnsMounts { get; }

    /// <summary>Whether any fitting can run out of its reach.</summary>
    public bool HasFaults { get; }

    /// <summary>Puts the elements of one side of a car into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="car">The car, of the form of these laws.</param>
    /// <param name="side">The side.</param>
    public void Load(int lane, AssembledHalfCar car, Side side)
    {
        var (suspension, damper) = (car.Vehicle.On(side), car.Layout.On(side));
        SpringFitting.Load(lane, suspension.Spring.Fitting);
        DamperFitting.Load(lane, damper.Fitting);
        var force = car.SpringForceOn(side);
        Spring.Load(lane, force.Pieces, force);
        SpringFriction?.Load(lane, suspension.Spring.Friction);
        Damper.Load(lane, damper.Damper);
        if (suspension.BumpStop is { } bump)
        {
            BumpFitting!.Load(lane, bump.Fitting);
            BumpStop!.Load(lane, bump);
        }

        if (suspension.ReboundStop is { } rebound)
        {
            ReboundFitting!.Load(lane, rebound.Fitting);
            ReboundStop!.Load(lane, rebound);
        }
    }

    /// <summary>Takes the reason why a lane had no compression in the last evaluation; null if it had one.</summary>
    /// <param name="lane">The lane.</param>
    public Exception? TakeFault(int lane)
    {
        // All are taken, so that none outlives the step it belongs to.
        var (spring, damper) = (SpringFitting.TakeFault(lane), DamperFitting.TakeFault(lane));
        var (bump, rebound) = (BumpFitting?.TakeFault(lane), ReboundFitting?.TakeFault(lane));
        return spring ?? damper ?? bump ?? rebound;
    }
}
