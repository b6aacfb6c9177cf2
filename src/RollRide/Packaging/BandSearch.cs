using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Packaging;

/// <summary>
/// Finds every band of lateral positions that keeps all clearances over the whole travel. Positions are counted in tenths of a
/// millimetre; ranges of them are judged at once and halved until each is known to fit everywhere or nowhere.
/// </summary>
public static class BandSearch
{
    /// <summary>Positions, edges of bands and moves of walls are whole multiples of this, m: a tenth of a millimetre.</summary>
    public const double Step = 1e-4;

    private const double StepsPerMetre = 1e4;

    // The closest place of a closed slot is looked for at so many positions, then nearer and nearer around the best of them.
    private const int Candidates = 100;

    // In steps: a wall that has to go farther is no longer the same vehicle.
    private const int FurthestMove = 10_000;

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
            [.. sides.Where(side => !bands.Any(band => band.Side == side || band.Side == RailSide.Across)).Select(side => ShortfallOf(space, side, cancellation)).OfType<Shortfall>()]);
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
        var (first, last) = Positions(space.SearchFrom, space.SearchTo);
        var bands = ImmutableArray.CreateBuilder<Band>();
        int? inner = null;
        foreach (var (from, to, fits) in Ranges(check, first, last))
        {
            if (fits)
                inner ??= from;
            if (inner is not { } start || (fits && to < last))
                continue;
            int end = fits ? to : from - 1;
            bands.Add(new Band(
                SideOf(space, start * Step, end * Step), start / StepsPerMetre, end / StepsPerMetre,
                start > first ? At(start - 1) : null, end < last ? At(end + 1) : null));
            inner = null;
        }

        return bands.ToImmutable();

        Contact At(int step) => check.Least(step / StepsPerMetre);
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
                throw Refuse($"The outer face of '{keepOut.Name}' ({Mm(keepOut.Outer)} mm) lies inboard of its inner face ({Mm(keepOut.Inner)} mm).");
            if (keepOut.Top < keepOut.Bottom)
                throw Refuse($"The top of '{keepOut.Name}' ({Mm(keepOut.Top)} mm) lies below its bottom ({Mm(keepOut.Bottom)} mm).");
        }

        if (space.Mounts.BodyEndHeight <= space.Mounts.AxleEndHeight)
            throw Refuse($"The damper's body end ({Mm(space.Mounts.BodyEndHeight)} mm high) must lie above its axle end ({Mm(space.Mounts.AxleEndHeight)} mm).");

        static ArgumentException Refuse(FormattableString text) => new(FormattableString.Invariant(text), nameof(space));
        static string Mm(double metres) => Unit.Millimetre.Of(metres).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture);
    }

    /// <summary>Ranges of positions in which the damper fits everywhere or nowhere, from inboard outward.</summary>
    private static IEnumerable<(int From, int To, bool Fits)> Ranges(FitCheck check, int first, int last)
    {
        var open = new Stack<(int From, int To)>([(first, last)]);
        while (open.TryPop(out var range))
        {
            var fit = check.Judge(range.From / StepsPerMetre, range.To / StepsPerMetre);
            if (fit != FitCheck.Fit.Undecided)
            {
                yield return (range.From, range.To, fit == FitCheck.Fit.Everywhere);
                continue;
            }

            int middle = (range.From + range.To) / 2;
            open.Push((middle + 1, range.To));
            open.Push((range.From, middle));
        }
    }

    private static (int First, int Last) Positions(double from, double to)
    {
        // What rounding alone keeps from being a whole number of steps is one.
        const double Rounding = 1e-6;
        return ((int)Math.Ceiling((from * StepsPerMetre) - Rounding), (int)Math.Floor((to * StepsPerMetre) + Rounding));
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
        var (position, worst) = Closest(space, from, to, cancellation);
        var walls = FitCheck.Broken(space, position, cancellation)
            .Select(contact => space.AllKeepOuts.FirstOrDefault(room => room.Name == contact.Against))
            .OfType<KeepOut>()
            .Select(wall => MoveOf(space, side, wall, position, cancellation))
            .OfType<WallMove>()
            .OrderBy(move => move.Distance);
        return new Shortfall(side, position, worst, [.. walls]);
    }

    /// <summary>The position whose tightest pair lacks least.</summary>
    private static (double Position, Contact Worst) Closest(PackagingSpace space, double from, double to, CancellationToken cancellation)
    {
        var check = FitCheck.OfDamper(space, cancellation);
        var best = BestOf(EvenSteps.Of(from, to, Candidates));
        for (double step = (to - from) / Candidates; step > Step / 10; step /= 4)
            best = BestOf(EvenSteps.Of(Math.Max(from, best.Position - step), Math.Min(to, best.Position + step), 8));
        return best;

        (double Position, Contact Worst) BestOf(double[] positions) =>
            positions.Select(position => (position, check.Least(position))).MaxBy(at => at.Item2.Margin);
    }

    /// <summary>The least move of one wall, sideways or in height, that opens the slot; null where none does.</summary>
    private static WallMove? MoveOf(PackagingSpace space, RailSide side, KeepOut wall, double position, CancellationToken cancellation)
    {
        double height = (space.Mounts.AxleEndHeight + space.Mounts.BodyEndHeight) / 2;
        var sideways = (wall.Inner + wall.Outer) / 2 > position ? WallDirection.Outboard : WallDirection.Inboard;
        var upright = (wall.Bottom + wall.Top) / 2 > height ? WallDirection.Up : WallDirection.Down;
        var move = LeastMove(sideways, FurthestMove);
        return LeastMove(upright, move is null ? FurthestMove : (int)Math.Round(move.Distance * StepsPerMetre) - 1) ?? move;

        // By doubling and halving, up to a number of steps.
        WallMove? LeastMove(WallDirection direction, int most)
        {
            int enough = Math.Min(10, most), tooLittle = 0;
            while (!OpensWith(enough, direction))
            {
                if (enough >= most)
                    return null;
                (tooLittle, enough) = (enough, Math.Min(most, enough * 2));
            }

            while (enough - tooLittle > 1)
            {
                int middle = (enough + tooLittle) / 2;
                if (OpensWith(middle, direction))
                    enough = middle;
                else
                    tooLittle = middle;
            }

            return new WallMove(wall.Name, enough / StepsPerMetre, direction);
        }

        bool OpensWith(int steps, WallDirection direction)
        {
            var moved = wall.Moved(steps / StepsPerMetre, direction);
            var changed = wall == space.Rail
                ? space with { Rail = moved }
                : space with { KeepOuts = space.KeepOuts.Replace(wall, moved) };
            var (from, to) = SlotOf(changed, side);
            var (first, last) = Positions(from, to);
            return last >= first && Ranges(FitCheck.OfDamper(changed, cancellation), first, last).Any(range => range.Fits);
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
