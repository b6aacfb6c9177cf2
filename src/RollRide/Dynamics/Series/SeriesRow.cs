namespace RollRide.Dynamics.Series;

/// <summary>The rows of a step's series: coordinates in the order of <see cref="HalfCarState"/>, then what drives them.</summary>
internal static class SeriesRow
{
    /// <summary>
    /// The highest power of time kept. A higher one makes longer steps, but most end at a kink before; a lower one more of them. Measured:
    /// docs/performance.md.
    /// </summary>
    public const int Order = 10;

    /// <summary>The highest power of the accelerations: that of the velocities, since both are shown as exactly.</summary>
    public const int AccelerationOrder = Order - 1;

    /// <summary>Terms a row, the constant included.</summary>
    public const int Terms = Order + 1;

    /// <summary>First of four coordinates.</summary>
    public const int Position = 0;

    /// <summary>First of four velocities.</summary>
    public const int Velocity = 4;

    /// <summary>First of four accelerations.</summary>
    public const int Acceleration = 8;

    /// <summary>sin φs.</summary>
    public const int Sine = 12;

    /// <summary>cos φs.</summary>
    public const int Cosine = 13;

    /// <summary>What the road under the left wheel pushes through one tyre, kt w + ct ẇ, N.</summary>
    public const int LeftPush = 14;

    /// <summary>The same under the right wheel, N.</summary>
    public const int RightPush = 15;

    /// <summary>Lateral acceleration, m/s².</summary>
    public const int Lateral = 16;

    /// <summary>Road under the left wheel, m, then under the right one.</summary>
    public const int Road = 17;

    /// <summary>Number of rows.</summary>
    public const int Count = 19;
}
