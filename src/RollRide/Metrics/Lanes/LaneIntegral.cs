namespace RollRide.Metrics.Lanes;

/// <summary>The integrals over time that are taken side by side.</summary>
internal static class LaneIntegral
{
    /// <summary>Of the square of the body's vertical acceleration, m²/s³.</summary>
    public const int BodySquares = 0;

    /// <summary>Of the square of its roll acceleration, rad²/s³.</summary>
    public const int RollSquares = 1;

    /// <summary>Of the square of the vertical acceleration at the seat, m²/s³.</summary>
    public const int SeatSquares = 2;

    /// <summary>Of relative heave, m·s.</summary>
    public const int SuspensionHeave = 3;

    /// <summary>Of the square of the left side's change of load, N²·s, then of the right side's.</summary>
    public const int LoadSquares = 4;

    /// <summary>Of the power of both dampers, J.</summary>
    public const int DamperPower = 6;

    /// <summary>Number of integrals.</summary>
    public const int Count = 7;
}
