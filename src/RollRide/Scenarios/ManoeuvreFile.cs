using RollRide.DataFiles;
using RollRide.Roads;

namespace RollRide.Scenarios;

/// <summary>The manoeuvre as it stands in the file.</summary>
public sealed record ManoeuvreFile
{
    /// <summary>Speed.</summary>
    [Key("speed_km_per_h", "constant speed")]
    [Above(0)]
    [AtMost(400)]
    public required double SpeedKmPerH { get; init; }

    /// <summary>Duration.</summary>
    [Key("duration_s", "length of the run")]
    [Above(0)]
    [AtMost(7200)]
    public required double Duration { get; init; }

    /// <summary>The road.</summary>
    [Key("road", "the road; flat if left out")]
    public RoadFile Road { get; init; } = new();

    /// <summary>The cornering.</summary>
    [Key("cornering", "the cornering; straight ahead if left out")]
    public CorneringFile? Cornering { get; init; }

    /// <summary>The phases.</summary>
    [Key("phases", "spans of time for which metrics are also given; if left out: 'bump' from the first road event to the cornering, and 'corner' from there to the end")]
    public IReadOnlyList<PhaseFile>? Phases { get; init; }
}

/// <summary>A named span of time.</summary>
public sealed record PhaseFile
{
    /// <summary>Name.</summary>
    [Key("name", "name of the phase")]
    public required string Name { get; init; }

    /// <summary>Start.</summary>
    [Key("start_s", "start of the phase")]
    [AtLeast(0)]
    public required double Start { get; init; }

    /// <summary>End.</summary>
    [Key("end_s", "end of the phase")]
    [Above(0)]
    public required double End { get; init; }
}

/// <summary>The road.</summary>
public sealed record RoadFile
{
    /// <summary>Events.</summary>
    [Key("events", "obstacles, placed by distance; where they overlap their heights add")]
    public IReadOnlyList<RoadEventFile> Events { get; init; } = [];

    /// <summary>Measured profile.</summary>
    [Key("profile", "a CSV file with the columns distance_m, left_mm and right_mm, beside the scenario; adds to the events")]
    public string? Profile { get; init; }
}

/// <summary>An obstacle on the road.</summary>
[ExactlyOneOf("bump", "ramp", "step", "pothole", "sine", "sweptSine")]
public sealed record RoadEventFile
{
    /// <summary>Start.</summary>
    [Key("start_m", "distance from the start of the run to the start of the obstacle")]
    [AtLeast(0)]
    public required double Start { get; init; }

    /// <summary>Side.</summary>
    [Key("side", "the wheels that meet it")]
    public required RoadSide Side { get; init; }

    /// <summary>Lag.</summary>
    [Key("lag_m", "with side both: how much later the right wheel meets it; negative: the left wheel")]
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
public sealed record BumpFile
{
    /// <summary>Length.</summary>
    [Key("length_m", "length along the road")]
    [Above(0)]
    public required double Length { get; init; }

    /// <summary>Height.</summary>
    [Key("height_mm", "height; negative downwards")]
    public required double HeightMm { get; init; }
}

/// <summary>A step.</summary>
public sealed record StepFile
{
    /// <summary>Height.</summary>
    [Key("height_mm", "height; negative downwards")]
    public required double HeightMm { get; init; }

    /// <summary>Length of the ramp.</summary>
    [Key("edgeLength_m", "length of the short ramp that stands for the edge")]
    [Above(0)]
    public double EdgeLength { get; init; } = RoadEvents.DefaultStepLength;
}

/// <summary>A pothole.</summary>
public sealed record PotholeFile
{
    /// <summary>Length.</summary>
    [Key("length_m", "length over all, edges included")]
    [Above(0)]
    public required double Length { get; init; }

    /// <summary>Depth.</summary>
    [Key("depth_mm", "depth")]
    [Above(0)]
    public required double DepthMm { get; init; }

    /// <summary>Length of an edge.</summary>
    [Key("edgeLength_m", "length of each sloping edge")]
    [Above(0)]
    public required double EdgeLength { get; init; }
}

/// <summary>Sine waves on the road.</summary>
public sealed record SineRoadFile
{
    /// <summary>Wavelength.</summary>
    [Key("wavelength_m", "length of one wave")]
    [Above(0)]
    public required double Wavelength { get; init; }

    /// <summary>Amplitude.</summary>
    [Key("amplitude_mm", "amplitude, half of crest to trough; negative: the first wave goes down")]
    public required double AmplitudeMm { get; init; }

    /// <summary>Cycles.</summary>
    [Key("cycles", "number of waves")]
    [AtLeast(1)]
    public required int Cycles { get; init; }
}

/// <summary>A swept sine on the road.</summary>
public sealed record SweptSineRoadFile
{
    /// <summary>First frequency.</summary>
    [Key("startFrequency_Hz", "frequency at the given speed at the start")]
    [Above(0)]
    public required double StartFrequency { get; init; }

    /// <summary>Last frequency.</summary>
    [Key("endFrequency_Hz", "frequency at the end")]
    [Above(0)]
    public required double EndFrequency { get; init; }

    /// <summary>Amplitude.</summary>
    [Key("amplitude_mm", "amplitude, half of crest to trough")]
    public required double AmplitudeMm { get; init; }

    /// <summary>Cycles.</summary>
    [Key("cycles", "number of waves")]
    [AtLeast(1)]
    public required int Cycles { get; init; }
}
