using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>A tyre as a vertical spring and damper that pushes but never pulls.</summary>
public sealed record Tyre
{
    /// <summary>Vertical stiffness of one tyre <c>kt</c>, N/m; greater than 0.</summary>
    public required double Stiffness { get; init => field = Require.Positive(value, "N/m", nameof(Stiffness)); }

    /// <summary>Vertical damping of one tyre <c>ct</c>, N·s/m; 0 or more.</summary>
    public double Damping { get; init => field = Require.NotNegative(value, "N·s/m", nameof(Damping)); }

    /// <summary>Width of one tyre, m; null where it is not known.</summary>
    public double? Width { get; init => field = value is { } width ? Require.Positive(width, "m", nameof(Width)) : null; }

    /// <summary>Distance between the centre planes of a dual pair, m; null for single tyres.</summary>
    public double? DualSpacing { get; init => field = value is { } spacing ? Require.Positive(spacing, "m", nameof(DualSpacing)) : null; }
}
