using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>A point seen from behind, at rest on flat ground (ISO 8855): y to the left from the centre plane, z upward from the ground.</summary>
/// <param name="Y">Lateral position, m, finite, positive on the left.</param>
/// <param name="Z">Height above the ground, m, finite.</param>
public sealed record RearViewPoint(double Y, double Z)
{
    /// <summary>Lateral position, m, positive on the left.</summary>
    public double Y { get; init => field = Require.Finite(value, "m", nameof(Y)); } = Require.Finite(Y, "m");

    /// <summary>Height above the ground, m.</summary>
    public double Z { get; init => field = Require.Finite(value, "m", nameof(Z)); } = Require.Finite(Z, "m");
}
