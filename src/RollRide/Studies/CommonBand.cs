using System.Collections.Immutable;
using RollRide.Modes;
using RollRide.Packaging;

namespace RollRide.Studies;

/// <summary>Lateral positions at which a damper fits in every load state.</summary>
/// <param name="Band">The positions, and what limits them.</param>
/// <param name="InnerLoad">Name of the load state that limits it inboard.</param>
/// <param name="OuterLoad">Name of the load state that limits it outboard.</param>
/// <param name="InEach">Modes and setting window of its outer end in each load state, in their order.</param>
public sealed record CommonBand(Band Band, string InnerLoad, string OuterLoad, ImmutableArray<PlacedBand> InEach)
{
    /// <summary>The damper coefficients that meet the targets at its outer end in every load state; null where the case has none.</summary>
    public SettingWindow? Window => InEach[0].Window is null ? null : SettingWindow.Common([.. InEach.Select(placed => placed.Window!)]);

    /// <summary>The bands that all load states share, from the centre outward.</summary>
    /// <param name="states">The places found in each load state, at least two.</param>
    public static ImmutableArray<CommonBand> Of(IReadOnlyList<PlacementResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        return
        [
            .. Shared([.. states.Select(state => (state.Study.Load!.Name, state.Found.Bands))])
                .Select(shared => shared with { InEach = [.. states.Select(state => PlacementStudy.Placed(state.Study, shared.Band))] }),
        ];
    }

    /// <summary>The bands that all load states share, without their modes and windows.</summary>
    /// <param name="states">The bands of each load state, at least one, with its name.</param>
    internal static IReadOnlyList<CommonBand> Shared(ImmutableArray<(string Load, ImmutableArray<Band> Bands)> states)
    {
        var bandsOfEach = states.Select(state => state.Bands.Select(band => new CommonBand(band, state.Load, state.Load, [])));
        return [.. bandsOfEach.Aggregate((common, bands) => from one in common from other in bands where Overlap(one.Band, other.Band) select Shared(one, other))];
    }

    // A band across the rail shares what lies on one side with a band there.
    private static bool Overlap(Band one, Band other) =>
        (one.Side == other.Side || one.Side == RailSide.Across || other.Side == RailSide.Across) && Math.Max(one.Inner, other.Inner) <= Math.Min(one.Outer, other.Outer);

    private static CommonBand Shared(CommonBand one, CommonBand other)
    {
        var (inner, outer) = (one.Band.Inner >= other.Band.Inner ? one : other, one.Band.Outer <= other.Band.Outer ? one : other);
        var side = one.Band.Side == RailSide.Across ? other.Band.Side : one.Band.Side;
        return new CommonBand(new Band(side, inner.Band.Inner, outer.Band.Outer, inner.Band.InnerLimit, outer.Band.OuterLimit), inner.InnerLoad, outer.OuterLoad, []);
    }
}
