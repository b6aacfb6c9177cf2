using System.ComponentModel;
using RollRide.Damping;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

[Description("One damper. Velocity and force count positive in compression.")]
[ExactlyOneOf("curve", "dyno")]
internal sealed record DamperFile
{
    [Key("curve", "the force–velocity curve, point by point, with 0 N at 0 m/s")]
    public CurveFile? Curve { get; init; }

    [Key("dyno", "a dyno run: a CSV file with the columns velocity_m_per_s and force_N, positive in compression, gas force taken out; or the workshop's valving sheet, with speed_m_per_s, compression_N, rebound_N and, if it names one, tolerance_percent")]
    [FileName]
    public string? Dyno { get; init; }

    [Key("interpolation", "how the curve runs between its points: linear, or monotoneCubic for a smooth curve without overshoot, each direction by itself; its end slopes are extended")]
    public CurveInterpolation Interpolation { get; init; } = CurveInterpolation.Linear;

    [Key("forceScale", "factor on every force of the curve, to try a softer or harder setting of the same damper")]
    [Between(0.01, 100)]
    public double ForceScale { get; init; } = 1;

    [Key("forceTolerance_percent", "tolerance of the force, either way, for the report's valving sheet; it changes no result")]
    [Between(0.1, 50)]
    public double? ForceTolerance { get; init; }

    [Key("temperature_degC", "temperature of the oil for which the curve holds")]
    [Between(-60, 250)]
    public double? Temperature { get; init; }

    [Key("states", "other states of the damper by name, such as hot or worn; every command looks at each of them beside the damper as it is here")]
    public IReadOnlyDictionary<string, DamperStateFile> States { get; init; } = new Dictionary<string, DamperStateFile>();

    [Key("thermalConductance_W_per_K", "heat that the damper gives off per kelvin between oil and air")]
    [Between(0.05, 100)]
    public double ThermalConductance { get; init; } = DamperHeat.DefaultConductance;

    [Key("airTemperature_degC", "temperature of the air around the damper")]
    [Between(-60, 100)]
    public double AirTemperature { get; init; } = DamperHeat.DefaultAirTemperature;

    [Key("friction_N", "friction of seal and rod guide, added to the curve; 0 if the curve already contains it")]
    [Between(0, 100_000)]
    public double Friction { get; init; }

    [Key("frictionVelocity_m_per_s", "velocity over which the friction changes its sign: friction × tanh(v / this value)")]
    [Between(0.0005, 0.2)]
    public double FrictionVelocity { get; init; } = Damper.DefaultFrictionVelocity;

    [Key("gasForce_N", "force of the gas on the rod at ride height; constant, carries part of the body")]
    [Between(0, 1_000_000)]
    public double GasForce { get; init; }

    [Key("gas", "the gas itself, instead of gasForce_N: its force then changes with the stroke")]
    public GasFile? Gas { get; init; }

    [Key("topMountStiffness_N_per_mm", "stiffness of the elastic mounts (top and bottom together) in series with the damper; leave out for rigid ones")]
    [Between(1, 1_000_000)]
    public double? TopMountStiffness { get; init; }

    [Key("closedLength_mm", "length between mounts with the damper fully closed, to check that it fits")]
    [Between(1, 10_000)]
    public double? ClosedLengthMm { get; init; }

    [Key("extendedLength_mm", "length between mounts with the damper fully extended, to check that it fits")]
    [Between(1, 10_000)]
    public double? ExtendedLengthMm { get; init; }
}

[Description("A state of a damper: a curve of its own, or only a temperature; the force is then interpolated between the curves of the nearest temperatures. Friction and gas are those of the damper.")]
[AtMostOneOf("curve", "dyno")]
internal sealed record DamperStateFile
{
    [Key("curve", "the force–velocity curve in this state")]
    public CurveFile? Curve { get; init; }

    [Key("dyno", "a dyno run or valving sheet in this state")]
    [FileName]
    public string? Dyno { get; init; }

    [Key("forceScale", "factor on every force, of the state's own curve or of the damper's")]
    [Between(0.01, 100)]
    public double? ForceScale { get; init; }

    [Key("temperature_degC", "temperature of the oil in this state")]
    [Between(-60, 250)]
    public double? Temperature { get; init; }
}

[Description("The gas of a monotube damper at ride height. The rod compresses it: at ambient temperature while the vehicle stands, without exchange of heat in motion.")]
[ExactlyOneOf("absolutePressure_bar", "gaugePressure_bar")]
internal sealed record GasFile
{
    [Key("absolutePressure_bar", "pressure of the gas at ride height, counted from vacuum")]
    [Between(0.01, 500)]
    public double? AbsolutePressure { get; init; }

    [Key("gaugePressure_bar", "pressure of the gas at ride height, counted from the atmosphere of 1.01325 bar, as a gauge shows it")]
    [Between(0, 500)]
    public double? GaugePressure { get; init; }

    [Key("volume_cm3", "volume of the gas at ride height")]
    [Between(0.1, 100_000)]
    public required double VolumeCm3 { get; init; }

    [Key("rodDiameter_mm", "diameter of the piston rod")]
    [Between(1, 500)]
    public required double RodDiameterMm { get; init; }

    [Key("polytropicIndex", "n in p Vⁿ = constant while the damper moves: 1.4 for nitrogen or air without exchange of heat, less with some, 1 at constant temperature")]
    [Between(1, 1.7)]
    public double PolytropicIndex { get; init; } = GasChamber.DefaultPolytropicIndex;

    [Key("pistonDiameter_mm", "diameter of the piston, for a monotube damper without a valve in its foot: a run then warns where the gas pressure does not hold the compression force, so that the oil cavitates")]
    [Between(1, 1000)]
    public double? PistonDiameterMm { get; init; }
}

[Description("A force–velocity curve as two lists of the same length.")]
internal sealed record CurveFile
{
    [Key("velocity_m_per_s", "velocities, ascending, from rebound (negative) to compression (positive), each once")]
    [Between(-1000, 1000)]
    [MinCount(2)]
    [MaxCount(10_000)]
    public required IReadOnlyList<double> Velocity { get; init; }

    [Key("force_N", "forces, one for each velocity and with the same sign: the damper resists the motion")]
    [Between(-10_000_000, 10_000_000)]
    [MinCount(2)]
    [MaxCount(10_000)]
    public required IReadOnlyList<double> Force { get; init; }
}

[Description("What differs on one side of a layout; the rest is as given for both sides.")]
internal sealed record LayoutSideFile
{
    [Key("damper", "name of the damper on this side: one of the names under dampers")]
    public string? Damper { get; init; }

    [Key("damperState", "state in which the damper of this side stays, such as worn, whatever state the others are in")]
    public string? DamperState { get; init; }

    [Key("placement", "where the damper of this side sits; points are given as on the left, and mirrored for the right side")]
    public PlacementFile? Placement { get; init; }
}

[Description("One way to fit the two dampers: where they sit, and which dampers they are.")]
internal sealed record LayoutFile
{
    [Key("name", "name of the layout, shown in every result")]
    public required string Name { get; init; }

    [Key("placement", "where the dampers sit")]
    public required PlacementFile Placement { get; init; }

    [Key("damper", "name of the damper fitted on both sides: one of the names under dampers")]
    public required string Damper { get; init; }

    [Key("damperState", "state in which both dampers are in every comparison; if left out, every state of the damper is run")]
    public string? DamperState { get; init; }

    [Key("left", "what differs on the left, such as a worn damper")]
    public LayoutSideFile? Left { get; init; }

    [Key("right", "what differs on the right")]
    public LayoutSideFile? Right { get; init; }

    [Key("candidate", "false for a layout that cannot be built and is only shown for comparison: it is never recommended")]
    public bool Candidate { get; init; } = true;
}
