using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>The axle with its wheels, or both wheels of an independent axle.</summary>
public sealed record UnsprungMass
{
    /// <summary>Mass of both sides together <c>mu</c>, kg; greater than 0.</summary>
    public required double Mass { get; init => field = Require.Positive(value, "kg", nameof(Mass)); }

    /// <summary>Height of its centre of gravity above the road <c>hu</c>, m; greater than 0.</summary>
    public required double CgHeight { get; init => field = Require.Positive(value, "m", nameof(CgHeight)); }

    /// <summary>
    /// Roll inertia of a live axle about its own centre of gravity, kg·m²; greater than 0. Null for independent
    /// wheels, whose inertia in opposite travel is <c>mu (t/2)²</c>.
    /// </summary>
    public double? AxleRollInertia { get; init => field = value is { } inertia ? Require.Positive(inertia, "kg·m²", nameof(AxleRollInertia)) : null; }
}
