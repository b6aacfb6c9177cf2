namespace RollRide.Damping;

/// <summary>How a force–velocity curve runs between its points.</summary>
public enum CurveInterpolation
{
    /// <summary>Straight lines from point to point.</summary>
    Linear,

    /// <summary>
    /// A piecewise cubic with continuous slope that never leaves the range of the two neighbouring points
    /// (F. N. Fritsch and J. Butland, "A method for constructing local monotone piecewise cubic interpolants",
    /// SIAM J. Sci. Stat. Comput. 5, 1984). Through two points it is their straight line. Where a point lies at 0 m/s, rebound and
    /// compression are two such curves that meet there, so that a different slope on either side of rest survives, never less than to the next point; without one, a
    /// single curve runs through rest with one slope.
    /// </summary>
    MonotoneCubic,
}
