namespace RollRide.Numerics;

/// <summary>A range in even steps, both of whose ends are met exactly.</summary>
/// <remarks>
/// In floating point <c>from + (to − from)·n/n</c> can lie one unit in the last place beyond <c>to</c>, where what is asked for is no
/// longer known: the ends are therefore taken, not computed.
/// </remarks>
public static class EvenSteps
{
    /// <summary>One of the places.</summary>
    /// <param name="from">The first place; finite.</param>
    /// <param name="to">The last place; finite.</param>
    /// <param name="i">Which one, from 0 to <paramref name="count"/>.</param>
    /// <param name="count">How many steps; at least 1.</param>
    public static double At(double from, double to, int i, int count) => i == count ? to : from + ((to - from) * i / count);

    /// <summary>All places, one more than there are steps.</summary>
    /// <param name="from">The first place; finite.</param>
    /// <param name="to">The last place; finite.</param>
    /// <param name="count">How many steps; at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no step.</exception>
    public static double[] Of(double from, double to, int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var places = new double[count + 1];
        for (var i = 0; i <= count; i++)
            places[i] = At(from, to, i, count);
        return places;
    }
}
