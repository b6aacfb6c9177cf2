namespace RollRide.Vehicle;

/// <summary>What carries the body on one side, without its damper (see <see cref="DamperSide"/>). Places are given as on the left: a right side is mirrored.</summary>
/// <param name="Spring">The spring.</param>
/// <param name="BumpStop">The bump stop; null for none.</param>
/// <param name="ReboundStop">The rebound stop; null for none.</param>
public sealed record SuspensionSide(Spring Spring, TravelStop? BumpStop, TravelStop? ReboundStop);
