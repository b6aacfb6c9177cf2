using RollRide.Mounting;
using RollRide.Packaging;

namespace RollRide.Studies;

/// <summary>What could be changed to open a closed window.</summary>
public enum RemedyKind
{
    /// <summary>The dampers' lateral position, m from the centre.</summary>
    DamperPosition,

    /// <summary>The springs' lateral position, m from the centre.</summary>
    SpringPosition,

    /// <summary>The anti-roll bar, N·m/rad.</summary>
    AntiRollBar,

    /// <summary>The track, m, everything else fixed in millimetres.</summary>
    Track,

    /// <summary>
    /// Compression's share of the mean coefficient of compression and rebound, if the heave maximum need hold in compression only.
    /// </summary>
    CompressionShare,
}

/// <summary>By how much one thing alone would have to change to open a closed window.</summary>
/// <param name="Kind">What is changed.</param>
/// <param name="Present">Its present value, in SI units; null where the vehicle has none of its own.</param>
/// <param name="Needed">The nearest value that opens the window; null if none in a sane range does.</param>
public sealed record WindowRemedy(RemedyKind Kind, double? Present, double? Needed)
{
    /// <summary>Where the left damper's ends go, where the remedy is to move them and their mounts are known.</summary>
    public (Point3 AxleEnd, Point3 BodyEnd)? Mounts { get; init; }

    /// <summary>What prevents moving the dampers; null where that is not the remedy, or their mounts are not known.</summary>
    public MountMove? Move { get; init; }

    /// <summary>The damper's roll ratio now and with what is needed, where it is moved by its ratios alone; otherwise null.</summary>
    public (double Now, double Then)? RollRatio { get; init; }

    /// <summary>The least mean of compression and rebound that meets the minima, N·s/m, where the split of the two is what could be changed; otherwise null.</summary>
    public double? Mean { get; init; }

    /// <summary>The roll gradient now and with what is needed, rad per m/s², where the roll stiffness changes with it; otherwise null.</summary>
    public (double Now, double Then)? RollGradient { get; init; }
}

/// <summary>Whether dampers fit where they would have to go.</summary>
public enum MountFit
{
    /// <summary>The room around them is not known.</summary>
    NotKnown,

    /// <summary>They fit at the nearest place that opens the window.</summary>
    Fits,

    /// <summary>They fit only beyond the nearest place that opens the window.</summary>
    FitsBeyond,

    /// <summary>They fit at no place that opens the window.</summary>
    Nowhere,
}

/// <summary>A move of the dampers sideways.</summary>
/// <param name="Fit">Whether they fit where they would have to go.</param>
/// <param name="Edge">The nearest lateral position of the axle end at which the window opens, m, with no regard to what is in the way.</param>
/// <param name="IsOutward">Whether that is farther out than now.</param>
/// <param name="Shift">How far they go, m, positive outboard; 0 where they fit nowhere.</param>
/// <param name="InTheWay">Where they fit nowhere, the worst that is in the way at the edge; null where nothing was found.</param>
public sealed record MountMove(MountFit Fit, double Edge, bool IsOutward, double Shift, Contact? InTheWay);
