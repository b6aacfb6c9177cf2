using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Roads;

namespace RollRide.Scenarios;

/// <summary>The manoeuvre as it stands in the file.</summary>
[Description("What the vehicle is driven over and through, at constant speed.")]
public sealed record ManoeuvreFile
{
    /// <summary>Speed.</summary>
    [Key("speed_km_per_h", "constant speed")]
    [Between(1, 400)]
    public required double SpeedKmPerH { get; init; }

    /// <summary>Duration.</summary>
    [Key("duration_s", "length of the run")]
    [Between(0.01, 7200)]
    public required double Duration { get; init; }

    /// <summary>The road.</summary>
    [Key("road", "the road; flat if left out")]
    public RoadFile Road { get; init; } = new();

    /// <summary>The cornering.</summary>
    [Key("cornering", "the cornering; straight ahead if left out")]
    public CorneringFile? Cornering { get; init; }

    /// <summary>The phases.</summary>
    [Key("phases", "spans of time for which metrics are also given; they may overlap; if left out: 'rough road' on a random road once its start has died away, 'bump' ('measured road' where one is given) from the first road event, both to the cornering (to the end, where the cornering comes first), and 'corner' from the start of the cornering to the end")]
    [MaxCount(1000)]
    public IReadOnlyList<PhaseFile>? Phases { get; init; }
}

/// <summary>A named span of time.</summary>
[Description("A named span of time.")]
public sealed record PhaseFile
{
    /// <summary>Name.</summary>
    [Key("name", "name of the phase")]
    public required string Name { get; init; }

    /// <summary>Start.</summary>
    [Key("start_s", "start of the phase, from the start of the run")]
    [Between(0, 7200)]
    public required double Start { get; init; }

    /// <summary>End.</summary>
    [Key("end_s", "end of the phase, from the start of the run")]
    [Above(0)]
    [AtMost(7200)]
    public required double End { get; init; }
}

/// <summary>The road.</summary>
[Description("The road under the left and the right wheel.")]
[AtMostOneOf("profile", "measured")]
public sealed record RoadFile
{
    /// <summary>Events.</summary>
    [Key("events", "obstacles, placed by distance; where they overlap their heights add")]
    [MaxCount(1000)]
    public IReadOnlyList<RoadEventFile> Events { get; init; } = [];

    /// <summary>Measured profile.</summary>
    [Key("profile", "a measured road: a CSV file with the columns distance_m and left_mm, right_mm or both, a side without a column being flat; distances count from the start of the run and heights from the first one; adds to the events")]
    public string? Profile { get; init; }

    /// <summary>Random road.</summary>
    [Key("random", "a random unevenness by ISO 8608; adds to the events")]
    public RandomRoadFile? Random { get; init; }

    /// <summary>Measured road.</summary>
    [Key("measured", "a measured profile in even steps, prepared as such; adds to the events")]
    public MeasuredRoadFile? Measured { get; init; }
}

/// <summary>An obstacle on the road.</summary>
[Description("One obstacle on the road. Its key says the shape.")]
[ExactlyOneOf("bump", "ramp", "step", "pothole", "sine", "sweptSine")]
public sealed record RoadEventFile
{
    /// <summary>Start.</summary>
    [Key("start_m", "distance from the start of the run to the start of the obstacle")]
    [Between(0, 1_000_000)]
    public required double Start { get; init; }

    /// <summary>Side.</summary>
    [Key("side", "the wheels that meet it: left, right or both")]
    public required RoadSide Side { get; init; }

    /// <summary>Lag.</summary>
    [Key("lag_m", "with side both: how much further on the right wheel meets the obstacle than the left; negative: the left wheel meets it later")]
    [Between(-1000, 1000)]
    public double Lag { get; init; }

    /// <summary>Haversine bump.</summary>
    [Key("bump", "a smooth bump, half the height times 1 − cos; a negative height is a dip")]
    public BumpFile? Bump { get; init; }

    /// <summary>Ramp.</summary>
    [Key("ramp", "a straight ramp that keeps its end height")]
    public BumpFile? Ramp { get; init; }

    /// <summary>Step.</summary>
    [Key("step", "a step: a ramp short against the tyre's contact, that keeps its end height")]
    public StepFile? Step { get; init; }

    /// <summary>Pothole.</summary>
    [Key("pothole", "a hole with sloping edges and a flat bottom")]
    public PotholeFile? Pothole { get; init; }

    /// <summary>Sine.</summary>
    [Key("sine", "a whole number of sine waves")]
    public SineRoadFile? Sine { get; init; }

    /// <summary>Swept sine.</summary>
    [Key("sweptSine", "sine waves whose frequency runs linearly from one to the other over a whole number of cycles")]
    public SweptSineRoadFile? SweptSine { get; init; }
}

/// <summary>A bump or ramp.</summary>
[Description("A smooth bump or a straight ramp.")]
public sealed record BumpFile
{
    /// <summary>Length.</summary>
    [Key("length_m", "length along the road")]
    [Between(0.001, 100_000)]
    public required double Length { get; init; }

    /// <summary>Height.</summary>
    [Key("height_mm", "height; negative downwards")]
    [Between(-100_000, 100_000)]
    public required double HeightMm { get; init; }
}

/// <summary>A step.</summary>
[Description("A step (kerb), up or down.")]
public sealed record StepFile
{
    /// <summary>Height.</summary>
    [Key("height_mm", "height; negative downwards")]
    [Between(-100_000, 100_000)]
    public required double HeightMm { get; init; }

    /// <summary>Length of the ramp.</summary>
    [Key("edgeLength_m", "length of the short ramp that stands for the edge")]
    [Between(0.001, 100)]
    public double EdgeLength { get; init; } = RoadEvents.DefaultStepLength;
}

/// <summary>A pothole.</summary>
[Description("A hole in the road.")]
public sealed record PotholeFile
{
    /// <summary>Length.</summary>
    [Key("length_m", "length over all, edges included")]
    [Between(0.001, 100_000)]
    public required double Length { get; init; }

    /// <summary>Depth.</summary>
    [Key("depth_mm", "depth")]
    [Above(0)]
    [AtMost(100_000)]
    public required double DepthMm { get; init; }

    /// <summary>Length of an edge.</summary>
    [Key("edgeLength_m", "length of each sloping edge")]
    [Between(0.001, 100)]
    public required double EdgeLength { get; init; }
}

/// <summary>Sine waves on the road.</summary>
[Description("Sine waves on the road.")]
public sealed record SineRoadFile
{
    /// <summary>Wavelength.</summary>
    [Key("wavelength_m", "length of one wave")]
    [Between(0.01, 10_000)]
    public required double Wavelength { get; init; }

    /// <summary>Amplitude.</summary>
    [Key("amplitude_mm", "amplitude, half of crest to trough; negative: the first wave goes down")]
    [Between(-100_000, 100_000)]
    public required double AmplitudeMm { get; init; }

    /// <summary>Cycles.</summary>
    [Key("cycles", "number of waves")]
    [Between(1, 100_000)]
    public required int Cycles { get; init; }
}

/// <summary>A swept sine on the road.</summary>
[Description("A swept sine on the road.")]
public sealed record SweptSineRoadFile
{
    /// <summary>First frequency.</summary>
    [Key("startFrequency_Hz", "frequency at the start, as the vehicle meets it at its speed")]
    [Between(0.01, 100)]
    public required double StartFrequency { get; init; }

    /// <summary>Last frequency.</summary>
    [Key("endFrequency_Hz", "frequency at the end, as the vehicle meets it at its speed; may be the lower one")]
    [Between(0.01, 100)]
    public required double EndFrequency { get; init; }

    /// <summary>Amplitude.</summary>
    [Key("amplitude_mm", "amplitude, half of crest to trough")]
    [Between(-100_000, 100_000)]
    public required double AmplitudeMm { get; init; }

    /// <summary>Cycles.</summary>
    [Key("cycles", "number of waves")]
    [Between(1, 100_000)]
    public required int Cycles { get; init; }
}
