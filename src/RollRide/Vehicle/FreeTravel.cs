using MathNet.Numerics.RootFinding;
using RollRide.Mounting;

namespace RollRide.Vehicle;

/// <summary>
/// The heave and roll that the stops of both sides leave free. A stop at the ratios <c>Rh</c>, <c>Rr</c> touches where
/// <c>Rh·|q| + Rr·T·|r|</c> uses up its clearance, so that roll takes from the heave that is left, and heave from the roll.
/// </summary>
internal sealed class FreeTravel
{
    // A stop is looked for at this many points up to twice as far as its ratios at rest say.
    private const int Points = 64;

    private readonly TravelStop _bump;
    private readonly TravelStop _rebound;
    private readonly double _halfTrack;

    /// <summary>What these stops leave free.</summary>
    /// <param name="bump">The bump stop of one side.</param>
    /// <param name="rebound">Its rebound stop.</param>
    /// <param name="halfTrack">Half the track, m.</param>
    public FreeTravel(TravelStop bump, TravelStop rebound, double halfTrack) => (_bump, _rebound, _halfTrack) = (bump, rebound, halfTrack);

    /// <summary>The way from ride height to the first contact, in bump, in rebound and in roll; null where one of them meets no stop.</summary>
    public TravelRange? AtRest() =>
        UntilContact(0, 0, 1, 0) is { } bump && UntilContact(0, 0, -1, 0) is { } rebound && RollAt(0) is { } roll && roll < Math.PI / 2
            ? new TravelRange { Bump = bump, Rebound = rebound, Roll = roll }
            : null;

    /// <summary>The roll that is left at a heave, either way, rad; null where no stop limits it.</summary>
    /// <param name="heave">Relative heave, m.</param>
    public double? RollAt(double heave) => UntilContact(heave, 0, 0, 1);

    /// <summary>The least clearance left at the stops that are looked at, both sides, m; negative past contact.</summary>
    private double Clearance(double heave, double roll, bool ofBump, bool ofRebound)
    {
        double least = double.PositiveInfinity;
        foreach (var side in (ReadOnlySpan<Side>)[Side.Left, Side.Right])
        {
            if (ofBump)
                least = Math.Min(least, _bump.Clearance - _bump.Fitting.At(heave, roll, side).Compression);
            if (ofRebound)
                least = Math.Min(least, _rebound.Clearance + _rebound.Fitting.At(heave, roll, side).Compression);
        }

        return least;
    }

    /// <summary>How far it goes from a position along a direction until the first stop touches; null where none does.</summary>
    private double? UntilContact(double heave, double roll, double heaveRate, double rollRate)
    {
        // Heave away from a stop that touches at rest only frees it.
        bool Counts(TravelStop stop, int direction) => stop.Clearance > 0 || direction * heaveRate >= 0;
        var (countsBump, countsRebound) = (Counts(_bump, 1), Counts(_rebound, -1));
        double Left(double way) => Clearance(heave + (way * heaveRate), roll + (way * rollRate), countsBump, countsRebound);
        double Speed(TravelStop stop) => Math.Abs(stop.Fitting.HeaveRatio * heaveRate) + Math.Abs(stop.Fitting.RollRatio * _halfTrack * rollRate);

        double slowest = Math.Min(Speed(_bump), Speed(_rebound));
        if (slowest <= 0)
            return null;
        double step = 2 * (_bump.Clearance + _rebound.Clearance) / slowest / Points, before = 0;
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
