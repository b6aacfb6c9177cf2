using System.Collections.Immutable;

namespace RollRide.Studies;

/// <summary>Where the search for a trade-off front goes next, from what was tried.</summary>
internal static class TradeOffGoals
{
    // Adds a little of the sum to the larger objective, so that the search does not stop on a point that another one dominates.
    private const double SumShare = 0.05;

    // Many settings have no overshoot at all. So small a weight, per m/s², finds the best ride among them and moves the least overshoot by less than 0.1 %.
    private const double RideAmongCalmest = 1e-4;

    /// <summary>What the searches go for and where they start: either objective alone, and a fan of directions between.</summary>
    public static List<(Func<TradeOffPoint, double> Value, TradeOffTrial Start, int Tries)> Of(List<TradeOffTrial> trials, int directions, int tries)
    {
        var usable = trials.Where(t => t.Point is not null).ToList();
        var scale = new Scale(TradeOffFront.NonDominated(Points(usable)));
        var goals = new List<(Func<TradeOffPoint, double> Value, TradeOffTrial Start, int Tries)>();
        foreach (var end in new Func<TradeOffPoint, double>[] { p => p.WeightedAcceleration, p => p.Overshoot + (RideAmongCalmest * p.WeightedAcceleration) })
            goals.AddRange(usable.OrderBy(t => end(t.Point!)).Take(TradeOff.EndStarts).Select(start => (end, start, TradeOff.EndEffort * tries)));
        for (int k = 0; k < directions; k++)
        {
            double weight = (k + 0.5) / directions;
            double Achievement(TradeOffPoint p)
            {
                var (ride, roll) = scale.Of(p);
                return Math.Max(weight * ride, (1 - weight) * roll) + SumShare * (ride + roll);
            }

            goals.Add((Achievement, usable.MinBy(t => Achievement(t.Point!))!, tries));
        }

        return goals;
    }

    /// <summary>What the trials gave that could be run.</summary>
    public static IEnumerable<TradeOffPoint> Points(IEnumerable<TradeOffTrial> trials) => trials.Where(t => t.Point is not null).Select(t => t.Point!);

    /// <summary>Places midway between neighbours of the front where it is widest open; none once the front has points enough.</summary>
    public static double[][] WidestGaps(List<TradeOffTrial> trials, int wanted)
    {
        var front = TradeOffFront.NonDominated(Points(trials));
        if (front.Length >= wanted || front.Length < 2)
            return [];
        var scale = new Scale(front);
        var places = trials.Where(t => t.Point is not null).GroupBy(t => t.Point!).ToDictionary(g => g.Key, g => g.First().Place);
        double Gap(int i)
        {
            var (one, other) = (scale.Of(front[i]), scale.Of(front[i + 1]));
            return double.Hypot(one.Ride - other.Ride, one.Roll - other.Roll);
        }

        return [.. Enumerable.Range(0, front.Length - 1)
            .OrderByDescending(Gap)
            .Take(TradeOff.GapsAtOnce)
            .Select(i => places[front[i]].Zip(places[front[i + 1]], (a, b) => (a + b) / 2).ToArray())
            .Where(place => !trials.Any(t => t.Place.SequenceEqual(place)))];
    }

    /// <summary>Both objectives over their range on the first front: 0 at the best, 1 at what the other's best costs.</summary>
    private sealed class Scale(ImmutableArray<TradeOffPoint> front)
    {
        private readonly double _ride = front[0].WeightedAcceleration;
        private readonly double _rideSpan = Math.Max(front[^1].WeightedAcceleration - front[0].WeightedAcceleration, 1e-9);
        private readonly double _roll = front[^1].Overshoot;
        private readonly double _rollSpan = Math.Max(front[0].Overshoot - front[^1].Overshoot, 1e-9);

        public (double Ride, double Roll) Of(TradeOffPoint point) =>
            ((point.WeightedAcceleration - _ride) / _rideSpan, (point.Overshoot - _roll) / _rollSpan);
    }
}
