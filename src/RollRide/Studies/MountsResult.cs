using System.Collections.Immutable;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>How each layout's damper moves over the travel.</summary>
/// <param name="Study">The case.</param>
/// <param name="Layouts">One result per layout; two, left before right, where the dampers of its sides do not stand as each other's mirror image.</param>
public sealed record MountsResult(StudyCase Study, ImmutableArray<LayoutMounts> Layouts);

/// <summary>How one layout's left damper moves, or the damper of either side where they stand differently.</summary>
/// <param name="Layout">The layout as it stands.</param>
/// <param name="Name">Name of the layout, with the side where both are shown.</param>
/// <param name="Fitting">Where the damper sits, as on the left.</param>
/// <param name="Travel">The combinations of heave and roll looked at, counted from where it stands: under a load each layout settles by itself.</param>
/// <param name="Linkage">Where the linkage holds the wheel over its travel; empty without one.</param>
/// <param name="InHeave">In heave from full rebound to full bump, without roll.</param>
/// <param name="InRoll">In roll from one side to the other, at ride height.</param>
/// <param name="Length">Its length at ride height, m; null where only ratios are given.</param>
/// <param name="Shortest">The most compressed position of all combinations of heave and roll in the travel.</param>
/// <param name="Longest">The most extended one.</param>
/// <param name="ClosedReserve">What is left before the damper closes metal to metal, m; null where not known, negative where missing.</param>
/// <param name="ExtendedReserve">What is left before it is fully extended, m.</param>
/// <param name="OverCentre">Heave at which the motion ratio falls to 0 and the damper goes over centre, m; null where it does not.</param>
public sealed record LayoutMounts(
    DamperLayout Layout,
    string Name,
    IFitting Fitting,
    TravelEnvelope Travel,
    ImmutableArray<WheelPosition> Linkage,
    ImmutableArray<MountPosition> InHeave,
    ImmutableArray<MountPosition> InRoll,
    double? Length,
    MountPosition Shortest,
    MountPosition Longest,
    double? ClosedReserve,
    double? ExtendedReserve,
    double? OverCentre);

/// <summary>The damper at one position.</summary>
/// <param name="Heave">Relative heave, m.</param>
/// <param name="Roll">Relative roll, rad.</param>
/// <param name="HeaveRatio">Damper travel over wheel travel in heave.</param>
/// <param name="RollRatio">Damper travel over wheel travel in roll.</param>
/// <param name="Compression">Compression from ride height, m.</param>
public sealed record MountPosition(double Heave, double Roll, double HeaveRatio, double RollRatio, double Compression);
