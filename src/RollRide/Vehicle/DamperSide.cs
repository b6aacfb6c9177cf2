using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>The damper of one side and where it sits. Places are given as on the left: a right side is mirrored.</summary>
/// <param name="Fitting">Where it sits.</param>
/// <param name="Damper">The damper.</param>
public sealed record DamperSide(IFitting Fitting, Damper Damper)
{
    /// <summary>Travel in compression from ride height until the damper is closed, m; null if not known.</summary>
    public double? CompressionTravel { get; init => field = value is { } travel ? Require.Positive(travel, "m", nameof(CompressionTravel)) : null; }

    /// <summary>Travel in rebound from ride height until the damper is fully extended, m; null if not known.</summary>
    public double? ReboundTravel { get; init => field = value is { } travel ? Require.Positive(travel, "m", nameof(ReboundTravel)) : null; }
}
