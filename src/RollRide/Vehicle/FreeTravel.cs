using MathNet.Numerics.RootFinding;
using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>
/// The heave and roll that the stops of both sides leave free. A stop at the ratios <c>Rh</c>, <c>Rr</c> touches where
/// <c>Rh·|q| + Rr·T·|r|</c> uses up its clearance, so that roll takes from the heave that is left, and heave from the roll.
/// </summary>
internal sealed class FreeTravel
{
    // A stop is looked for at this many points up to twice as far as its ratios at rest say.
    private const int Points = 64;

    // Share of the range of heave; roll changes by about as many rad as heave by m.
    private const double MostRollAccuracy = 1e-9;

    private readonly (Side Side, TravelStop Bump, TravelStop Rebound)[] _stops;
    private readonly double _halfTrack;
    private readonly bool _isAlike;

    /// <summary>What these stops leave free.</summary>
    /// <param name="left">Bump and rebound stop of the left side.</param>
    /// <param name="right">Those of the right side; null where they are the same.</param>
    /// <param name="halfTrack">Half the track, m.</param>
    public FreeTravel((TravelStop Bump, TravelStop Rebound) left, (TravelStop Bump, TravelStop Rebound)? right, double halfTrack)
    {
        var other = right ?? left;
        _stops = [(Side.Left, left.Bump, left.Rebound), (Side.Right, other.Bump, other.Rebound)];
        (_halfTrack, _isAlike) = (halfTrack, right is null);
    }

    /// <summary>The way from ride height to the first contact, in bump, in rebound and in roll; null where one of them meets no stop.</summary>
    public TravelRange? AtRest() =>
        UntilContact(0, 0, 1, 0) is { } bump && UntilContact(0, 0, -1, 0) is { } rebound && RollAt(0) is { } roll && roll < Math.PI / 2
            ? new TravelRange { Bump = bump, Rebound = rebound, Roll = roll }
            : null;

    /// <summary>The roll that is left at a heave, either way, rad; null where no stop limits it. Of unlike sides the way that leaves more.</summary>
    /// <param name="heave">Relative heave, m.</param>
    public double? RollAt(double heave) => UntilContact(heave, 0, 0, 1) is not { } one ? null
        : _isAlike ? one
        : UntilContact(heave, 0, 0, -1) is { } other ? Math.Max(one, other)
        : null;

    /// <summary>The heaves at which unlike sides leave most roll, one way and the other, m; none where the sides are the same.</summary>
    /// <param name="from">Least heave looked at, m.</param>
    /// <param name="to">Greatest heave, m.</param>
    public IEnumerable<double> MostRollAt(double from, double to) => _isAlike || !(to > from)
        ? []
        : ((double[])[1, -1]).Select(way => DenseSearch.Maximum(heave => UntilContact(heave, 0, 0, way) ?? 0, from, to, MostRollAccuracy).Time);

    /// <summary>The roll that is left at a heave the way that leaves less, rad; null where no stop limits either way.</summary>
    /// <param name="heave">Relative heave, m.</param>
    public double? LeastRollAt(double heave) => UntilContact(heave, 0, 0, 1) is not { } one ? UntilContact(heave, 0, 0, -1)
        : UntilContact(heave, 0, 0, -1) is { } other ? Math.Min(one, other)
        : one;

    /// <summary>The least clearance left at the stops that are looked at, both sides, m; negative past contact.</summary>
    private double Clearance(double heave, double roll, bool ofBump, bool ofRebound)
    {
        double least = double.PositiveInfinity;
        foreach (var (side, bump, rebound) in _stops)
        {
            if (ofBump)
                least = Math.Min(least, bump.Clearance - bump.Fitting.At(heave, roll, side).Compression);
            if (ofRebound)
                least = Math.Min(least, rebound.Clearance + rebound.Fitting.At(heave, roll, side).Compression);
        }

        return least;
    }

    /// <summary>How far it goes from a position along a direction until the first stop touches; null where none does.</summary>
    private double? UntilContact(double heave, double roll, double heaveRate, double rollRate)
    {
        // Heave away from a stop that touches at rest only frees it.
        bool Counts(TravelStop stop, int direction) => stop.Clearance > 0 || direction * heaveRate >= 0;
        var (countsBump, countsRebound) = (_stops.All(side => Counts(side.Bump, 1)), _stops.All(side => Counts(side.Rebound, -1)));
        double Left(double way) => Clearance(heave + (way * heaveRate), roll + (way * rollRate), countsBump, countsRebound);
        double Speed(TravelStop stop) => Math.Abs(stop.Fitting.HeaveRatio * heaveRate) + Math.Abs(stop.Fitting.RollRatio * _halfTrack * rollRate);

        double slowest = _stops.Min(side => Math.Min(Speed(side.Bump), Speed(side.Rebound)));
        if (slowest <= 0)
            return null;
        double step = 2 * _stops.Max(side => side.Bump.Clearance + side.Rebound.Clearance) / slowest / Points, before = 0;
        if (step <= 0 || Left(0) <= 0)
            return 0;
        try
        {
            for (int i = 1; i <= Points; i++)
            {
                if (Left(i * step) <= 0)
                    return Brent.FindRoot(Left, before, i * step);
                before = i * step;
            }
        }
        catch (UnreachableTravelException)
        {
            // The wheel's linkage ends before its stops touch: they do not limit it.
        }

        return null;
    }
}
