using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Packaging;

/// <summary>
/// Finds every band of lateral positions that keeps all clearances over the whole travel. It goes from the centre outward in
/// steps that are proven to stay on the same side of fitting and not fitting; where the proof shrinks to nothing it goes by a
/// few thousandths of a millimetre. So no band wider than that is missed, and each edge is known as closely.
/// </summary>
public static class BandSearch
{
    /// <summary>The narrowest band that is certain to be found, and the accuracy of its edges, m.</summary>
    public const double Resolution = FitCheck.Resolution;

    // The closest position of a closed slot is only a place to start from: it need not be exact.
    private const int Candidates = 200;

    // A wall that has to go farther is no longer the same vehicle.
    private const double FurthestMove = 1;

    /// <summary>Finds the bands, and what is missing in slots without one.</summary>
    /// <param name="space">What stands where.</param>
    /// <param name="cancellation">Stops the search.</param>
    /// <exception cref="ArgumentException">The space contradicts itself; the message says where and by how many millimetres.</exception>
    public static PlacementBands Find(PackagingSpace space, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(space);
        Check(space);
        var bands = Bands(space, space.SearchFrom, space.SearchTo, stopAtFirst: false, cancellation);
        RailSide[] sides = space.Rail is null ? [RailSide.Across] : [RailSide.Inboard, RailSide.Outboard];
        return new PlacementBands(
            space,
            bands,
            [.. sides.Where(side => !bands.Any(band => band.Side == side || band.Side == RailSide.Across)).Select(side => ShortfallOf(space, side, cancellation)).OfType<Shortfall>()]);
    }

    private static void Check(PackagingSpace space)
    {
        if (space.Damper.ClosedLength >= space.Damper.ExtendedLength)
            throw Refuse($"The damper's closed length ({Mm(space.Damper.ClosedLength)} mm) must be less than its extended length ({Mm(space.Damper.ExtendedLength)} mm).");
        if (space.SearchTo <= space.SearchFrom)
            throw Refuse($"The search must end ({Mm(space.SearchTo)} mm) outboard of where it begins ({Mm(space.SearchFrom)} mm).");
        foreach (var keepOut in space.Rail is { } rail ? space.KeepOuts.Add(rail) : space.KeepOuts)
        {
            if (keepOut.Outer < keepOut.Inner)
                throw Refuse($"The outer face of '{keepOut.Name}' ({Mm(keepOut.Outer)} mm) lies inboard of its inner face ({Mm(keepOut.Inner)} mm).");
            if (keepOut.Top < keepOut.Bottom)
                throw Refuse($"The top of '{keepOut.Name}' ({Mm(keepOut.Top)} mm) lies below its bottom ({Mm(keepOut.Bottom)} mm).");
        }

        if (space.Mounts.BodyEndHeight <= space.Mounts.AxleEndHeight)
            throw Refuse($"The damper's body end ({Mm(space.Mounts.BodyEndHeight)} mm high) must lie above its axle end ({Mm(space.Mounts.AxleEndHeight)} mm).");

        static ArgumentException Refuse(FormattableString text) => new(FormattableString.Invariant(text), nameof(space));
        static string Mm(double metres) => (metres * 1000).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture);
    }

    private static ImmutableArray<Band> Bands(PackagingSpace space, double from, double to, bool stopAtFirst, CancellationToken cancellation)
    {
        var check = new FitCheck(space, cancellation);
        var bands = ImmutableArray.CreateBuilder<Band>();
        double position = from, inner = from;
        Contact? innerLimit = null, lastObstacle = null;
        bool inBand = false;
        while (true)
        {
            cancellation.ThrowIfCancellationRequested();
            var verdict = check.Judge(position);
            if (verdict.Fits && !inBand)
            {
                (inner, innerLimit, inBand) = (position, lastObstacle, true);
                if (stopAtFirst)
                    return [new Band(RailSide.Across, position, position, innerLimit, null)];
            }
            else if (!verdict.Fits)
            {
                if (inBand)
                    bands.Add(Band(position - Resolution, verdict.Worst));
                (inBand, lastObstacle) = (false, verdict.Worst);
            }

            if (position >= to)
                break;
            position = Math.Min(to, position + Math.Max(verdict.Holds, Resolution));
        }

        if (inBand)
            bands.Add(Band(to, null));
        return bands.ToImmutable();

        Band Band(double outer, Contact? outerLimit) => new(SideOf(space, inner, Math.Max(inner, outer)), inner, Math.Max(inner, outer), innerLimit, outerLimit);
    }

    private static RailSide SideOf(PackagingSpace space, double inner, double outer)
    {
        if (space.Rail is not { } rail)
            return RailSide.Across;
        double middle = (rail.Inner + rail.Outer) / 2;
        return outer <= middle ? RailSide.Inboard : inner >= middle ? RailSide.Outboard : RailSide.Across;
    }

    /// <summary>What a slot lacks; null where the search does not reach into it.</summary>
    private static Shortfall? ShortfallOf(PackagingSpace space, RailSide side, CancellationToken cancellation)
    {
        var (from, to) = SlotOf(space, side);
        if (to <= from)
            return null;
        var check = new FitCheck(space, cancellation);
        var closest = EvenSteps.Of(from, to, Candidates)
            .Select(position => (Position: position, check.Judge(position).Worst))
            .MaxBy(candidate => candidate.Worst.Margin);
        var walls = check.BrokenAt(closest.Position)
            .Select(wall => MoveOf(space, side, wall, closest.Position, cancellation))
            .OfType<WallMove>()
            .OrderBy(move => move.Distance);
        return new Shortfall(side, closest.Position, closest.Worst, [.. walls]);
    }

    /// <summary>The least move of one wall that opens the slot, by doubling and halving; null where none does.</summary>
    private static WallMove? MoveOf(PackagingSpace space, RailSide side, KeepOut wall, double position, CancellationToken cancellation)
    {
        bool outboard = (wall.Inner + wall.Outer) / 2 > position;
        double enough = 1e-3, tooLittle = 0;
        while (!OpensWith(enough))
        {
            (tooLittle, enough) = (enough, enough * 2);
            if (tooLittle > FurthestMove)
                return null;
        }

        while (enough - tooLittle > Resolution)
        {
            double middle = (enough + tooLittle) / 2;
            if (OpensWith(middle))
                enough = middle;
            else
                tooLittle = middle;
        }

        return new WallMove(wall.Name, enough, outboard);

        bool OpensWith(double distance)
        {
            var moved = wall.Shifted(outboard ? distance : -distance);
            var changed = wall == space.Rail
                ? space with { Rail = moved }
                : space with { KeepOuts = space.KeepOuts.Replace(wall, moved) };
            var (from, to) = SlotOf(changed, side);
            return to > from && Bands(changed, from, to, stopAtFirst: true, cancellation).Length > 0;
        }
    }

    private static (double From, double To) SlotOf(PackagingSpace space, RailSide side)
    {
        if (space.Rail is not { } rail)
            return (space.SearchFrom, space.SearchTo);
        double middle = (rail.Inner + rail.Outer) / 2;
        return side == RailSide.Inboard
            ? (space.SearchFrom, Math.Min(middle, space.SearchTo))
            : (Math.Max(middle, space.SearchFrom), space.SearchTo);
    }
}
