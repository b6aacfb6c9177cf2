using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>The part of the body that this axle carries, as a rigid body in the roll plane.</summary>
public sealed record SprungBody
{
    /// <summary>Sprung mass on this axle <c>ms</c>, kg; greater than 0.</summary>
    public required double Mass { get; init => field = Require.Positive(value, "kg", nameof(Mass)); }

    /// <summary>Roll inertia about the body's own centre of gravity <c>Is</c>, kg·m²; greater than 0.</summary>
    public required double RollInertia { get; init => field = Require.Positive(value, "kg·m²", nameof(RollInertia)); }

    /// <summary>Height of the centre of gravity above the road at rest <c>hcg</c>, m; greater than 0.</summary>
    public required double CgHeight { get; init => field = Require.Positive(value, "m", nameof(CgHeight)); }

    /// <summary>Lateral position of the centre of gravity <c>yG</c>, m, positive to the left; 0 at the design load, which stands level.</summary>
    public double CgOffset { get; init => field = Require.Finite(value, "m", nameof(CgOffset)); }
}
