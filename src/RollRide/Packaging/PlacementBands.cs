using System.Collections.Immutable;

namespace RollRide.Packaging;

/// <summary>Where the dampers fit.</summary>
/// <param name="Space">What was searched.</param>
/// <param name="Bands">All bands, from the centre outward.</param>
/// <param name="Shortfalls">One for each slot that takes no damper.</param>
public sealed record PlacementBands(PackagingSpace Space, ImmutableArray<Band> Bands, ImmutableArray<Shortfall> Shortfalls)
{
    /// <summary>The most outboard band on a side of the rail, one across it included; null where nothing fits.</summary>
    /// <param name="side">The side.</param>
    public Band? On(RailSide side) => Bands.LastOrDefault(band => band.Side == side || band.Side == RailSide.Across);
}
