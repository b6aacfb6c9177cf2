using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Roads;

namespace RollRide.Scenarios;

[Description("The test: road and cornering, at constant speed.")]
internal sealed record ManoeuvreFile
{
    [Key("speed_km_per_h", "constant speed")]
    [Between(1, 400)]
    public required double SpeedKmPerH { get; init; }

    [Key("duration_s", "length of the run")]
    [Between(0.01, 7200)]
    public required double Duration { get; init; }

    [Key("road", "the road; flat if left out")]
    public RoadFile Road { get; init; } = new();

    [Key("cornering", "the cornering; straight ahead if left out")]
    public CorneringFile? Cornering { get; init; }

    [Key("phases", "spans of time for which metrics are also given; they may overlap; if left out: “rough road”, “bump” or “measured road” up to the cornering, and “corner” from there to the end")]
    [MaxCount(1000)]
    public IReadOnlyList<PhaseFile>? Phases { get; init; }
}

[Description("A named span of time.")]
internal sealed record PhaseFile
{
    [Key("name", "name of the phase")]
    public required string Name { get; init; }

    [Key("start_s", "start of the phase, from the start of the run")]
    [Between(0, 7200)]
    public required double Start { get; init; }

    [Key("end_s", "end of the phase, from the start of the run")]
    [Above(0)]
    [AtMost(7200)]
    public required double End { get; init; }
}

[Description("The road under the left and the right wheel.")]
[AtMostOneOf("profile", "measured")]
internal sealed record RoadFile
{
    [Key("events", "obstacles, placed by distance; where they overlap their heights add")]
    [MaxCount(1000)]
    public IReadOnlyList<RoadEventFile> Events { get; init; } = [];

    [Key("profile", "a measured road: a CSV file with the columns distance_m and left_mm, right_mm or both; a side without a column is flat; adds to the events")]
    [FileName]
    public string? Profile { get; init; }

    [Key("random", "a random unevenness by ISO 8608; adds to the events")]
    public RandomRoadFile? Random { get; init; }

    [Key("measured", "a measured profile in even steps, prepared as such; adds to the events")]
    public MeasuredRoadFile? Measured { get; init; }
}

[Description("One obstacle on the road. Its key says the shape.")]
[ExactlyOneOf("bump", "ramp", "step", "pothole", "sine", "sweptSine")]
internal sealed record RoadEventFile
{
    [Key("start_m", "distance from the start of the run to the start of the obstacle")]
    [Between(0, 1_000_000)]
    public required double Start { get; init; }

    [Key("side", "the wheels that meet it: left, right or both")]
    public required RoadSide Side { get; init; }

    [Key("lag_m", "with side both: how much further on the right wheel meets the obstacle than the left; negative: the left wheel meets it later")]
    [Between(-1000, 1000)]
    public double Lag { get; init; }

    [Key("bump", "a smooth bump, half the height times 1 − cos; a negative height is a dip")]
    public BumpFile? Bump { get; init; }

    [Key("ramp", "a straight ramp that keeps its end height")]
    public BumpFile? Ramp { get; init; }

    [Key("step", "a step: a ramp that is short compared with the tyre's contact and keeps its end height")]
    public StepFile? Step { get; init; }

    [Key("pothole", "a hole with sloping edges and a flat bottom")]
    public PotholeFile? Pothole { get; init; }

    [Key("sine", "a whole number of sine waves")]
    public SineRoadFile? Sine { get; init; }

    [Key("sweptSine", "sine waves whose frequency runs linearly from one to the other over a whole number of cycles")]
    public SweptSineRoadFile? SweptSine { get; init; }
}

[Description("A smooth bump or a straight ramp.")]
internal sealed record BumpFile
{
    [Key("length_m", "length along the road")]
    [Between(0.001, 100_000)]
    public required double Length { get; init; }

    [Key("height_mm", "height; negative downwards")]
    [Between(-100_000, 100_000)]
    public required double HeightMm { get; init; }
}

[Description("A step (kerb), up or down.")]
internal sealed record StepFile
{
    [Key("height_mm", "height; negative downwards")]
    [Between(-100_000, 100_000)]
    public required double HeightMm { get; init; }

    [Key("edgeLength_m", "length of the short ramp that stands for the edge")]
    [Between(0.001, 100)]
    public double EdgeLength { get; init; } = RoadEvents.DefaultStepLength;
}

[Description("A hole in the road.")]
internal sealed record PotholeFile
{
    [Key("length_m", "length over all, edges included")]
    [Between(0.001, 100_000)]
    public required double Length { get; init; }

    [Key("depth_mm", "depth")]
    [Above(0)]
    [AtMost(100_000)]
    public required double DepthMm { get; init; }

    [Key("edgeLength_m", "length of each sloping edge")]
    [Between(0.001, 100)]
    public required double EdgeLength { get; init; }
}

[Description("Sine waves on the road.")]
internal sealed record SineRoadFile
{
    [Key("wavelength_m", "length of one wave")]
    [Between(0.01, 10_000)]
    public required double Wavelength { get; init; }

    [Key("amplitude_mm", "amplitude, half of crest to trough; negative: the first wave goes down")]
    [Between(-100_000, 100_000)]
    public required double AmplitudeMm { get; init; }

    [Key("cycles", "number of waves")]
    [Between(1, 100_000)]
    public required int Cycles { get; init; }
}

[Description("A swept sine on the road.")]
internal sealed record SweptSineRoadFile
{
    [Key("startFrequency_Hz", "frequency at the start, as the vehicle meets it at its speed")]
    [Between(0.01, 100)]
    public required double StartFrequency { get; init; }

    [Key("endFrequency_Hz", "frequency at the end, as the vehicle meets it at its speed; may be the lower one")]
    [Between(0.01, 100)]
    public required double EndFrequency { get; init; }

    [Key("amplitude_mm", "amplitude, half of crest to trough")]
    [Between(-100_000, 100_000)]
    public required double AmplitudeMm { get; init; }

    [Key("cycles", "number of waves")]
    [Between(1, 100_000)]
    public required int Cycles { get; init; }
}
