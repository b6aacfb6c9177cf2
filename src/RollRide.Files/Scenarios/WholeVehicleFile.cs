using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

[Description("The vehicle around the axle: what joins it to the other one, and that axle. Without it the axle is computed alone.")]
[ExactlyOneOf("torsionalStiffness_N_m_per_deg", "rigid")]
internal sealed record WholeVehicleFile
{
    [Key("wheelbase_mm", "distance between the two axles")]
    [Between(500, 20_000)]
    public required double WheelbaseMm { get; init; }

    [Key("studiedAxle", "where the axle stands that the vehicle and layouts of this file are for")]
    public Axle StudiedAxle { get; init; } = Axle.Rear;

    [Key("torsionalStiffness_N_m_per_deg", "torsional stiffness of frame and body between the axles: some 1000 to 5000 for a ladder frame, 10 000 to 30 000 for an integral body; 0 lets each end roll on its own")]
    [Between(0, 10_000_000)]
    public double? TorsionalStiffness { get; init; }

    [Key("rigid", "true: the frame does not twist")]
    public bool? Rigid { get; init; }

    [Key("torsionalDamping_N_m_s_per_deg", "loss in the frame's torsion; if left out, 2 % of critical for its two ends twisting against each other")]
    [Between(0, 1_000_000)]
    public double? TorsionalDamping { get; init; }

    [Key("pitchInertia_kg_m2", "pitch inertia of the body of both axles about its own centre of gravity, without the payload of load states; if left out, the one with which the ends bounce independently (dynamic index 1)")]
    [Between(1, 10_000_000)]
    public double? PitchInertia { get; init; }

    [Key("seatBehindFrontAxle_mm", "distance of the seat of vehicle.seatOffset_mm behind the front axle; above the studied axle if left out")]
    [Between(-10_000, 30_000)]
    public double? SeatBehindFrontAxleMm { get; init; }

    [Key("otherAxle", "the other axle")]
    public required OtherAxleFile OtherAxle { get; init; }
}

[Description("The other axle with its share of the body: by the same keys as the first, or by a few numbers from which a plausible axle is made.")]
[ExactlyOneOf("vehicle", "estimate")]
internal sealed record OtherAxleFile
{
    [Key("vehicle", "the axle and the part of the body that it carries, by the same keys as the first")]
    public VehicleFile? Vehicle { get; init; }

    [Key("layout", "its dampers; left out, it has none")]
    public LayoutFile? Layout { get; init; }

    [Key("estimate", "a few numbers, from which an axle with linear springs and dampers is made")]
    public EstimatedAxleFile? Estimate { get; init; }
}

[Description("A plausible axle from a few numbers: linear springs, bar and dampers that move as the wheels do, with track and heights of the studied axle unless given, and single tyres like those of the studied axle.")]
internal sealed record EstimatedAxleFile
{
    [Key("suspension", "how its two wheels are joined")]
    [SuspensionNames]
    public required Suspension Suspension { get; init; }

    [Key("axleLoad_kg", "what the tyres of this axle carry together at the design load")]
    [Between(10, 100_000)]
    public required double AxleLoadKg { get; init; }

    [Key("rollStiffness_N_m_per_deg", "roll stiffness of its springs and anti-roll bar together, body against wheels")]
    [Between(1, 1_000_000)]
    public required double RollStiffness { get; init; }

    [Key("dampingRatio", "damping ratio of the body in heave on this axle; 0 for no dampers")]
    [Between(0, 1)]
    public required double DampingRatio { get; init; }

    [Key("rideFrequency_Hz", "natural frequency of the body in heave on this axle's springs alone")]
    [Between(0.3, 6)]
    public double RideFrequencyHz { get; init; } = 1.2;

    [Key("unsprungMass_kg", "both wheels with what moves with them; 8 % of the axle load if left out")]
    [Between(1, 100_000)]
    public double? UnsprungMassKg { get; init; }

    [Key("rollCentreHeight_mm", "height of its roll centre above the road")]
    [Between(-2000, 3000)]
    public double RollCentreHeightMm { get; init; } = 50;

    [Key("track_mm", "its track; that of the studied axle if left out")]
    [Between(200, 5000)]
    public double? TrackMm { get; init; }
}

[Description("What the body's share on the other axle weighs in this load state.")]
internal sealed record OtherAxleLoadFile
{
    [Key("mass_kg", "sprung mass on the other axle, without the payload; as written if left out")]
    [Between(1, 100_000)]
    public double? MassKg { get; init; }

    [Key("rollInertia_kg_m2", "roll inertia of that mass about its own centre of gravity; as written if left out")]
    [Between(0.01, 1_000_000)]
    public double? RollInertia { get; init; }

    [Key("cgHeight_mm", "height of its centre of gravity above the road with the body at its design height; as written if left out")]
    [Between(1, 10_000)]
    public double? CgHeightMm { get; init; }
}
