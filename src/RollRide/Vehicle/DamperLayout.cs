using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>One way to fit the axle's two dampers: where they sit and how they are valved. The question is always which of these to choose.</summary>
public sealed record DamperLayout
{
    /// <summary>The layout's name, as the scenario gives it.</summary>
    public required string Name { get; init; }

    /// <summary>Where the left damper sits; the right mirrors it.</summary>
    public required IFitting Fitting { get; init; }

    /// <summary>The damper used on both sides.</summary>
    public required Damper Damper { get; init; }

    /// <summary>Whether it can be built and so be recommended; otherwise it is shown for comparison only.</summary>
    public bool IsCandidate { get; init; } = true;

    /// <summary>Travel in compression from ride height until the damper is closed, m; null if not known.</summary>
    public double? CompressionTravel { get; init => field = value is { } travel ? Require.Positive(travel, "m", nameof(CompressionTravel)) : null; }

    /// <summary>Travel in rebound from ride height until the damper is fully extended, m; null if not known.</summary>
    public double? ReboundTravel { get; init => field = value is { } travel ? Require.Positive(travel, "m", nameof(ReboundTravel)) : null; }
}
