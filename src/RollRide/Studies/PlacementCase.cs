using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Packaging;

namespace RollRide.Studies;

/// <summary>A damper to be placed on a live axle.</summary>
/// <param name="Space">The room around it.</param>
/// <param name="Damper">The damper.</param>
public sealed record PlacementCase(PackagingSpace Space, Damper Damper)
{
    /// <summary>The layouts that were to stand where packaging allows, and cannot. Only a scenario that is read for its placement has any.</summary>
    public ImmutableArray<UnplacedLayout> Unplaced { get; init; } = [];
}

/// <summary>A layout for which there is no place.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Reason">What is in the way, in words.</param>
public sealed record UnplacedLayout(string Name, string Reason);
