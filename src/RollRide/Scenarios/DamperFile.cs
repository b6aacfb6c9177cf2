using RollRide.Damping;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>A damper as it stands in the file.</summary>
[ExactlyOneOf("curve", "dyno")]
public sealed record DamperFile
{
    /// <summary>The curve in the file.</summary>
    [Key("curve", "the force–velocity curve, point by point")]
    public CurveFile? Curve { get; init; }

    /// <summary>The curve in a CSV file.</summary>
    [Key("dyno", "a CSV file with the columns velocity_m_per_s and force_N, beside the scenario")]
    public string? Dyno { get; init; }

    /// <summary>Interpolation.</summary>
    [Key("interpolation", "how the curve runs between its points; beyond the ends its end slopes are extended")]
    public CurveInterpolation Interpolation { get; init; } = CurveInterpolation.Linear;

    /// <summary>Scale of the force.</summary>
    [Key("forceScale", "factor on every force of the curve, to try a softer or harder setting")]
    [Between(0.01, 100)]
    public double ForceScale { get; init; } = 1;

    /// <summary>Friction.</summary>
    [Key("friction_N", "friction of seal and rod guide, besides the curve")]
    [AtLeast(0)]
    public double Friction { get; init; }

    /// <summary>Velocity of the friction's transition.</summary>
    [Key("frictionVelocity_m_per_s", "velocity over which the friction changes its sign: friction × tanh(v / this)")]
    [Between(0.0005, 0.2)]
    public double FrictionVelocity { get; init; } = Damper.DefaultFrictionVelocity;

    /// <summary>Gas force.</summary>
    [Key("gasForce_N", "constant force of the gas on the rod, which carries part of the body")]
    [AtLeast(0)]
    public double GasForce { get; init; }

    /// <summary>Top mount stiffness.</summary>
    [Key("topMountStiffness_N_per_mm", "stiffness of the elastic mounts in series with the damper; leave out for rigid ones")]
    [Above(0)]
    public double? TopMountStiffness { get; init; }

    /// <summary>Closed length.</summary>
    [Key("closedLength_mm", "length between mounts with the damper fully closed")]
    [Above(0)]
    public double? ClosedLengthMm { get; init; }

    /// <summary>Extended length.</summary>
    [Key("extendedLength_mm", "length between mounts with the damper fully extended")]
    [Above(0)]
    public double? ExtendedLengthMm { get; init; }
}

/// <summary>A force–velocity curve.</summary>
public sealed record CurveFile
{
    /// <summary>Velocities.</summary>
    [Key("velocity_m_per_s", "velocities, ascending, positive in compression")]
    [MinCount(2)]
    public required IReadOnlyList<double> Velocity { get; init; }

    /// <summary>Forces.</summary>
    [Key("force_N", "forces, one for each velocity, positive in compression")]
    [MinCount(2)]
    public required IReadOnlyList<double> Force { get; init; }
}

/// <summary>A damper layout as it stands in the file.</summary>
public sealed record LayoutFile
{
    /// <summary>Name.</summary>
    [Key("name", "name of the layout, shown in every result")]
    public required string Name { get; init; }

    /// <summary>Where the dampers sit.</summary>
    [Key("placement", "where the dampers sit")]
    public required PlacementFile Placement { get; init; }

    /// <summary>Name of the damper.</summary>
    [Key("damper", "name of the damper fitted on both sides, one of dampers")]
    public required string Damper { get; init; }
}
