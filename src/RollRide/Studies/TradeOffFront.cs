using System.Collections.Immutable;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>The best that one layout can do between the ride over the bump and the roll in the corner.</summary>
public sealed record TradeOffFront
{
    /// <summary>Name of the layout.</summary>
    public required string Layout { get; init; }

    /// <summary>
    /// The front, from the easiest ride to the calmest roll: no setting tried is better in one without being worse in the other.
    /// Its first point is the best found for the ride alone, its last the best found for roll alone.
    /// </summary>
    public required ImmutableArray<TradeOffPoint> Points { get; init; }

    /// <summary>
    /// Index of the best compromise: the point farthest from the straight line between both ends, each objective over its range on the front (I. Das,
    /// "On characterizing the 'knee' of the Pareto curve", Struct. Optim. 18, 1999; from memory).
    /// </summary>
    public required int CompromiseIndex { get; init; }

    /// <summary>The best compromise: beyond it small gains get expensive.</summary>
    public TradeOffPoint Compromise => Points[CompromiseIndex];

    /// <summary>The layout with the damper of the best compromise.</summary>
    public required DamperLayout CompromiseLayout { get; init; }

    /// <summary>What becomes of the heave target at the best compromise, in its worst load state.</summary>
    public required TargetOutcome CompromiseHeave { get; init; }

    /// <summary>What becomes of the roll target at the best compromise, in its worst load state.</summary>
    public required TargetOutcome CompromiseRoll { get; init; }

    /// <summary>What the present damper does, on the same axes, in the worst load state of each; its valving is a fit and only for reading.</summary>
    public required (double WeightedAcceleration, double Overshoot) Present { get; init; }

    /// <summary>Number of settings simulated.</summary>
    public required int Simulations { get; init; }

    /// <summary>Settings with which the run could not be finished, because the vehicle rolled over.</summary>
    public required int Failures { get; init; }

    /// <summary>The best compromise simulated anew at a tenth of the solver's tolerances: the largest relative difference of both objectives.</summary>
    public required double CompromiseVerification { get; init; }

    /// <summary>The points that no other point dominates, by ascending acceleration; of equal points the first counts.</summary>
    /// <param name="points">Any points.</param>
    public static ImmutableArray<TradeOffPoint> NonDominated(IEnumerable<TradeOffPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var front = ImmutableArray.CreateBuilder<TradeOffPoint>();
        double calmest = double.PositiveInfinity;
        foreach (var point in points.OrderBy(p => p.WeightedAcceleration).ThenBy(p => p.Overshoot))
        {
            if (point.Overshoot >= calmest)
                continue;
            front.Add(point);
            calmest = point.Overshoot;
        }

        return front.ToImmutable();
    }

    /// <summary>Index of the point farthest below the line between both ends; 0 for fewer than three points.</summary>
    /// <param name="front">A front, by ascending acceleration.</param>
    public static int FindCompromise(IReadOnlyList<TradeOffPoint> front)
    {
        ArgumentNullException.ThrowIfNull(front);
        if (front.Count < 3)
            return 0;
        var (easiest, calmest) = (front[0], front[^1]);

        // Scaled to the unit square the ends lie at (0, 1) and (1, 0), and the distance below their line goes with 1 − x − y.
        return Enumerable.Range(0, front.Count).MinBy(i =>
            (front[i].WeightedAcceleration - easiest.WeightedAcceleration) / (calmest.WeightedAcceleration - easiest.WeightedAcceleration)
            + (front[i].Overshoot - calmest.Overshoot) / (easiest.Overshoot - calmest.Overshoot));
    }

    /// <summary>Keeps a number of points, evenly along the front; the ends and the best compromise always stay.</summary>
    internal static ImmutableArray<TradeOffPoint> Thinned(ImmutableArray<TradeOffPoint> front, int count)
    {
        if (front.Length <= count)
            return front;
        var (easiest, calmest) = (front[0], front[^1]);
        var along = new double[front.Length];
        for (int i = 1; i < along.Length; i++)
        {
            along[i] = along[i - 1] + double.Hypot(
                (front[i].WeightedAcceleration - front[i - 1].WeightedAcceleration) / (calmest.WeightedAcceleration - easiest.WeightedAcceleration),
                (front[i].Overshoot - front[i - 1].Overshoot) / (easiest.Overshoot - calmest.Overshoot));
        }

        var kept = new SortedSet<int> { 0, front.Length - 1, FindCompromise(front) };

        // The next point nearest to each even share; where it is taken already, the next free one.
        for (int k = 0; k < count && kept.Count < count; k++)
        {
            double share = EvenSteps.At(0, along[^1], k, count - 1);
            kept.Add(Enumerable.Range(0, front.Length).Where(i => !kept.Contains(i)).MinBy(i => Math.Abs(along[i] - share)));
        }

        return [.. kept.Select(i => front[i])];
    }
}
