using System.Globalization;
using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>
/// One direction of a damper's valving in the trade's terms: oil passes a bleed at low speed; at the knee the shims lift, and
/// the force grows on along the high-speed slope, up to a blow-off if there is one. Speeds and forces are positive in both
/// directions. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// <c>F(v) = cb v + (ch − cb) B(v − vk, r vk) + (co − ch) B(v − vo, r (vo − vk))</c> with the bend
/// <c>B(x, w) = 0</c> below <c>−w</c>, <c>x</c> above <c>w</c>, and the parabola <c>(x + w)²/4w</c> between: the straight lines meet
/// sharply for <c>r = 0</c> and are rounded over a stretch of <c>±w</c> otherwise. Force and, for <c>r &gt; 0</c>, slope are continuous;
/// <c>F(0) = 0</c> always.
/// </remarks>
/// <param name="BleedSlope">Low-speed bleed slope <c>cb</c>, N·s/m, above 0.</param>
/// <param name="KneeVelocity">Knee velocity <c>vk</c>, where the low- and the high-speed line meet, m/s, above 0.</param>
/// <param name="HighSpeedSlope">High-speed slope <c>ch</c>, N·s/m, at least 0.</param>
public sealed record ValveCharacteristic(double BleedSlope, double KneeVelocity, double HighSpeedSlope)
{
    // Chords of a rounded bend stray from its parabola by a thousandth of (change of slope × half-width) at most.
    private const int ChordsPerHalfBend = 8;

    /// <summary>Low-speed bleed slope, N·s/m.</summary>
    public double BleedSlope { get; init => field = Require.Positive(value, "N·s/m", nameof(BleedSlope)); } = Require.Positive(BleedSlope, "N·s/m");

    /// <summary>Knee velocity, m/s.</summary>
    public double KneeVelocity { get; init => field = Require.Positive(value, "m/s", nameof(KneeVelocity)); } = Require.Positive(KneeVelocity, "m/s");

    /// <summary>High-speed slope, N·s/m.</summary>
    public double HighSpeedSlope { get; init => field = Require.NotNegative(value, "N·s/m", nameof(HighSpeedSlope)); } = Require.NotNegative(HighSpeedSlope, "N·s/m");

    /// <summary>The blow-off; null for none. It lies above the knee.</summary>
    public BlowOff? BlowOff
    {
        get;
        init
        {
            if (value is not null && value.Velocity <= KneeVelocity)
            {
                throw new ArgumentOutOfRangeException(nameof(BlowOff), value.Velocity, string.Create(
                    CultureInfo.InvariantCulture, $"The blow-off velocity must lie above the knee velocity of {KneeVelocity} m/s."));
            }

            field = value;
        }
    }

    /// <summary>How far the bends are rounded, 0 (sharp) to 1 (the knee's bend begins at rest).</summary>
    public double Rounding
    {
        get;
        init => field = value is >= 0 and <= 1
            ? value
            : throw new ArgumentOutOfRangeException(nameof(Rounding), value, "The rounding must be from 0 (sharp) to 1.");
    }

    /// <summary>Force at which the low- and the high-speed line meet, N.</summary>
    public double KneeForce => BleedSlope * KneeVelocity;

    /// <summary>Force at a speed, N.</summary>
    /// <param name="speed">Speed in this direction, m/s, at least 0.</param>
    public double Force(double speed)
    {
        double force = BleedSlope * speed + (HighSpeedSlope - BleedSlope) * Bend(speed - KneeVelocity, Rounding * KneeVelocity);
        return BlowOff is { } blowOff
            ? force + (blowOff.Slope - HighSpeedSlope) * Bend(speed - blowOff.Velocity, Rounding * (blowOff.Velocity - KneeVelocity))
            : force;
    }

    /// <summary>The same valve with every force multiplied.</summary>
    /// <param name="factor">The factor, above 0.</param>
    public ValveCharacteristic Scaled(double factor) => this with
    {
        BleedSlope = factor * BleedSlope,
        HighSpeedSlope = factor * HighSpeedSlope,
        BlowOff = BlowOff is { } blowOff ? blowOff with { Slope = factor * blowOff.Slope } : null,
    };

    /// <summary>The speeds between which straight lines are the valve's force (exactly when sharp), up to a highest speed, ascending.</summary>
    internal IEnumerable<double> Corners(double highest) =>
        Corners(KneeVelocity, Rounding * KneeVelocity)
            .Concat(BlowOff is { } blowOff ? Corners(blowOff.Velocity, Rounding * (blowOff.Velocity - KneeVelocity)) : [])
            .Where(speed => speed > 0 && speed < highest)
            .Append(highest)
            .Distinct()
            .Order();

    private static IEnumerable<double> Corners(double at, double halfWidth) => halfWidth == 0
        ? [at]
        : Enumerable.Range(-ChordsPerHalfBend, 2 * ChordsPerHalfBend + 1).Select(i => at + halfWidth * i / ChordsPerHalfBend);

    private static double Bend(double x, double halfWidth)
    {
        if (x <= -halfWidth)
            return 0;
        return x >= halfWidth ? x : (x + halfWidth) * (x + halfWidth) / (4 * halfWidth);
    }
}
