using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Packaging;

/// <summary>Finds every band of lateral positions that keeps all clearances over the whole travel.</summary>
public static class BandSearch
{
    /// <summary>Finds the bands, and what is missing in slots without one.</summary>
    /// <param name="space">What stands where.</param>
    /// <param name="cancellation">Stops the search.</param>
    /// <exception cref="ArgumentException">The space contradicts itself; the message says where and by how many millimetres.</exception>
    public static PlacementBands Find(PackagingSpace space, CancellationToken cancellation = default)
    {
        var bands = Bands(space, cancellation);
        RailSide[] sides = space.Rail is null ? [RailSide.Across] : [RailSide.Inboard, RailSide.Outboard];
        return new PlacementBands(
            space,
            bands,
            [.. sides.Where(side => !bands.Any(band => band.Side == side || band.Side == RailSide.Across)).Select(side => new ShortfallSearch(space, side, cancellation).Find()).OfType<Shortfall>()]);
    }

    /// <summary>Finds the bands alone.</summary>
    /// <param name="space">What stands where.</param>
    /// <param name="cancellation">Stops the search.</param>
    /// <exception cref="ArgumentException">The space contradicts itself; the message says where and by how many millimetres.</exception>
    public static ImmutableArray<Band> Bands(PackagingSpace space, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(space);
        Check(space);
        var check = FitCheck.OfDamper(space, cancellation);
        var all = Positions.Between(space.SearchFrom, space.SearchTo);
        return [.. all.ThatFit(check).Select(fitting => new Band(
            SideOf(space, Positions.Metres(fitting.First), Positions.Metres(fitting.Last)), Positions.Metres(fitting.First), Positions.Metres(fitting.Last),
            fitting.First > all.First ? check.Least(Positions.Metres(fitting.First - 1)) : null,
            fitting.Last < all.Last ? check.Least(Positions.Metres(fitting.Last + 1)) : null))];
    }

    private static void Check(PackagingSpace space)
    {
        if (space.Damper is { ClosedLength: { } closed, ExtendedLength: { } extended } && closed >= extended)
            throw Refuse($"The damper's closed length ({Mm(closed)} mm) must be less than its extended length ({Mm(extended)} mm).");
        if (space.SearchTo <= space.SearchFrom)
            throw Refuse($"The search must end ({Mm(space.SearchTo)} mm) outboard of where it begins ({Mm(space.SearchFrom)} mm).");
        foreach (var keepOut in space.AllKeepOuts)
        {
            if (keepOut.Outer < keepOut.Inner)
                throw Refuse($"The outer face of “{keepOut.Name}” ({Mm(keepOut.Outer)} mm) lies inboard of its inner face ({Mm(keepOut.Inner)} mm).");
            if (keepOut.Top < keepOut.Bottom)
                throw Refuse($"The top of “{keepOut.Name}” ({Mm(keepOut.Top)} mm) lies below its bottom ({Mm(keepOut.Bottom)} mm).");
        }

        if (space.Mounts.BodyEndHeight <= space.Mounts.AxleEndHeight)
            throw Refuse($"The damper's body end ({Mm(space.Mounts.BodyEndHeight)} mm high) must lie above its axle end ({Mm(space.Mounts.AxleEndHeight)} mm).");

        static ArgumentException Refuse(FormattableString text) => new(FormattableString.Invariant(text), nameof(space));
        static string Mm(double metres) => Unit.Millimetre.Of(metres).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture);
    }

    private static RailSide SideOf(PackagingSpace space, double inner, double outer)
    {
        if (space.Rail is not { } rail)
            return RailSide.Across;
        double middle = (rail.Inner + rail.Outer) / 2;
        return outer <= middle ? RailSide.Inboard : inner >= middle ? RailSide.Outboard : RailSide.Across;
    }
}
