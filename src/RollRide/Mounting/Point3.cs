using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// A point in vehicle axes (ISO 8855), at rest on flat ground: x forward from the axle, y to the left from the centre
/// plane, z upward from the ground.
/// </summary>
/// <param name="X">Longitudinal position, m, finite.</param>
/// <param name="Y">Lateral position, m, finite, positive on the left.</param>
/// <param name="Z">Height above the ground, m, finite.</param>
public sealed record Point3(double X, double Y, double Z)
{
    /// <summary>Longitudinal position, m.</summary>
    public double X { get; init => field = Require.Finite(value, "m", nameof(X)); } = Require.Finite(X, "m");

    /// <summary>Lateral position, m, positive on the left.</summary>
    public double Y { get; init => field = Require.Finite(value, "m", nameof(Y)); } = Require.Finite(Y, "m");

    /// <summary>Height above the ground, m.</summary>
    public double Z { get; init => field = Require.Finite(value, "m", nameof(Z)); } = Require.Finite(Z, "m");
}
