using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>How body or frame joins two axles: rigid in bending, elastic or rigid in torsion. Immutable, checked when made.</summary>
public sealed record Chassis
{
    // Of a welded or riveted frame with its body on it; common practice, no source.
    private const double TwistDampingRatio = 0.02;

    /// <summary>Wheelbase <c>L</c>, m; greater than 0.</summary>
    public required double Wheelbase { get; init => field = Require.Positive(value, "m", nameof(Wheelbase)); }

    /// <summary>Torsional stiffness between the axles <c>Kt</c>, N·m/rad; 0 for axles whose bodies roll on their own, null for a frame that does not twist.</summary>
    public required double? TorsionalStiffness { get; init => field = value is { } stiffness ? Require.NotNegative(stiffness, "N·m/rad", nameof(TorsionalStiffness)) : null; }

    /// <summary>Loss in torsion <c>Ct</c>, N·m·s/rad; null for the usual one, see <see cref="LossBetween"/>.</summary>
    public double? TorsionalDamping { get; init => field = value is { } damping ? Require.NotNegative(damping, "N·m·s/rad", nameof(TorsionalDamping)) : null; }

    /// <summary>Pitch inertia of the body about its centre of gravity <c>Iy</c>, kg·m²; null for a dynamic index <c>Iy/(ms a b)</c> of 1, with which the ends bounce on their own.</summary>
    public double? PitchInertia { get; init => field = value is { } inertia ? Require.Positive(inertia, "kg·m²", nameof(PitchInertia)) : null; }

    /// <summary>Whether body and frame do not twist.</summary>
    public bool IsRigid => TorsionalStiffness is null;

    /// <summary>
    /// Loss in torsion, N·m·s/rad: as given, or 2 % of critical for the two ends twisting against each other on the frame alone,
    /// <c>2 · 0.02 √(Kt J1 J2/(J1 + J2))</c>. It depends on no spring, so that a change of the suspension leaves the frame as it is.
    /// </summary>
    /// <param name="first">Roll inertia of one end's body about its roll centre, kg·m².</param>
    /// <param name="second">The same of the other end.</param>
    public double LossBetween(double first, double second) =>
        TorsionalDamping ?? (2 * TwistDampingRatio * Math.Sqrt((TorsionalStiffness ?? 0) * first * second / (first + second)));
}
