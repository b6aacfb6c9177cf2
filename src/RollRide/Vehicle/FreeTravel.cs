using MathNet.Numerics.RootFinding;
using RollRide.Mounting;

namespace RollRide.Vehicle;

/// <summary>
/// The heave and roll that the stops of both sides leave free. A stop at the ratios <c>Rh</c>, <c>Rr</c> touches where
/// <c>Rh·|q| + Rr·T·|r|</c> uses up its clearance, so that roll takes from the heave that is left, and heave from the roll. On request only as far as
/// the tyres can hold it.
/// </summary>
internal sealed class FreeTravel
{
    // A limit is looked for at this many points up to twice as far as the stops' ratios at rest say.
    private const int Points = 64;

    // Where a limit is met, m or rad.
    private const double Accuracy = 1e-11;

    private readonly (TravelStop Bump, TravelStop Rebound)[] _sides;
    private readonly StandingTyres? _tyres;
    private readonly double _halfTrack;
    private readonly bool _isAlike;

    /// <summary>What these stops leave free.</summary>
    /// <param name="left">Bump and rebound stop of the left side.</param>
    /// <param name="right">Those of the right side; null where they are the same.</param>
    /// <param name="halfTrack">Half the track, m.</param>
    /// <param name="tyres">What the tyres carry there; null where that does not count.</param>
    public FreeTravel((TravelStop Bump, TravelStop Rebound) left, (TravelStop Bump, TravelStop Rebound)? right, double halfTrack, StandingTyres? tyres = null)
    {
        _sides = [left, right ?? left];
        (_halfTrack, _isAlike, _tyres) = (halfTrack, right is null, tyres);
    }

    /// <summary>The way from ride height to the first contact, in bump, in rebound and in roll; null where one of them meets no stop.</summary>
    public TravelRange? AtRest() =>
        Along(0, 1, 0) is { } bump && Along(0, -1, 0) is { } rebound && RollAt(0) is { Roll: < Math.PI / 2 } end
            ? new TravelRange { Bump = bump.Way, Rebound = rebound.Way, Roll = end.Roll }
            : null;

    /// <summary>
    /// The roll that is left at a heave, either way, rad, and a number for what ends it: where another limit takes over, the roll bends. Null where no stop limits it.
    /// Of unlike sides it is the way that leaves more.
    /// </summary>
    /// <param name="heave">Relative heave, m.</param>
    public (double Roll, int Limit)? RollAt(double heave)
    {
        var one = Along(heave, 0, 1);
        if (_isAlike || one is null)
            return one;
        return Along(heave, 0, -1) is not { } other ? null
            : one.Value.Way >= other.Way ? one
            : (other.Way, -other.Limit);
    }

    /// <summary>The roll that is left at a heave the way that leaves less, rad; null where no stop limits either way.</summary>
    /// <param name="heave">Relative heave, m.</param>
    public double? LeastRollAt(double heave) => Along(heave, 0, 1)?.Way is not { } one ? Along(heave, 0, -1)?.Way
        : Along(heave, 0, -1)?.Way is { } other ? Math.Min(one, other)
        : one;

    /// <summary>How far it goes from a heave along a direction to the first limit, and the number of that limit, above 0; null where no stop is one.</summary>
    private (double Way, int Limit)? Along(double heave, double heaveRate, double rollRate)
    {
        double Speed(TravelStop stop) => Math.Abs(stop.Fitting.HeaveRatio * heaveRate) + Math.Abs(stop.Fitting.RollRatio * _halfTrack * rollRate);
        double slowest = _sides.Min(side => Math.Min(Speed(side.Bump), Speed(side.Rebound)));
        if (slowest <= 0)
            return null;
        double step = 2 * _sides.Max(side => side.Bump.Clearance + side.Rebound.Clearance) / slowest / Points;
        (double Way, int Limit)? first = null;
        void Note(int limit, Func<double, double, double> left)
        {
            if (FirstZero(way => left(heave + (way * heaveRate), way * rollRate), step) is { } way && !(way >= first?.Way))
                first = (way, limit);
        }

        void NoteStop(int limit, TravelStop stop, Side side, int direction)
        {
            // Heave away from a stop that touches at rest only frees it.
            if (stop.Clearance > 0 || direction * heaveRate >= 0)
                Note(limit, (q, r) => stop.Clearance - (direction * stop.Fitting.At(q, r, side).Compression));
        }

        NoteStop(1, _sides[0].Bump, Side.Left, 1);
        NoteStop(2, _sides[0].Rebound, Side.Left, -1);
        NoteStop(3, _sides[1].Bump, Side.Right, 1);
        NoteStop(4, _sides[1].Rebound, Side.Right, -1);
        if (first is not null && _tyres is not null)
            Note(5, _tyres.LeastLoad);
        return first;
    }

    /// <summary>Where what is left is first used up; null where that does not come.</summary>
    private static double? FirstZero(Func<double, double> left, double step)
    {
        if (step <= 0 || left(0) <= 0)
            return 0;
        double before = 0;
        try
        {
            for (int i = 1; i <= Points; i++)
            {
                if (left(i * step) <= 0)
                    return Brent.FindRoot(left, before, i * step, Accuracy);
                before = i * step;
            }
        }
        catch (UnreachableTravelException)
        {
            // The wheel's linkage ends before this limit is met.
        }

        return null;
    }
}
