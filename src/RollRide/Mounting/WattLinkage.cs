using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>A Watt linkage: the roll centre is its centre pivot, which sits on the axle or on the body.</summary>
/// <param name="PivotHeight">Height of the pivot above the ground, m, finite.</param>
public sealed record WattLinkage(double PivotHeight) : LateralLocation
{
    /// <summary>Height of the pivot above the ground, m.</summary>
    public double PivotHeight { get; init => field = Require.Finite(value, "m", nameof(PivotHeight)); } = Require.Finite(PivotHeight, "m");

    /// <summary>Whether the pivot sits on the body; otherwise on the axle.</summary>
    public bool PivotIsOnBody { get; init; }

    /// <inheritdoc/>
    public override double RollCentreHeight => PivotHeight;

    /// <inheritdoc/>
    public override double RollCentreBodyShare => PivotIsOnBody ? 1 : 0;
}
