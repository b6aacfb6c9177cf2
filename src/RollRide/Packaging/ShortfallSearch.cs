namespace RollRide.Packaging;

/// <summary>Finds what a slot without room for a damper is short of: where the damper comes closest to fitting, and how far which wall must move.</summary>
/// <param name="space">What stands where.</param>
/// <param name="side">The slot.</param>
/// <param name="cancellation">Stops the search.</param>
internal sealed class ShortfallSearch(PackagingSpace space, RailSide side, CancellationToken cancellation)
{
    // 1 m in steps of the search: with a wall that has to move farther it is another vehicle.
    private const int FurthestMove = 10_000;

    // Stricter than the search for bands, which is then sure to find the slot open.
    private const double Kept = FitCheck.Tolerance / 2;

    /// <summary>What the slot is short of; null where the search does not reach into it.</summary>
    public Shortfall? Find()
    {
        var (from, to) = space.SlotOf(side);
        var slot = Positions.Between(from, to);
        if (slot.IsEmpty || to <= from)
            return null;
        var check = FitCheck.OfDamper(space, cancellation);
        var margins = new Dictionary<Positions, double>();
        var (closest, _) = Cheapest([slot], int.MaxValue, (range, lacking) => Positions.Metres(lacking) + MostMargin(range))!.Value;
        var walls = FitCheck.Broken(space, closest, cancellation)
            .Select(contact => space.AllKeepOuts.FirstOrDefault(room => room.Name == contact.Against))
            .OfType<KeepOut>()
            .Select(wall => MoveOf(wall, slot, closest))
            .OfType<WallMove>()
            .OrderBy(move => move.Distance);
        return new Shortfall(side, closest, check.Least(closest), [.. walls]);

        double MostMargin(Positions range) => margins.TryGetValue(range, out double known) ? known : margins[range] = check.MostMargin(range.Middle, range.Half);
    }

    /// <summary>The least move of one wall, sideways or in height, that opens the slot; null where none does.</summary>
    private WallMove? MoveOf(KeepOut wall, Positions slot, double closest)
    {
        // The slot ends at the rail, and goes where that goes.
        var within = wall == space.Rail ? Positions.Between(space.SearchFrom, space.SearchTo) : slot;
        var others = space.Without(wall);
        Positions[] free = [.. within.ThatFit(new FitCheck(others, Pair.OfDamper(others), Kept, cancellation))];
        double height = (space.Mounts.AxleEndHeight + space.Mounts.BodyEndHeight) / 2;
        var sideways = (wall.Inner + wall.Outer) / 2 > closest ? WallDirection.Outboard : WallDirection.Inboard;
        var upright = (wall.Bottom + wall.Top) / 2 > height ? WallDirection.Up : WallDirection.Down;
        int? aside = LeastMove(sideways, FurthestMove);
        return LeastMove(upright, (aside ?? FurthestMove + 1) - 1) is { } raised ? new WallMove(wall.Name, Positions.Metres(raised), upright)
            : aside is { } moved ? new WallMove(wall.Name, Positions.Metres(moved), sideways)
            : null;

        int? LeastMove(WallDirection direction, int most) => Cheapest(free, most, (range, steps) => MostMargin(range, direction, Positions.Metres(steps)))?.Cost;

        // With the wall moved: minus the distance that is left into the slot, or within the slot the wall's own margin.
        double MostMargin(Positions range, WallDirection direction, double distance)
        {
            var moved = wall.Moved(distance, direction);
            var (from, to) = (wall == space.Rail ? space with { Rail = moved } : space).SlotOf(side);
            double outside = Math.Max(from - Positions.Metres(range.Last), Positions.Metres(range.First) - to);
            return outside > 0 ? -outside : new FitCheck(space, [.. Pair.OfKeepOut(moved)], Kept, cancellation).MostMargin(range.Middle, range.Half);
        }
    }

    /// <summary>The position that fits at the least cost in steps, each of which adds no more than its length to a margin; null where none does.</summary>
    /// <param name="ranges">Where to look.</param>
    /// <param name="most">The most to be spent.</param>
    /// <param name="mostMargin">Upper bound of the margin over a range at a cost, m.</param>
    private static (double Position, int Cost)? Cheapest(IEnumerable<Positions> ranges, int most, Func<Positions, int, double> mostMargin)
    {
        // The cheapest range comes first, of equal ones the narrowest: the first single position to fit is the cheapest.
        var open = new PriorityQueue<Positions, (int Cost, int Width)>(ranges.Select(range => (range, (0, range.Last - range.First))));
        while (open.TryDequeue(out var range, out var at) && at.Cost <= most)
        {
            double lacking = FitCheck.Accuracy - Kept - mostMargin(range, at.Cost);
            if (lacking > 0)
            {
                open.Enqueue(range, (at.Cost + Positions.StepsIn(lacking), at.Width));
            }
            else if (range.IsSingle)
            {
                return (range.Middle, at.Cost);
            }
            else
            {
                var (inner, outer) = range.Halves();
                open.EnqueueRange([(inner, (at.Cost, inner.Last - inner.First)), (outer, (at.Cost, outer.Last - outer.First))]);
            }
        }

        return null;
    }
}
