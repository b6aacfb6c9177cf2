namespace RollRide.Metrics;

/// <summary>
/// How the body answers a corner in roll, from rest on a level smooth road, whatever else the manoeuvre holds. Terms and time origin after ISO 7401:2011
/// (from memory).
/// </summary>
public sealed record RollResponse
{
    /// <summary>Body roll of the static solution under the final lateral acceleration, rad, whether or not the corner is followed long enough to reach it; null if there is no stable one.</summary>
    public required double? SteadyAngle { get; init; }

    /// <summary>Body roll before the corner, rad: zero unless a record begins within a turn.</summary>
    public required double AngleBefore { get; init; }

    /// <summary>Roll gradient, rad per m/s²: steady roll over the final lateral acceleration, or over 1 m/s² where that is zero.</summary>
    public required double? Gradient { get; init; }

    /// <summary>
    /// The roll angle that goes furthest in the direction from <see cref="AngleBefore"/> to the steady one, rad, positive when the left
    /// side rises. Where the corner ends straight ahead or has no steady angle, the one of largest size in either direction. Null where the corner could not be followed to its end.
    /// </summary>
    public required double? PeakAngle { get; init; }

    /// <summary>
    /// Overshoot <c>(PeakAngle − AngleBefore)/(SteadyAngle − AngleBefore) − 1</c>, as a ratio; null where the corner ends straight ahead or as it began, has no steady angle
    /// or could not be followed to its end.
    /// </summary>
    public required double? Overshoot { get; init; }

    /// <summary>
    /// From the instant at which the command (steering-wheel angle or given lateral acceleration) first reached half of its final value
    /// until roll first reached 90 % of the way from <see cref="AngleBefore"/> to steady, s; null where either did not happen.
    /// </summary>
    public required double? ResponseTime { get; init; }

    /// <summary>From the same instant until <see cref="PeakAngle"/>, s; null where there is no such instant, or roll does not go beyond its steady angle.</summary>
    public required double? PeakTime { get; init; }

    /// <summary>
    /// From the start of the input until roll entered the band around steady for the last time, ±5 % of the way from
    /// <see cref="AngleBefore"/>, s; null if it has not stayed there for a <see cref="RollPeriod"/> by <see cref="Cornering.CornerAlone.Aftermath"/> after the last change.
    /// </summary>
    public required double? SettlingTime { get; init; }

    /// <summary>Whether there is a steady roll to settle to, and roll had not settled when the corner was no longer followed.</summary>
    public bool IsUnsettled => Overshoot is not null && SettlingTime is null;

    /// <summary>The settling time, or how long roll was followed without settling, s; null where there is no steady angle to settle to.</summary>
    /// <param name="followed">How long the corner from rest is followed, s.</param>
    public double? SettlingTimeOr(double followed) => IsUnsettled ? followed : SettlingTime;

    /// <inheritdoc cref="Dynamics.LinearHalfCar.BodyRollPeriod"/>
    public double? RollPeriod { get; init; }

    /// <inheritdoc cref="Cornering.CornerAlone.EquivalentRamp"/>
    public double? EquivalentRamp { get; init; }

    /// <summary>
    /// Whether the lateral acceleration comes so slowly that the body hardly swings whatever its damping: a ramp longer than half of <see cref="RollPeriod"/>
    /// leaves an undamped body less than <c>sin(π/2)/(π/2)</c>, 64 %, of the overshoot to a step.
    /// </summary>
    public bool HidesDamping => EquivalentRamp > RollPeriod / 2;

    /// <summary>Overshoot to a step to the same lateral acceleration, from rest, as a ratio; null unless <see cref="HidesDamping"/>.</summary>
    public double? OvershootToStep { get; init; }

    /// <summary>Whether this is the corner the other way, told as in a mirror: with the signs of the corner as written.</summary>
    public bool IsMirrored { get; init; }

    /// <summary>
    /// The worse of both turns, figure by figure: the larger overshoots, the later settling, a wheel that lifts in either; angles and the other times are of the turn in which
    /// the body rolls further. A turn without a stable position, or that could not be driven to its end, is the furthest and leaves what is not defined in it undefined. A new figure that has a worse way is added here.
    /// </summary>
    internal static RollResponse Worse(RollResponse one, RollResponse other)
    {
        static double Reach(RollResponse corner) => corner.SteadyAngle is null ? double.PositiveInfinity : Math.Abs(corner.PeakAngle ?? double.MaxValue);
        static double? Larger(double? a, double? b) => a is { } first && b is { } second ? Math.Max(first, second) : null;
        return (Reach(other) > Reach(one) ? other : one) with
        {
            Overshoot = Larger(one.Overshoot, other.Overshoot),
            OvershootToStep = Larger(one.OvershootToStep, other.OvershootToStep),
            SettlingTime = Larger(one.SettlingTime, other.SettlingTime),
            LiftsWheel = one.LiftsWheel || other.LiftsWheel,
        };
    }

    /// <summary>Whether a side left the ground in it: rollover risk, also where the manoeuvre ends before.</summary>
    public bool LiftsWheel { get; init; }

    /// <summary>Why the corner could not be followed to its end, as where the vehicle rolls over; null if it could.</summary>
    public string? Failure { get; init; }
}
