namespace RollRide.Metrics;

/// <summary>How the body answers a cornering input in roll. Terms and time origin after ISO 7401:2011 (from memory).</summary>
public sealed record RollResponse
{
    /// <summary>
    /// Body roll of the static solution under the final lateral acceleration of the input, rad, whether or not the run is long
    /// enough to reach it, with the wheels at the heights that the road events passed in the run leave them at; null if there is
    /// no stable one.
    /// </summary>
    public required double? SteadyAngle { get; init; }

    /// <summary>
    /// Body roll of the static solution before the input began, rad: zero unless a road event passed by then left one wheel higher
    /// than the other.
    /// </summary>
    public required double AngleBefore { get; init; }

    /// <summary>Roll gradient on a flat road, rad per m/s²: steady roll over the final lateral acceleration, or over 1 m/s² where that is zero.</summary>
    public required double? Gradient { get; init; }

    /// <summary>
    /// The roll angle that goes furthest in the direction from <see cref="AngleBefore"/> to the steady one, rad, positive when the left
    /// side rises. Where the corner ends straight ahead or has no steady angle, the one of largest size in either direction. From the start of the input to the end of the run.
    /// </summary>
    public required double PeakAngle { get; init; }

    /// <summary>
    /// Overshoot <c>(PeakAngle − AngleBefore)/(SteadyAngle − AngleBefore) − 1</c>, as a ratio; negative where the run ends before roll
    /// reaches the steady angle; null where the corner ends straight ahead or has no steady angle.
    /// </summary>
    public required double? Overshoot { get; init; }

    /// <summary>
    /// From the instant at which the command (steering-wheel angle or given lateral acceleration) first reached half of its final value
    /// until roll first reached 90 % of the way from <see cref="AngleBefore"/> to steady, s; null where either did not happen, the
    /// corner ends straight ahead or there is no steady angle.
    /// </summary>
    public required double? ResponseTime { get; init; }

    /// <summary>From the same instant until <see cref="PeakAngle"/>, s; null where there is no such instant.</summary>
    public required double? PeakTime { get; init; }

    /// <summary>
    /// From the start of the input until roll entered the band around steady for the last time in the run, ±5 % of the way from
    /// <see cref="AngleBefore"/>, s; null if the run ends outside the band, the corner ends straight ahead or there is no steady angle.
    /// </summary>
    public required double? SettlingTime { get; init; }
}
