using System.Collections.Immutable;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Packaging;

/// <summary>All that decides where a live axle's dampers fit: their envelope, what stands around them, and the travel to be kept clear over.</summary>
public sealed record PackagingSpace
{
    /// <summary>Height of the roll centre above the ground, m.</summary>
    public required double RollCentreHeight { get; init => field = Require.Finite(value, "m", nameof(RollCentreHeight)); }

    /// <summary>The combinations of heave and roll over which every clearance is kept.</summary>
    public required TravelEnvelope Travel { get; init; }

    /// <summary>The damper.</summary>
    public required DamperEnvelope Damper { get; init; }

    /// <summary>Its mounts.</summary>
    public required DamperMounts Mounts { get; init; }

    /// <summary>The frame rail, which divides the room into a slot on either side; null for one slot.</summary>
    public KeepOut? Rail { get; init; }

    /// <summary>Everything else to stay clear of.</summary>
    public required ImmutableArray<KeepOut> KeepOuts { get; init; }

    /// <summary>Clearance between the left and the right damper, m; 0 or more.</summary>
    public double ClearanceBetweenDampers { get; init => field = Require.NotNegative(value, "m", nameof(ClearanceBetweenDampers)); }

    /// <summary>The most inboard lateral position of the axle end looked at, m.</summary>
    public double SearchFrom { get; init => field = Require.Finite(value, "m", nameof(SearchFrom)); }

    /// <summary>The most outboard position looked at, m; above <see cref="SearchFrom"/>.</summary>
    public required double SearchTo { get; init => field = Require.Finite(value, "m", nameof(SearchTo)); }

    /// <summary>The same space drawn at another ride height, its travel counted from there.</summary>
    /// <param name="change">Where body, axle and roll centre stand then.</param>
    public PackagingSpace Redrawn(RideHeightChange change)
    {
        KeepOut Moved(KeepOut keepOut) => keepOut.Raised(keepOut.MovesWithAxle ? change.Unsprung : change.Body);
        return this with
        {
            RollCentreHeight = RollCentreHeight + change.RollCentre,
            Travel = Travel.From(change.Travel),
            Mounts = Mounts with { AxleEndHeight = Mounts.AxleEndHeight + change.Unsprung, BodyEndHeight = Mounts.BodyEndHeight + change.Body },
            Rail = Rail is { } rail ? Moved(rail) : null,
            KeepOuts = [.. KeepOuts.Select(Moved)],
        };
    }

    /// <summary>All keep-outs, the rail among them.</summary>
    public ImmutableArray<KeepOut> AllKeepOuts => Rail is { } rail ? KeepOuts.Add(rail) : KeepOuts;

    /// <summary>Where a slot begins and ends within the search, m: at the middle of the rail, if there is one.</summary>
    internal (double From, double To) SlotOf(RailSide side)
    {
        if (Rail is not { } rail)
            return (SearchFrom, SearchTo);
        double middle = (rail.Inner + rail.Outer) / 2;
        return side == RailSide.Inboard ? (SearchFrom, Math.Min(middle, SearchTo)) : (Math.Max(middle, SearchFrom), SearchTo);
    }

    /// <summary>The same without a keep-out.</summary>
    internal PackagingSpace Without(KeepOut keepOut) => keepOut == Rail ? this with { Rail = null } : this with { KeepOuts = KeepOuts.Remove(keepOut) };

    /// <summary>The same room around the damper of a layout: with its mounts and lengths, but the tubes and bushes given here.</summary>
    /// <param name="layout">The layout.</param>
    /// <returns>Null where the layout has no mounts on a live axle, so that there is no place to look at.</returns>
    public PackagingSpace? Around(DamperLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return Around(layout.On(Side.Left));
    }

    /// <summary>The same room with the mounts of one side's damper as drawn, and its lengths.</summary>
    /// <param name="layout">The side of a layout; a right side is mirrored, and so is its room.</param>
    /// <returns>Null where the damper has no mounts on a live axle.</returns>
    internal PackagingSpace? Around(DamperSide layout)
    {
        return layout.Fitting is LiveAxleMountFitting fitting
            ? this with
            {
                Mounts = DamperMounts.Of(fitting),
                Damper = Damper with { ClosedLength = fitting.Length - layout.CompressionTravel, ExtendedLength = fitting.Length + layout.ReboundTravel },
            }
            : null;
    }
}
