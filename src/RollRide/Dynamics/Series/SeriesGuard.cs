namespace RollRide.Dynamics.Series;

/// <summary>
/// The quantities whose force laws have kinks. While each stays between its bounds the equations are smooth; a step ends where
/// one reaches a bound.
/// </summary>
internal static class SeriesGuard
{
    /// <summary>Velocity of the left damper, m/s, then of the right one.</summary>
    public const int Damper = 0;

    /// <summary>Compression of the left spring, m, then of the right one.</summary>
    public const int Spring = 2;

    /// <summary>First of four: closing of a stop, m.</summary>
    public const int Stop = 4;

    /// <summary>First of four: load of a tyre contact, N.</summary>
    public const int Contact = 8;

    /// <summary>Number of guards.</summary>
    public const int Count = 12;
}
