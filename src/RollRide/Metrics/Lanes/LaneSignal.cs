namespace RollRide.Metrics.Lanes;

/// <summary>The quantities whose peaks are taken side by side: each a power series within a step.</summary>
internal static class LaneSignal
{
    /// <summary>Vertical acceleration of the body, m/s².</summary>
    public const int Body = 0;

    /// <summary>Roll acceleration of the body, rad/s².</summary>
    public const int RollAcceleration = 1;

    /// <summary>Vertical acceleration of the body at the seat, m/s².</summary>
    public const int Seat = 2;

    /// <summary>Body roll, rad.</summary>
    public const int Roll = 3;

    /// <summary>Travel of the left wheel, m, then of the right one.</summary>
    public const int Travel = 4;

    /// <summary>Load of the left side's tyres, N, then of the right side's.</summary>
    public const int Load = 6;

    /// <summary>Half of the right side's load less the left side's, N.</summary>
    public const int Transfer = 8;

    /// <summary>Velocity of the left damper, m/s, then of the right one.</summary>
    public const int DamperVelocity = 9;

    /// <summary>Stroke of the left damper, m, then of the right one.</summary>
    public const int DamperTravel = 11;

    /// <summary>Number of signals.</summary>
    public const int Count = 13;

    /// <summary>The peak of a signal upwards; the next one is that downwards, with its sign turned.</summary>
    public static int Up(int signal) => 2 * signal;

    /// <summary>The peak of a signal downwards, with its sign turned.</summary>
    public static int Down(int signal) => (2 * signal) + 1;
}
