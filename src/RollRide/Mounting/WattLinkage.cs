using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>A Watt linkage with its centre pivot on the axle: the roll centre is the pivot.</summary>
/// <param name="PivotHeight">Height of the pivot above the ground, m, finite.</param>
public sealed record WattLinkage(double PivotHeight) : LateralLocation
{
    /// <summary>Height of the pivot above the ground, m.</summary>
    public double PivotHeight { get; init => field = Require.Finite(value, "m", nameof(PivotHeight)); } = Require.Finite(PivotHeight, "m");

    /// <inheritdoc/>
    public override double RollCentreHeight => PivotHeight;
}
