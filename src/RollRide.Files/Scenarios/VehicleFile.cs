using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

[Description("One axle with the part of the body that it carries, in the roll plane.")]
[ExactlyOneOf("rollCentreHeight_mm", "lateralLocation", "linkage")]
internal sealed record VehicleFile
{
    [Key("name", "name of the vehicle")]
    public required string Name { get; init; }

    [Key("suspension", "how the two wheels are joined")]
    [SuspensionNames]
    public required Suspension Suspension { get; init; }

    [Key("track_mm", "distance between the centres of the left and the right tyre contact; with dual tyres, between the centres of the pairs")]
    [Between(200, 5000)]
    public required double TrackMm { get; init; }

    [Key("rollCentreHeight_mm", "height of the roll centre above the road; may be negative with independent suspension")]
    [Between(-2000, 3000)]
    public double? RollCentreHeightMm { get; init; }

    [Key("rollCentreBodyShare", "how far the given roll centre follows the body when a load lowers it: 0 stays on the axle, 1 moves with the body; 0 for a live axle and 1 for independent wheels if left out; only with rollCentreHeight_mm")]
    [Between(0, 1)]
    public double? RollCentreBodyShare { get; init; }

    [Key("lateralLocation", "what holds a live axle sideways; the height of the roll centre follows")]
    public LateralLocationFile? LateralLocation { get; init; }

    [Key("linkage", "what guides an independent wheel; the height of the roll centre follows, and elements may be mounted on its parts")]
    public LinkageFile? Linkage { get; init; }

    [Key("travel", "the travel over which dampers are placed and checked, and a linkage must reach; without it the stops say how far it goes")]
    public TravelFile? Travel { get; init; }

    [Key("body", "the part of the body that this axle carries")]
    public required BodyFile Body { get; init; }

    [Key("unsprung", "the axle with its wheels, or both wheels of an independent axle")]
    public required UnsprungFile Unsprung { get; init; }

    [Key("springs", "the suspension springs, one on each side")]
    public required SpringFile Springs { get; init; }

    [Key("bumpStops", "the stops in compression, one on each side")]
    public StopFile? BumpStops { get; init; }

    [Key("reboundStops", "the stops in rebound, one on each side")]
    public StopFile? ReboundStops { get; init; }

    [Key("antiRollBar_N_m_per_deg", "moment of the anti-roll bar on the body for each degree of roll of the axle against the body (not of twist of the bar)")]
    [Between(0, 1_000_000)]
    public double AntiRollBar { get; init; }

    [Key("tyres", "the tyres as vertical springs and dampers")]
    public required TyreFile Tyres { get; init; }

    [Key("seatOffset_mm", "lateral position of a seat for which accelerations are also given, positive to the left of the centre plane")]
    [Between(-5000, 5000)]
    public double SeatOffsetMm { get; init; }
}

[Description("The part of the body that this axle carries (sprung mass).")]
internal sealed record BodyFile
{
    [Key("mass_kg", "sprung mass on this axle")]
    [Between(1, 100_000)]
    public required double MassKg { get; init; }

    [Key("rollInertia_kg_m2", "roll inertia of that mass about its own centre of gravity (not about the roll centre)")]
    [Between(0.01, 1_000_000)]
    public required double RollInertia { get; init; }

    [Key("cgHeight_mm", "height of its centre of gravity above the road at ride height")]
    [Between(1, 10_000)]
    public required double CgHeightMm { get; init; }
}

[Description("What moves with the wheels: axle or arms, hubs, brakes, wheels.")]
internal sealed record UnsprungFile
{
    [Key("mass_kg", "unsprung mass of both sides together")]
    [Between(1, 100_000)]
    public required double MassKg { get; init; }

    [Key("cgHeight_mm", "height of its centre of gravity above the road at ride height")]
    [Between(1, 10_000)]
    public required double CgHeightMm { get; init; }

    [Key("axleRollInertia_kg_m2", "roll inertia of a live axle with its wheels about its own centre of gravity; needed for a live axle, left out for independent wheels")]
    [Between(0.01, 1_000_000)]
    public double? AxleRollInertia { get; init; }
}

[Description("The suspension springs, one on each side, with a rate or a table for both or for each side. What they carry at rest follows from the body and the gas force of the dampers.")]
[AtMostOneOf("rate_N_per_mm", "tableFromFreeLength", "tableFromRideHeight")]
internal sealed record SpringFile
{
    [Key("rate_N_per_mm", "rate of one spring, measured at the spring and not at the wheel")]
    [Between(0.01, 100_000)]
    public double? Rate { get; init; }

    [Key("tableFromFreeLength", "a spring that is not linear: total force of one spring over its compression from free length")]
    public SpringTableFile? TableFromFreeLength { get; init; }

    [Key("tableFromRideHeight", "a spring that is not linear: change of one spring's force over its compression from ride height; one point is 0 mm, 0 N")]
    public SpringTableFile? TableFromRideHeight { get; init; }

    [Key("placement", "where the springs sit: their own motion ratios")]
    public required PlacementFile Placement { get; init; }

    [Key("friction", "friction of leaf springs or bushes, beside the spring; leave out for none, as with coil springs")]
    public SpringFrictionFile? Friction { get; init; }

    [Key("left", "what differs on the left, such as a sagged spring")]
    public SpringSideFile? Left { get; init; }

    [Key("right", "what differs on the right")]
    public SpringSideFile? Right { get; init; }
}

[Description("Friction of a leaf spring or of bushes, which depends on the deflection and not on its rate. Measured at the spring.")]
[ExactlyOneOf("force_N", "loop")]
internal sealed record SpringFrictionFile
{
    [Key("force_N", "full friction force, half of the distance between loading and unloading in a wide loop; needs buildUp_mm. 0 for none, as on a side without the friction given for both")]
    [Between(0, 1_000_000)]
    public double? Force { get; init; }

    [Key("buildUp_mm", "deflection over which the force builds up after a reversal, to 1 − 1/e of its full value")]
    [Between(0.01, 200)]
    public double? BuildUpMm { get; init; }

    [Key("loop", "a measured loop instead: a CSV file with the columns deflection_mm and force_N in the order measured, compression positive, one cycle that ends where it began")]
    [FileName]
    public string? Loop { get; init; }
}

[Description("What differs in the spring of one side; the rest is as given for both sides.")]
[AtMostOneOf("rate_N_per_mm", "tableFromFreeLength", "tableFromRideHeight")]
internal sealed record SpringSideFile
{
    [Key("rate_N_per_mm", "rate of this spring, measured at the spring")]
    [Between(0.01, 100_000)]
    public double? Rate { get; init; }

    [Key("tableFromFreeLength", "total force of this spring over its compression from free length")]
    public SpringTableFile? TableFromFreeLength { get; init; }

    [Key("tableFromRideHeight", "change of this spring's force over its compression from ride height; one point is 0 mm, 0 N")]
    public SpringTableFile? TableFromRideHeight { get; init; }

    [Key("placement", "where this spring sits; points are given as on the left, and mirrored for the right side")]
    public PlacementFile? Placement { get; init; }

    [Key("friction", "friction of this spring")]
    public SpringFrictionFile? Friction { get; init; }

    [Key("preloadChange_N", "force that this spring has at ride height beyond what holds the body level: positive with a spacer, negative where it has sagged. The body then leans")]
    [Between(-1_000_000, 1_000_000)]
    public double PreloadChange { get; init; }
}

[Description("Points of a spring characteristic; straight between them, the end slopes extended beyond.")]
internal sealed record SpringTableFile
{
    [Key("compression_mm", "compression of the spring, ascending")]
    [Between(-2000, 2000)]
    [MinCount(2)]
    [MaxCount(10_000)]
    public required IReadOnlyList<double> CompressionMm { get; init; }

    [Key("force_N", "force, one value for each compression, never falling")]
    [Between(-10_000_000, 10_000_000)]
    [MinCount(2)]
    [MaxCount(10_000)]
    public required IReadOnlyList<double> Force { get; init; }
}

[Description("A stop on each side. It touches once its clearance is used up.")]
internal sealed record StopFile
{
    [Key("clearance_mm", "free travel from ride height until the stop touches, measured at the stop")]
    [Between(0, 2000)]
    public required double ClearanceMm { get; init; }

    [Key("force_N", "force of one stop at the compression atCompression_mm")]
    [Between(0.1, 10_000_000)]
    public required double Force { get; init; }

    [Key("atCompression_mm", "the compression of the stop, past contact, at which it has that force")]
    [Between(0.1, 1000)]
    public required double AtCompressionMm { get; init; }

    [Key("exponent", "how the force grows past contact: force_N × (compression / atCompression_mm)^exponent; 1 is a linear stop, 2 to 3 a rubber one")]
    [Between(1, 6)]
    public double Exponent { get; init; } = 2;

    [Key("placement", "where the stops sit; motion ratios of 1 and 1 if left out")]
    public PlacementFile? Placement { get; init; }

    [Key("left", "what differs on the left")]
    public StopSideFile? Left { get; init; }

    [Key("right", "what differs on the right")]
    public StopSideFile? Right { get; init; }
}

[Description("What differs in the stop of one side; the rest is as given for both sides.")]
internal sealed record StopSideFile
{
    [Key("clearance_mm", "free travel from ride height until this stop touches")]
    [Between(0, 2000)]
    public double? ClearanceMm { get; init; }

    [Key("force_N", "force of this stop at the compression atCompression_mm")]
    [Between(0.1, 10_000_000)]
    public double? Force { get; init; }

    [Key("atCompression_mm", "the compression of this stop at which it has that force")]
    [Between(0.1, 1000)]
    public double? AtCompressionMm { get; init; }

    [Key("exponent", "how the force of this stop grows past contact")]
    [Between(1, 6)]
    public double? Exponent { get; init; }

    [Key("placement", "where this stop sits; points are given as on the left, and mirrored for the right side")]
    public PlacementFile? Placement { get; init; }
}

[Description("The tyres as vertical springs and dampers. A tyre pushes and never pulls: beyond its static deflection it is in the air.")]
internal sealed record TyreFile
{
    [Key("stiffness_N_per_mm", "vertical stiffness of one tyre at its pressure and load (of each tyre of a dual pair)")]
    [Between(1, 100_000)]
    public required double Stiffness { get; init; }

    [Key("damping_N_s_per_m", "vertical damping of one tyre (of each tyre of a dual pair)")]
    [Between(0, 100_000)]
    public double Damping { get; init; }

    [Key("dualSpacing_mm", "dual tyres: distance between the centre planes of the two tyres of one side; leave out for single tyres")]
    [Between(1, 2000)]
    public double? DualSpacingMm { get; init; }
}
