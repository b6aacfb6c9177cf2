using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>What the damper can be: bounds that a tuned valving keeps. A tuned curve always rises, since its slopes are never negative.</summary>
public sealed record TuningLimits
{
    /// <summary>Largest force of either direction at <see cref="ForceVelocity"/>, N, above 0.</summary>
    public required double Force { get; init => field = Require.Positive(value, "N", nameof(Force)); }

    /// <summary>Velocity at which <see cref="Force"/> counts, m/s, above 0.</summary>
    public double ForceVelocity { get; init => field = Require.Positive(value, "m/s", nameof(ForceVelocity)); } = 1;

    /// <summary>Rebound force over compression force; above 0.</summary>
    public ValueRange ReboundToCompression { get; init => field = RequirePositive(value, nameof(ReboundToCompression)); } = new(1, 4);

    /// <summary>Knee velocity that shims can give, m/s; above 0.</summary>
    public ValueRange KneeVelocity { get; init => field = RequirePositive(value, nameof(KneeVelocity)); } = new(0.03, 0.3);

    /// <summary>Knee force that shims can give, N, for either direction; above 0.</summary>
    public ValueRange KneeForce { get; init => field = RequirePositive(value, nameof(KneeForce)); } = new(10, 5000);

    /// <summary>High-speed slope over bleed slope: below 1 digressive, 1 linear, above 1 progressive; above 0.</summary>
    public ValueRange HighSpeedShare { get; init => field = RequirePositive(value, nameof(HighSpeedShare)); } = new(0.05, 1);

    private static ValueRange RequirePositive(ValueRange range, string name)
    {
        ArgumentNullException.ThrowIfNull(range, name);
        Require.Positive(range.Lowest, name: name);
        return range;
    }
}
