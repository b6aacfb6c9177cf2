using RollRide.Numerics;

namespace RollRide.Packaging;

/// <summary>The room a damper takes: two tubes on the line between its ends, and a bush at each end.</summary>
public sealed record DamperEnvelope
{
    /// <summary>Diameter of the tube at the body end (usually the dust tube), m; above 0.</summary>
    public required double UpperDiameter { get; init => field = Require.Positive(value, "m", nameof(UpperDiameter)); }

    /// <summary>Length of that tube from the body end, m; above 0.</summary>
    public required double UpperLength { get; init => field = Require.Positive(value, "m", nameof(UpperLength)); }

    /// <summary>Diameter of the tube at the axle end (usually the damper's body), m; above 0.</summary>
    public required double LowerDiameter { get; init => field = Require.Positive(value, "m", nameof(LowerDiameter)); }

    /// <summary>Length of that tube from the axle end, m; above 0.</summary>
    public required double LowerLength { get; init => field = Require.Positive(value, "m", nameof(LowerLength)); }

    /// <summary>Diameter of a disc about the body end that holds the bush, m; 0 or more.</summary>
    public double UpperBush { get; init => field = Require.NotNegative(value, "m", nameof(UpperBush)); }

    /// <summary>Diameter of a disc about the axle end that holds the bush, m; 0 or more.</summary>
    public double LowerBush { get; init => field = Require.NotNegative(value, "m", nameof(LowerBush)); }

    /// <summary>Distance between the ends when the damper is closed metal to metal, m, above 0; null where it is not known.</summary>
    public double? ClosedLength { get; init => field = value is { } length ? Require.Positive(length, "m", nameof(ClosedLength)) : null; }

    /// <summary>Distance between the ends when it is fully extended, m, above 0; null where it is not known.</summary>
    public double? ExtendedLength { get; init => field = value is { } length ? Require.Positive(length, "m", nameof(ExtendedLength)) : null; }
}
