using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>A damping ratio wanted for one body mode.</summary>
/// <param name="Ratio">Damping ratio, above 0 and below 1.</param>
/// <param name="Tolerance">How far from it still counts as met, above 0.</param>
/// <param name="DamperVelocity">Velocity amplitude at the damper for which it is wanted, m/s, above 0.</param>
/// <param name="Weight">How much a miss counts, 0 or more, where not all targets can be met.</param>
public sealed record TuningTarget(double Ratio, double Tolerance, double DamperVelocity, double Weight = 1)
{
    /// <summary>Damping ratio wanted.</summary>
    public double Ratio { get; init => field = BelowOne(value); } = BelowOne(Ratio);

    /// <summary>How far from it still counts as met.</summary>
    public double Tolerance { get; init => field = Require.Positive(value, name: nameof(Tolerance)); } = Require.Positive(Tolerance);

    /// <summary>Velocity amplitude at the damper, m/s.</summary>
    public double DamperVelocity { get; init => field = Require.Positive(value, "m/s", nameof(DamperVelocity)); } = Require.Positive(DamperVelocity, "m/s");

    /// <summary>How much a miss counts.</summary>
    public double Weight { get; init => field = Require.NotNegative(value, name: nameof(Weight)); } = Require.NotNegative(Weight);

    /// <summary>The miss in tolerances: 0 on the target, 1 at either edge of the band.</summary>
    internal double Deviation(double ratio) => (ratio - Ratio) / Tolerance;

    private static double BelowOne(double ratio) => Require.Positive(ratio) < 1
        ? ratio
        : throw new ArgumentOutOfRangeException(nameof(ratio), ratio, "A damping ratio to be tuned for must be below 1.");
}
