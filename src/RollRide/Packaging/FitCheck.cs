using System.Collections.Immutable;
using RollRide.Vehicle;

namespace RollRide.Packaging;

/// <summary>Checks whether every clearance is kept over the whole travel, with the damper at one lateral position or anywhere in a range.</summary>
/// <remarks>
/// The travel, a region of heave and roll, is bisected into cells until no cell can hold a smaller margin than the smallest one known. From the
/// middle of a cell a margin changes by no more than <c>w</c>, the bound on the relative motion of the two bodies' points
/// (<see cref="Pair.MotionBound"/>). Once <c>w</c> is small, the cell's corners give a sharper bound. Let the bodies be nearest, <c>d</c> apart, at
/// some place in the cell, which is a weighted mean of its corners, and take the two points nearest each other there. If all points moved on
/// straight lines, the relative displacement of these two would average to zero over the corners, and its square to no more than <c>w²</c>; so at
/// some corner they, and the bodies, are no more than <c>√(d² + w²)</c> apart, which is at most <c>w²/2d</c> more than <c>d</c>. The same amount
/// again covers the curvature of the paths, whose radii are 50 mm or more. Derived here. Not thread-safe.
/// </remarks>
internal sealed class FitCheck
{
    /// <summary>A clearance that is short by less than this, m, counts as kept.</summary>
    public const double Tolerance = 1e-5;

    /// <summary>Accuracy of a margin, m: finer than the tolerance, so that two searches agree on whether a clearance is kept.</summary>
    public const double Accuracy = Tolerance / 4;

    // The assumed smallest radius of curvature of the path of a point of damper or axle, m.
    private const double LeastRadius = 0.05;

    // Depth of an overlap is found to within the first, m, or to within the second as a share of it.
    private const double TouchAccuracy = 3e-5, DepthAccuracy = 0.02;

    private readonly PackagingSpace _space;
    private readonly IReadOnlyList<Pair> _pairs;
    private readonly double _kept;
    private readonly CancellationToken _cancellation;

    /// <summary>Checks some pairs.</summary>
    /// <param name="space">What stands where.</param>
    /// <param name="pairs">The pairs.</param>
    /// <param name="kept">A clearance that is short by less than this, m, counts as kept.</param>
    /// <param name="cancellation">Stops a check.</param>
    public FitCheck(PackagingSpace space, ImmutableArray<Pair> pairs, double kept, CancellationToken cancellation) =>
        (_space, _pairs, _kept, _cancellation) = (space, pairs, kept, cancellation);

    /// <summary>Checks the damper against everything around it and against its own lengths.</summary>
    public static FitCheck OfDamper(PackagingSpace space, CancellationToken cancellation = default) => new(space, Pair.OfDamper(space), Tolerance, cancellation);

    /// <summary>The clearances broken with the damper at one position, the worst first; for each keep-out the part of the damper that is shortest of clearance.</summary>
    public static ImmutableArray<Contact> Broken(PackagingSpace space, double position, CancellationToken cancellation = default) =>
        Broken(space, Pair.OfDamper(space), position, cancellation);

    /// <summary>Keep-outs on the axle that run into keep-outs on the body, whatever the damper's position; the worst first.</summary>
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
        // Most violations show at full roll either way and without roll.
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

    /// <summary>Upper bound of the least margin over a range of positions, m; infinite where nothing is in the way of all of them.</summary>
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
            bool inHeave = middle.EndMotion(0, cell.HalfHeave, cell.HalfRollByHeave) >= middle.EndMotion(0, 0, cell.HalfRollByShare);
            foreach (var half in cell.Halves(inHeave))
                open.Push((half, undecided));

            bool IsSettled(Pair pair)
            {
                double margin = See(pair, middle);
                double way = pair.MotionBound(middle, Math.Abs(slide), cell.HalfHeave, halfRoll) - SlideBound(pair, middle, slide);
                if (margin - way >= Enough())
                    return true;
                double missed = ends <= Accuracy ? 0 : MostMissed(margin + pair.Allowance(middle), way);
                if (missed > Accuracy && margin - missed < Enough())
                    return false;
                double least = cell.Corners.Min(corner => See(pair, At(corner)));
                if (missed > Accuracy && least - missed < Enough())
                    return false;

                // A cell this small in which the clearance is not proved counts as breaking it.
                if (untilBroken && least - missed < -_kept)
                    worst = (least - missed, pair, middle);
                return true;
            }
        }

        return worst;

        // Margins that keep the clearance need not be known any closer.
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

    /// <summary>Lower bound of the margin over a range of positions, or its upper bound with a negative slide.</summary>
    private static double Margin(Pair pair, Scene scene, double slide) => pair.Gap(scene, slide) - (Math.Sign(slide) * SlideBound(pair, scene, slide));

    /// <summary>Upper bound of the change of the gap by the slide alone, m.</summary>
    private static double SlideBound(Pair pair, Scene scene, double slide) => slide == 0 ? 0 : pair.MotionBound(scene, Math.Abs(slide), 0, 0);

    /// <summary>Upper bound of how much nearer two bodies can be within a cell than at its corners, m.</summary>
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
