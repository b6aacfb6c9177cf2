using RollRide.Numerics;

namespace RollRide.Packaging;

/// <summary>A space the damper must stay clear of, as an upright rectangle in the rear view of the left side at ride height.</summary>
public sealed record KeepOut
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Whether it moves with the axle (tyre, brake, spring seat) or is fixed to the body (frame rail).</summary>
    public required bool MovesWithAxle { get; init; }

    /// <summary>Its inboard face, m from the centre plane.</summary>
    public required double Inner { get; init => field = Require.Finite(value, "m", nameof(Inner)); }

    /// <summary>Its outboard face, m from the centre plane; not less than <see cref="Inner"/>.</summary>
    public required double Outer { get; init => field = Require.Finite(value, "m", nameof(Outer)); }

    /// <summary>Its lower face, m above the ground.</summary>
    public required double Bottom { get; init => field = Require.Finite(value, "m", nameof(Bottom)); }

    /// <summary>Its upper face, m above the ground; not less than <see cref="Bottom"/>.</summary>
    public required double Top { get; init => field = Require.Finite(value, "m", nameof(Top)); }

    /// <summary>The clearance to keep, m; 0 or more.</summary>
    public required double Clearance { get; init => field = Require.NotNegative(value, "m", nameof(Clearance)); }

    /// <summary>The same of the other side.</summary>
    internal KeepOut Mirrored() => this with { Inner = -Outer, Outer = -Inner };

    /// <summary>The same, raised, m.</summary>
    internal KeepOut Raised(double distance) => this with { Bottom = Bottom + distance, Top = Top + distance };

    /// <summary>The same, moved by a distance, m.</summary>
    internal KeepOut Moved(double distance, WallDirection direction) => direction switch
    {
        WallDirection.Outboard => this with { Inner = Inner + distance, Outer = Outer + distance },
        WallDirection.Inboard => this with { Inner = Inner - distance, Outer = Outer - distance },
        WallDirection.Up => Raised(distance),
        _ => Raised(-distance),
    };
}
