using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>
/// The combinations of heave and roll that a suspension can reach: at every heave all roll up to a limit, the same to either side. Where the sides differ it
/// is the limit of the way that leaves more, so that nothing that can be reached is left out. Between its <see cref="Corners"/> the limit is straight.
/// </summary>
public sealed class TravelEnvelope
{
    // The limits are looked for at so many heaves, and where one takes over from another.
    private const int Steps = 40;

    // Limits that bend by less than this, rad, are straight: some of the accuracy of the contact.
    private const double Straight = 1e-9;

    // A limit that bends by more than this between two of them, rad, is followed more closely: 10 µm at the wheel.
    private const double Followed = 1e-5;

    // Where one limit takes over from another is known to this, m.
    private const double SamePlace = 1e-9;

    private TravelEnvelope(TravelRange range, bool isGiven, ImmutableArray<TravelCorner> corners) =>
        (Range, IsGiven, Corners) = (range, isGiven, corners);

    /// <summary>How far it reaches in bump and rebound, and in roll: at the heave that leaves most, or, from the stops alone, at ride height.</summary>
    public TravelRange Range { get; }

    /// <summary>Whether the vehicle's travel is given; otherwise the stops alone limit it.</summary>
    public bool IsGiven { get; }

    /// <summary>The heaves at which the limit of roll bends, from full rebound to full bump; at least two.</summary>
    public ImmutableArray<TravelCorner> Corners { get; }

    /// <summary>
    /// Of sides that differ, the roll reached the way that leaves less, rad, at the heave that leaves most; null where both ways are taken to leave the same.
    /// </summary>
    public double? LeastRoll { get; private init; }

    /// <summary>Every combination within a range.</summary>
    /// <param name="range">The range.</param>
    public static TravelEnvelope All(TravelRange range)
    {
        ArgumentNullException.ThrowIfNull(range);
        return new TravelEnvelope(range, true, [new(-range.Rebound, range.Roll), new(range.Bump, range.Roll)]);
    }

    /// <summary>The envelope of a suspension; null where neither its travel nor its stops say how far it goes.</summary>
    /// <param name="given">The travel it is laid out for; null where it is not given.</param>
    /// <param name="bumpStop">Its left bump stop; null for none.</param>
    /// <param name="reboundStop">Its left rebound stop; null for none.</param>
    /// <param name="halfTrack">Half the track, m; above 0.</param>
    /// <param name="right">The stops of the right side; null where they are the same.</param>
    public static TravelEnvelope? Of(
        TravelRange? given, TravelStop? bumpStop, TravelStop? reboundStop, double halfTrack, (TravelStop? Bump, TravelStop? Rebound)? right = null) =>
        Of(given, bumpStop, reboundStop, halfTrack, right, null);

    /// <summary>The envelope of a vehicle; null where neither its travel nor its stops say how far it goes.</summary>
    /// <param name="vehicle">The vehicle.</param>
    internal static TravelEnvelope? Of(HalfCar vehicle) => Of(
        vehicle.Travel, vehicle.BumpStop, vehicle.ReboundStop, vehicle.HalfTrack, vehicle.RightSide is { } right ? (right.BumpStop, right.ReboundStop) : null, vehicle.StandingTyres);

    private static TravelEnvelope? Of(
        TravelRange? given, TravelStop? bumpStop, TravelStop? reboundStop, double halfTrack, (TravelStop? Bump, TravelStop? Rebound)? right, StandingTyres? tyres)
    {
        if (given is { Combinations: TravelCombinations.All })
            return All(given);
        if (bumpStop is null || reboundStop is null)
            return null;
        var free = new FreeTravel((bumpStop, reboundStop), right is ({ } bump2, { } rebound2) ? (bump2, rebound2) : null, halfTrack, tyres);
        if (free.AtRest() is not { } contact)
            return null;
        double mostRoll = given?.Roll ?? Math.PI / 2;
        double rebound = Math.Min(contact.Rebound, given?.Rebound ?? contact.Rebound), bump = Math.Min(contact.Bump, given?.Bump ?? contact.Bump);

        // Under a load that stands beyond one end by more than the way to the stop at the other, nothing is left but that stop's contact.
        bump = Math.Max(bump, -rebound);
        (TravelCorner Corner, int Limit) At(double heave)
        {
            var (roll, limit) = free.RollAt(heave) ?? (contact.Roll, 0);
            return roll < mostRoll ? (new TravelCorner(heave, roll), limit) : (new TravelCorner(heave, mostRoll), 0);
        }

        var last = At(-rebound);
        var all = new List<TravelCorner> { last.Corner };
        for (var step = 1; step <= Steps; step++)
        {
            var next = At(EvenSteps.At(-rebound, bump, step, Steps));
            AddUpTo(all, last, next, At);
            last = next;
        }

        var corners = Bends(all);
        var range = new TravelRange
        {
            Bump = bump,
            Rebound = rebound,
            Roll = given is null ? contact.Roll : corners.Max(corner => corner.Roll),
            Combinations = given?.Combinations ?? TravelCombinations.UntilStopsTouch,
        };
        var envelope = new TravelEnvelope(range, given is not null, corners);
        return right is null || free.LeastRollAt(envelope.MostArticulated.Heave) is not { } least || !(least < envelope.MostArticulated.Roll - Straight)
            ? envelope
            : new TravelEnvelope(range, given is not null, corners) { LeastRoll = least };
    }

    /// <summary>The roll reached at a heave, either way, rad.</summary>
    /// <param name="heave">Relative heave, m, within the range.</param>
    public double RollAt(double heave)
    {
        int next = 1;
        while (next < Corners.Length - 1 && heave > Corners[next].Heave)
            next++;
        var (from, to) = (Corners[next - 1], Corners[next]);
        double share = to.Heave > from.Heave ? (heave - from.Heave) / (to.Heave - from.Heave) : 0;
        return from.Roll + (share * (to.Roll - from.Roll));
    }

    /// <summary>Where the suspension is articulated most: with the most roll, and as far in bump as that goes.</summary>
    public TravelCorner MostArticulated => Corners.Where(corner => corner.Roll >= Corners.Max(other => other.Roll) - Straight).Last();

    /// <summary>The same travel counted from another rest position.</summary>
    /// <param name="travel">Where the wheels stand against the body there, m, positive in bump.</param>
    internal TravelEnvelope From(double travel) =>
        new(Range.From(travel), IsGiven, [.. Corners.Select(corner => corner with { Heave = corner.Heave - travel })]) { LeastRoll = LeastRoll };

    /// <summary>Adds the end of a stretch, and before it where another limit of roll takes over, or what it takes to follow a limit that bends.</summary>
    private static void AddUpTo(List<TravelCorner> corners, (TravelCorner Corner, int Limit) from, (TravelCorner Corner, int Limit) to, Func<double, (TravelCorner Corner, int Limit)> at)
    {
        var middle = at((from.Corner.Heave + to.Corner.Heave) / 2);
        if (from.Limit == to.Limit)
        {
            if (Math.Abs(middle.Corner.Roll - ((from.Corner.Roll + to.Corner.Roll) / 2)) > Followed && to.Corner.Heave - from.Corner.Heave > SamePlace)
            {
                AddUpTo(corners, from, middle, at);
                AddUpTo(corners, middle, to, at);
            }
            else
                corners.Add(to.Corner);
            return;
        }

        var end = to.Corner;
        while (to.Corner.Heave - from.Corner.Heave > SamePlace)
        {
            (from, to) = middle.Limit == from.Limit ? (middle, to) : (from, middle);
            middle = at((from.Corner.Heave + to.Corner.Heave) / 2);
        }

        corners.Add(from.Corner.Roll >= to.Corner.Roll ? from.Corner : to.Corner);
        corners.Add(end);
    }

    private static ImmutableArray<TravelCorner> Bends(List<TravelCorner> all)
    {
        var kept = new List<TravelCorner> { all[0] };
        for (int i = 1; i < all.Count - 1; i++)
        {
            var (before, here, after) = (kept[^1], all[i], all[i + 1]);
            double straight = before.Roll + ((after.Roll - before.Roll) * (here.Heave - before.Heave) / (after.Heave - before.Heave));
            if (Math.Abs(here.Roll - straight) > Straight)
                kept.Add(here);
        }

        kept.Add(all[^1]);
        return [.. kept];
    }
}

/// <summary>A heave with the roll reached there either way.</summary>
/// <param name="Heave">Relative heave, m.</param>
/// <param name="Roll">Relative roll, rad; 0 or more.</param>
public readonly record struct TravelCorner(double Heave, double Roll);
