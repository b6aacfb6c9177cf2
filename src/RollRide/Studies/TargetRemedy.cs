using System.Collections.Immutable;
using RollRide.Mounting;

namespace RollRide.Studies;

/// <summary>One change that lets a layout meet all targets in every load state; the values are such as a drawing carries, and were tried as they stand here.</summary>
/// <param name="Kind">What is changed; null where another setting of the damper is enough.</param>
/// <param name="Present">Its present value, SI units as in <see cref="WindowRemedy"/>; 0 without a kind.</param>
/// <param name="Value">The value that does it.</param>
/// <param name="CurveScale">Factor on the damper's curve that goes with it: the one nearest to 1 that leaves the room.</param>
public sealed record TargetRemedy(RemedyKind? Kind, double Present, double Value, double CurveScale)
{
    // Of the tolerance; with less room a change is no remedy, however its dampers are picked. Common practice, no source.
    internal const double LeastShareOfRoom = 0.5;

    /// <summary>The least and the greatest factor on the damper's curve that meet all targets with it, without regard to tolerances.</summary>
    public (double Least, double Greatest) CurveScales { get; init; } = (CurveScale, CurveScale);

    /// <summary>The tolerance of the dampers that is to be left room for.</summary>
    public required DamperTolerance Tolerance { get; init; }

    /// <summary>How far the damper's forces may differ from their curve, as a share, either way, while all targets are met: that tolerance, half of it where no value of the change leaves as much, or nothing.</summary>
    public required double Room { get; init; }

    /// <summary>Whether it leaves room for the whole tolerance.</summary>
    public bool HasRoom => Room >= Tolerance.Share;

    /// <summary>Whether it leaves room for enough of the tolerance to be a remedy.</summary>
    public bool HasSomeRoom => Room >= LeastShareOfRoom * Tolerance.Share;

    /// <summary>Whether the dampers fit where they are moved to; null where nothing was moved or it is not known.</summary>
    public bool? Fits { get; init; }

    /// <summary>Where the left damper's ends go; null unless they are moved and known.</summary>
    public (Point3 AxleEnd, Point3 BodyEnd)? Mounts { get; init; }

    /// <summary>What gets worse by it when the same manoeuvre is driven, each in the load state in which most is lost.</summary>
    public ImmutableArray<RemedyPrice> Prices { get; init; } = [];

    /// <summary>The damping ratio of wheel hop at the velocity of the targets, at present and with the remedy, in the load state in which it changes most; null before the manoeuvre is driven.</summary>
    public (double Present, double Then)? HopDampingRatio { get; init; }

    /// <summary>Whether wheel hop is noticeably less damped with the remedy.</summary>
    public bool LosesHopDamping => HopDampingRatio is var (present, then) && then < (1 - Noticeable.Share) * present;

    /// <summary>Roll gradient at present and after the change, rad per m/s², in the load state in which it is largest.</summary>
    public required (double Present, double Then) RollGradient { get; init; }

    /// <summary>Whether the body rolls noticeably more in a steady corner with the remedy.</summary>
    public bool EnlargesRollGradient => RollGradient.Then - RollGradient.Present > Noticeable.Share * RollGradient.Then;

    /// <summary>Whether the roll gradient is part of its price: only where no corner shows how far the body rolls.</summary>
    public bool CostsRollGradient => EnlargesRollGradient && Prices.All(price => price.Quantity != DecidingQuantity.LargestRoll);
}

/// <summary>What a remedy does to a quantity.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="Load">Name of the load state; null for the vehicle as written.</param>
/// <param name="Present">Its value at present, in its unit.</param>
/// <param name="Then">Its value with the remedy, in its unit.</param>
public sealed record RemedyPrice(DecidingQuantity Quantity, string? Load, double Present, double Then);

/// <summary>A single change that was looked for, and what came of it.</summary>
/// <param name="Kind">What is changed; null where another setting of the damper alone is looked for.</param>
/// <param name="Found">The change nearest to what there is that meets all targets with room for the dampers' tolerance, else for half of it, else without room; null where none does.</param>
/// <param name="Against">What the run with it brings that bars a layout; empty where nothing does, and where nothing was found.</param>
public sealed record TriedChange(RemedyKind? Kind, TargetRemedy? Found, ImmutableArray<ObstacleKind> Against)
{
    /// <summary>How far the run with it leaves the travel that the vehicle gives; null where it does not.</summary>
    public TravelOverrun? Overrun { get; init; }

    /// <summary>Whether all targets are met with it, and nothing in the run bars it, with room for the dampers' tolerance or without.</summary>
    public bool MeetsTargets => Found is not null && Against.IsEmpty;

    /// <summary>Whether it is a remedy.</summary>
    public bool Works => MeetsTargets && Found!.HasSomeRoom;

    /// <summary>Whether it is a remedy with room for the whole tolerance.</summary>
    public bool WorksWithRoom => Works && Found!.HasRoom;
}
