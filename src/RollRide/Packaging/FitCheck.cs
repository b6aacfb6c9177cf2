using System.Collections.Immutable;

namespace RollRide.Packaging;

/// <summary>
/// Says whether everything keeps its clearance over the whole travel, with the damper at one lateral position or at all positions of a
/// range. Nothing is sampled and hoped for: see <see cref="Cell.Bound"/>. Not thread-safe.
/// </summary>
internal sealed class FitCheck
{
    /// <summary>Margins are known to this, m; what lacks less is kept.</summary>
    public const double Tolerance = 1e-5;

    // A cell that is still undecided after so many others lies on the edge between kept and broken.
    private const int MostCells = 5000;

    private readonly PackagingSpace _space;
    private readonly Pair[] _pairs;
    private readonly CancellationToken _cancellation;
    private readonly Stack<Cell> _open = new();

    /// <summary>Checks the damper against everything around it and against its own lengths.</summary>
    public static FitCheck OfDamper(PackagingSpace space, CancellationToken cancellation = default) => new(space, Pair.OfDamper(space), cancellation);

    private FitCheck(PackagingSpace space, ImmutableArray<Pair> pairs, CancellationToken cancellation) =>
        (_space, _pairs, _cancellation) = (space, [.. pairs], cancellation);

    /// <summary>What breaks its clearance with the damper at its place, the worst first: of each obstacle the part that lacks most.</summary>
    public static ImmutableArray<Contact> Broken(PackagingSpace space, double position, CancellationToken cancellation = default) =>
        Broken(space, Pair.OfDamper(space), position, cancellation);

    /// <summary>What moves with the axle and runs into what is fixed to the body, wherever the damper stands.</summary>
    public static ImmutableArray<Contact> BrokenByRooms(PackagingSpace space, CancellationToken cancellation = default) =>
        Broken(space, Pair.OfRooms(space), 0, cancellation);

    private static ImmutableArray<Contact> Broken(PackagingSpace space, ImmutableArray<Pair> pairs, double position, CancellationToken cancellation) =>
        [.. pairs.GroupBy(pair => (pair.Name, pair.Against))
            .Select(group => new FitCheck(space, [.. group], cancellation).Least(position))
            .Where(contact => contact.Margin < -Tolerance)
            .OrderBy(contact => contact.Margin)];

    /// <summary>Judges all positions of a range at once.</summary>
    /// <param name="from">Its most inboard position, m.</param>
    /// <param name="to">Its most outboard position, m.</param>
    public Fit Judge(double from, double to)
    {
        double position = (from + to) / 2, half = (to - from) / 2;
        bool isBroken = false;

        // Most violations show at corners and middles of the travel.
        foreach (var cell in Cells(position, half))
        {
            foreach (var (inner, outer) in cell.EndsAtCornersAndMiddles())
            {
                foreach (var pair in _pairs)
                {
                    double atInner = pair.Margin(inner), atOuter = half > 0 ? pair.Margin(outer) : atInner;
                    if (Math.Max(atInner, atOuter) + cell.MostBetweenEnds(pair, inner) < -Tolerance)
                        return Fit.Nowhere;
                    isBroken |= Math.Min(atInner, atOuter) < -Tolerance;
                }
            }
        }

        if (!isBroken && Explore(position, half, proveOnly: true).IsProven)
            return Fit.Everywhere;
        return half > 0 ? Fit.Undecided : Fit.Nowhere;
    }

    /// <summary>The tightest of all pairs over the whole travel at one position, its margin to within <see cref="Tolerance"/>.</summary>
    /// <param name="position">Lateral position of the axle end, m.</param>
    public Contact Least(double position) => Explore(position, 0, proveOnly: false).Worst;

    /// <summary>Branch and bound over heave and roll: a cell whose bound is good enough is settled, others are halved.</summary>
    private (Contact Worst, bool IsProven) Explore(double position, double half, bool proveOnly)
    {
        Contact? worst = null;
        bool isProven = true;
        _open.Clear();
        foreach (var cell in Cells(position, half))
            _open.Push(cell);
        for (int cells = 0; _open.TryPop(out var cell); cells++)
        {
            _cancellation.ThrowIfCancellationRequested();
            var undecided = new List<Pair>(cell.Pairs.Length);
            foreach (var pair in cell.Pairs)
            {
                See(pair, cell.Middle);
                if (cell.MarginWithinReach(pair) >= Enough() || cell.Bound(pair) >= Enough())
                    continue;
                undecided.Add(pair);
                foreach (var corner in cell.Corners)
                    See(pair, corner);
            }

            if (proveOnly && worst!.Margin < -Tolerance)
                return (worst, false);
            if (undecided.Count == 0)
                continue;
            if (cells > MostCells || cell.IsSmall)
                isProven = false;
            else
                cell.Split([.. undecided], _open);
        }

        return (worst!, isProven);

        double Enough() => proveOnly ? -Tolerance : worst!.Margin - Tolerance;

        void See(Pair pair, Scene scene)
        {
            double margin = pair.Margin(scene);
            if (worst is null || margin < worst.Margin)
                worst = pair.At(scene, margin);
        }
    }

    /// <summary>One cell for each stretch between the corners of the travel.</summary>
    private IEnumerable<Cell> Cells(double position, double half)
    {
        var corners = _space.Travel.Corners;
        for (int i = 1; i < corners.Length; i++)
            yield return new Cell(_space, _pairs, position, half, (corners[i - 1].Heave + corners[i].Heave) / 2, (corners[i].Heave - corners[i - 1].Heave) / 2, 0, 1);
    }

    /// <summary>Where in a range of positions every clearance is kept.</summary>
    internal enum Fit
    {
        /// <summary>At none of them.</summary>
        Nowhere,

        /// <summary>At some of them, or not known.</summary>
        Undecided,

        /// <summary>At all of them.</summary>
        Everywhere,
    }
}
