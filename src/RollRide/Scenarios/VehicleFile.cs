using RollRide.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>The vehicle as it stands in the file.</summary>
public sealed record VehicleFile
{
    /// <summary>Name of the vehicle.</summary>
    [Key("name", "name of the vehicle")]
    public required string Name { get; init; }

    /// <summary>Kind of suspension.</summary>
    [Key("suspension", "how the two wheels are joined")]
    public required SuspensionKind Suspension { get; init; }

    /// <summary>Track.</summary>
    [Key("track_mm", "distance between the centres of left and right tyre contact; with dual tyres between the centres of the pairs")]
    [Above(0)]
    public required double TrackMm { get; init; }

    /// <summary>Roll centre height.</summary>
    [Key("rollCentreHeight_mm", "height of the roll centre above the road; may be negative")]
    public required double RollCentreHeightMm { get; init; }

    /// <summary>The body.</summary>
    [Key("body", "the part of the body that this axle carries")]
    public required BodyFile Body { get; init; }

    /// <summary>The unsprung mass.</summary>
    [Key("unsprung", "the axle with its wheels, or both wheels of an independent axle")]
    public required UnsprungFile Unsprung { get; init; }

    /// <summary>The springs.</summary>
    [Key("springs", "the suspension springs, one a side")]
    public required SpringFile Springs { get; init; }

    /// <summary>The bump stops.</summary>
    [Key("bumpStops", "the stops in compression, one a side")]
    public StopFile? BumpStops { get; init; }

    /// <summary>The rebound stops.</summary>
    [Key("reboundStops", "the stops in rebound, one a side")]
    public StopFile? ReboundStops { get; init; }

    /// <summary>The anti-roll bar.</summary>
    [Key("antiRollBar_N_m_per_deg", "moment of the anti-roll bar over the roll of the axle against the body")]
    [AtLeast(0)]
    public double AntiRollBar { get; init; }

    /// <summary>The tyres.</summary>
    [Key("tyres", "the tyres as vertical springs and dampers")]
    public required TyreFile Tyres { get; init; }

    /// <summary>The seat.</summary>
    [Key("seatOffset_mm", "lateral position of the seat for which accelerations are also given, positive to the left")]
    public double SeatOffsetMm { get; init; }
}

/// <summary>The body on this axle.</summary>
public sealed record BodyFile
{
    /// <summary>Mass.</summary>
    [Key("mass_kg", "sprung mass on this axle")]
    [Above(0)]
    public required double MassKg { get; init; }

    /// <summary>Roll inertia.</summary>
    [Key("rollInertia_kg_m2", "roll inertia of that mass about its own centre of gravity")]
    [Above(0)]
    public required double RollInertia { get; init; }

    /// <summary>Height of the centre of gravity.</summary>
    [Key("cgHeight_mm", "height of its centre of gravity above the road")]
    [Above(0)]
    public required double CgHeightMm { get; init; }
}

/// <summary>The unsprung mass.</summary>
public sealed record UnsprungFile
{
    /// <summary>Mass.</summary>
    [Key("mass_kg", "unsprung mass of both sides together")]
    [Above(0)]
    public required double MassKg { get; init; }

    /// <summary>Height of the centre of gravity.</summary>
    [Key("cgHeight_mm", "height of its centre of gravity above the road")]
    [Above(0)]
    public required double CgHeightMm { get; init; }

    /// <summary>Roll inertia of a live axle.</summary>
    [Key("axleRollInertia_kg_m2", "roll inertia of a live axle with its wheels about its own centre of gravity; only for a live axle")]
    [Above(0)]
    public double? AxleRollInertia { get; init; }
}

/// <summary>The springs.</summary>
[ExactlyOneOf("rate_N_per_mm", "tableFromFreeLength", "tableFromRideHeight")]
public sealed record SpringFile
{
    /// <summary>Constant rate.</summary>
    [Key("rate_N_per_mm", "rate of one spring at the spring")]
    [Above(0)]
    public double? Rate { get; init; }

    /// <summary>Table from free length.</summary>
    [Key("tableFromFreeLength", "total force of one spring over its compression from free length")]
    public SpringTableFile? TableFromFreeLength { get; init; }

    /// <summary>Table from ride height.</summary>
    [Key("tableFromRideHeight", "change of one spring's force over its compression from ride height; passes through 0, 0")]
    public SpringTableFile? TableFromRideHeight { get; init; }

    /// <summary>Where they sit.</summary>
    [Key("placement", "where the springs sit: their own motion ratios")]
    public required PlacementFile Placement { get; init; }
}

/// <summary>A spring table.</summary>
public sealed record SpringTableFile
{
    /// <summary>Compression.</summary>
    [Key("compression_mm", "compression of the spring, ascending")]
    [MinCount(2)]
    public required IReadOnlyList<double> CompressionMm { get; init; }

    /// <summary>Force.</summary>
    [Key("force_N", "force, one value for each compression, never falling")]
    [MinCount(2)]
    public required IReadOnlyList<double> Force { get; init; }
}

/// <summary>A pair of stops.</summary>
public sealed record StopFile
{
    /// <summary>Clearance.</summary>
    [Key("clearance_mm", "free travel from ride height until the stop touches, measured at the stop")]
    [AtLeast(0)]
    public required double ClearanceMm { get; init; }

    /// <summary>Force at the reference compression.</summary>
    [Key("force_N", "force of one stop at the reference compression")]
    [Above(0)]
    public required double Force { get; init; }

    /// <summary>Reference compression.</summary>
    [Key("atCompression_mm", "the reference compression of the stop, past contact")]
    [Above(0)]
    public required double AtCompressionMm { get; init; }

    /// <summary>Exponent.</summary>
    [Key("exponent", "how the force grows: force_N × (compression / reference)^exponent")]
    [Between(1, 6)]
    public double Exponent { get; init; } = 2;

    /// <summary>Where they sit.</summary>
    [Key("placement", "where the stops sit; motion ratios of 1 and 1 if left out")]
    public PlacementFile? Placement { get; init; }
}

/// <summary>The tyres.</summary>
public sealed record TyreFile
{
    /// <summary>Stiffness.</summary>
    [Key("stiffness_N_per_mm", "vertical stiffness of one tyre")]
    [Above(0)]
    public required double Stiffness { get; init; }

    /// <summary>Damping.</summary>
    [Key("damping_N_s_per_m", "vertical damping of one tyre")]
    [AtLeast(0)]
    public double Damping { get; init; }

    /// <summary>Dual spacing.</summary>
    [Key("dualSpacing_mm", "distance between the centre planes of a dual pair; leave out for single tyres")]
    [Above(0)]
    public double? DualSpacingMm { get; init; }
}
