using System.Collections.Immutable;
using RollRide.Vehicle;

namespace RollRide.Packaging;

/// <summary>Says whether everything keeps its clearance over the whole travel, with the damper at one lateral position or slid about it.</summary>
/// <remarks>
/// The travel is halved into cells until nothing can come nearer in a cell than is known already. A margin differs from that in the cell's middle
/// by no more than the way <c>w</c> that points of the two things move against each other from there (<see cref="Pair.Sway"/>). Once <c>w</c> is small
/// the cell's corners say more. Take the place in the cell where the things are nearest, <c>d</c> apart, and there the two points nearest each
/// other. The place is a mean of the corners. If all points moved on straight lines, what these two move against each other would average to
/// nothing over the corners, and its square to no more than <c>w²</c>; so at some corner they, and the things, are no more than <c>√(d² + w²)</c>
/// apart, <c>w²/2d</c> more than at the nearest. As much again covers that their ways bend, with radii from 50 mm upward. Not thread-safe.
/// </remarks>
internal sealed class FitCheck
{
    /// <summary>What lacks less is kept, m.</summary>
    public const double Tolerance = 1e-5;

    /// <summary>Margins are known to this, m, so that what one search has found to be kept another does not find broken.</summary>
    public const double Accuracy = Tolerance / 4;

    // The least radius on which a point of a damper or an axle moves, m.
    private const double LeastRadius = 0.05;

    // Things that touch or overlap are told to this, m, or to this share of their depth.
    private const double TouchAccuracy = 3e-5, DepthAccuracy = 0.02;

    private readonly PackagingSpace _space;
    private readonly IReadOnlyList<Pair> _pairs;
    private readonly double _kept;
    private readonly CancellationToken _cancellation;

    /// <summary>Checks some pairs.</summary>
    /// <param name="space">What stands where.</param>
    /// <param name="pairs">The pairs.</param>
    /// <param name="kept">What lacks less is kept, m.</param>
    /// <param name="cancellation">Stops a check.</param>
    public FitCheck(PackagingSpace space, ImmutableArray<Pair> pairs, double kept, CancellationToken cancellation) =>
        (_space, _pairs, _kept, _cancellation) = (space, pairs, kept, cancellation);

    /// <summary>Checks the damper against everything around it and against its own lengths.</summary>
    public static FitCheck OfDamper(PackagingSpace space, CancellationToken cancellation = default) => new(space, Pair.OfDamper(space), Tolerance, cancellation);

    /// <summary>What breaks its clearance with the damper at its place, the worst first: of each obstacle the part that lacks most.</summary>
    public static ImmutableArray<Contact> Broken(PackagingSpace space, double position, CancellationToken cancellation = default) =>
        Broken(space, Pair.OfDamper(space), position, cancellation);

    /// <summary>What moves with the axle and runs into what is fixed to the body, wherever the damper stands.</summary>
    public static ImmutableArray<Contact> BrokenByRooms(PackagingSpace space, CancellationToken cancellation = default) =>
        Broken(space, Pair.OfRooms(space), 0, cancellation);

    private static ImmutableArray<Contact> Broken(PackagingSpace space, ImmutableArray<Pair> pairs, double position, CancellationToken cancellation) =>
        [.. pairs.GroupBy(pair => (pair.Name, pair.Against))
            .Select(group => new FitCheck(space, [.. group], Tolerance, cancellation).Least(position))
            .Where(contact => contact.Margin < -Tolerance)
            .OrderBy(contact => contact.Margin)];

    /// <summary>Judges all positions of a range at once.</summary>
    /// <param name="position">Its middle, m.</param>
    /// <param name="half">Half its width, m.</param>
    public Fit Judge(double position, double half)
    {
        // Most violations show at the ends and the middle of the travel's roll.
        foreach (var scene in Ends(position))
        {
            if (_pairs.Any(pair => Margin(pair, scene, -half) < -_kept))
                return Fit.Nowhere;
        }

        var (margin, broken, where) = Explore(position, half, untilBroken: true);
        return margin >= -_kept ? Fit.Everywhere : half == 0 || Margin(broken!, where!, -half) < -_kept ? Fit.Nowhere : Fit.Undecided;
    }

    /// <summary>The tightest of all pairs over the whole travel at one position, its margin to within <see cref="Accuracy"/>.</summary>
    /// <param name="position">Lateral position of the axle end, m.</param>
    public Contact Least(double position)
    {
        var (margin, pair, scene) = Explore(position, 0, untilBroken: false);
        return pair!.At(scene!, margin);
    }

    /// <summary>What the least margin exceeds at no position of a range, m; infinite where nothing is in the way of all of them.</summary>
    /// <param name="position">The range's middle, m.</param>
    /// <param name="half">Half its width, m.</param>
    public double MostMargin(double position, double half) => Explore(position, -half, untilBroken: false).Margin;

    private (double Margin, Pair? Pair, Scene? Scene) Explore(double position, double slide, bool untilBroken)
    {
        (double Margin, Pair? Pair, Scene? Scene) worst = (double.PositiveInfinity, null, null);
        foreach (var scene in Ends(position))
        {
            foreach (var pair in _pairs)
                See(pair, scene);
        }

        var open = new Stack<(TravelCell Cell, IReadOnlyList<Pair> Pairs)>(TravelCell.All(_space.Travel).Select(cell => (cell, _pairs)));
        while (open.TryPop(out var next) && !(untilBroken && worst.Margin < -_kept))
        {
            _cancellation.ThrowIfCancellationRequested();
            var cell = next.Cell;
            var middle = At(cell.Middle);
            double halfRoll = cell.HalfRoll, ends = middle.EndMotion(0, cell.HalfHeave, halfRoll);
            Pair[] undecided = [.. next.Pairs.Where(pair => !IsSettled(pair))];
            if (undecided.Length == 0)
                continue;

            // Where the stops leave less roll the farther the heave, the roll that comes with the heave is halved with it.
            double ofShares = cell.HalfRollAtMiddle;
            bool inHeave = middle.EndMotion(0, cell.HalfHeave, halfRoll - ofShares) >= middle.EndMotion(0, 0, ofShares);
            foreach (var half in cell.Halves(inHeave))
                open.Push((half, undecided));

            bool IsSettled(Pair pair)
            {
                double margin = See(pair, middle);
                double way = pair.Sway(middle, Math.Abs(slide), cell.HalfHeave, halfRoll) - Slip(pair, middle, slide);
                if (margin - way >= Enough())
                    return true;
                double missed = ends <= Accuracy ? 0 : MostMissed(margin + pair.Allowance(middle), way);
                if (missed > Accuracy && margin - missed < Enough())
                    return false;
                double least = cell.Corners.Min(corner => See(pair, At(corner)));
                if (missed > Accuracy && least - missed < Enough())
                    return false;

                // So small a cell that is not known to keep the clearance counts as breaking it.
                if (untilBroken && least - missed < -_kept)
                    worst = (least - missed, pair, middle);
                return true;
            }
        }

        return worst;

        // What margins that keep the clearance are worth is not asked.
        double Enough() => Math.Min(worst.Margin, -_kept);

        Scene At(TravelCorner place) => new(_space, position, place.Heave, place.Roll);

        double See(Pair pair, Scene scene)
        {
            double margin = Margin(pair, scene, slide);
            if (margin < worst.Margin)
                worst = (margin, pair, scene);
            return margin;
        }
    }

    /// <summary>The least margin of a range of positions, or, with a negative slide, the most that they all fall short of.</summary>
    private static double Margin(Pair pair, Scene scene, double slide) => pair.Gap(scene, slide) - (Math.Sign(slide) * Slip(pair, scene, slide));

    private static double Slip(Pair pair, Scene scene, double slide) => slide == 0 ? 0 : pair.Sway(scene, Math.Abs(slide), 0, 0);

    /// <summary>By how much things can be nearer within a cell than at its corners, m.</summary>
    private static double MostMissed(double apart, double way) =>
        apart > way ? way * way / Math.Min(apart - way, LeastRadius)
        : way <= Math.Max(TouchAccuracy, DepthAccuracy * -apart) ? 0
        : double.PositiveInfinity;

    private IEnumerable<Scene> Ends(double position) =>
        from corner in _space.Travel.Corners from share in (int[])[-1, 0, 1] select new Scene(_space, position, corner.Heave, share * corner.Roll);

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
