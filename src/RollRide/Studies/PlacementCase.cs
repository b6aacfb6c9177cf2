using RollRide.Damping;
using RollRide.Packaging;

namespace RollRide.Studies;

/// <summary>A damper to be placed on a live axle.</summary>
/// <param name="Space">The room around it.</param>
/// <param name="Damper">The damper.</param>
public sealed record PlacementCase(PackagingSpace Space, Damper Damper);
