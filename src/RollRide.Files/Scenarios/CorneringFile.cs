using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

[Description("The cornering: the lateral acceleration itself, or the steering that makes it.")]
[ExactlyOneOf("lateralAcceleration", "steering")]
internal sealed record CorneringFile
{
    [Key("lateralAcceleration", "the lateral acceleration over time, positive in a left turn")]
    public LateralAccelerationFile? LateralAcceleration { get; init; }

    [Key("steering", "the steering-wheel angle over time, through a linear single-track model of the whole vehicle")]
    public SteeringFile? Steering { get; init; }
}

[Description("Lateral acceleration over time, positive in a left turn.")]
[ExactlyOneOf("events", "file")]
internal sealed record LateralAccelerationFile
{
    [Key("events", "events placed by time; where they overlap they add")]
    [MinCount(1)]
    [MaxCount(1000)]
    public IReadOnlyList<LateralAccelerationEventFile>? Events { get; init; }

    [Key("file", "a measured record: a CSV file with the columns time_s and lateralAcceleration_m_per_s2")]
    [FileName]
    public string? File { get; init; }

    [Key("rearDelay_s", "how much later the rear axle has the lateral acceleration of the front axle, with wholeVehicle")]
    [Between(0, 2)]
    public double RearDelay { get; init; }
}

[Description("One event of lateral acceleration. Its key says the shape.")]
[ExactlyOneOf("rampStep", "sine", "sineWithDwell", "sweptSine")]
internal sealed record LateralAccelerationEventFile : ITimeEventFile
{
    [Key("start_s", "start of the event, from the start of the run")]
    [Between(0, 7200)]
    public required double Start { get; init; }

    [Key("amplitude_m_per_s2", "final value or amplitude, positive in a left turn")]
    [Between(-15, 15)]
    public required double Amplitude { get; init; }

    [Key("rampStep", "a rise to the amplitude that is then held")]
    public RampStepFile? RampStep { get; init; }

    [Key("sine", "a whole number of sine waves")]
    public SineFile? Sine { get; init; }

    [Key("sineWithDwell", "one sine wave, held at its second peak")]
    public SineWithDwellFile? SineWithDwell { get; init; }

    [Key("sweptSine", "sine waves whose frequency runs linearly from one to the other over a whole number of cycles")]
    public SweptSineFile? SweptSine { get; init; }
}

[Description("Steering-wheel angle over time, positive to the left, and the vehicle that responds to it.")]
[ExactlyOneOf("events", "file")]
internal sealed record SteeringFile
{
    [Key("singleTrack", "the whole vehicle as a linear single-track model")]
    public required SingleTrackFile SingleTrack { get; init; }

    [Key("events", "events placed by time; where they overlap they add")]
    [MinCount(1)]
    [MaxCount(1000)]
    public IReadOnlyList<SteeringEventFile>? Events { get; init; }

    [Key("file", "a measured record: a CSV file with the columns time_s and steeringWheelAngle_deg")]
    [FileName]
    public string? File { get; init; }
}

[Description("One event of the steering wheel. Its key says the shape.")]
[ExactlyOneOf("rampStep", "sine", "sineWithDwell", "sweptSine")]
internal sealed record SteeringEventFile : ITimeEventFile
{
    [Key("start_s", "start of the event, from the start of the run")]
    [Between(0, 7200)]
    public required double Start { get; init; }

    [Key("amplitude_deg", "final value or amplitude at the steering wheel, positive to the left")]
    [Between(-1080, 1080)]
    public required double AmplitudeDeg { get; init; }

    [Key("rampStep", "a rise to the amplitude that is then held")]
    public RampStepFile? RampStep { get; init; }

    [Key("sine", "a whole number of sine waves")]
    public SineFile? Sine { get; init; }

    [Key("sineWithDwell", "one sine wave, held at its second peak")]
    public SineWithDwellFile? SineWithDwell { get; init; }

    [Key("sweptSine", "sine waves whose frequency runs linearly from one to the other over a whole number of cycles")]
    public SweptSineFile? SweptSine { get; init; }
}

/// <summary>The shapes that lateral acceleration and steering share.</summary>
internal interface ITimeEventFile
{
    double Start { get; }

    RampStepFile? RampStep { get; }

    SineFile? Sine { get; }

    SineWithDwellFile? SineWithDwell { get; }

    SweptSineFile? SweptSine { get; }
}

[Description("A step with a ramp.")]
internal sealed record RampStepFile
{
    [Key("rampDuration_s", "time of the rise; 0.1 to 0.5 s for a quick driver")]
    [Between(0.001, 7200)]
    public required double RampDuration { get; init; }
}

[Description("Sine waves in time, then zero.")]
internal sealed record SineFile
{
    [Key("frequency_Hz", "frequency")]
    [Between(0.001, 100)]
    public required double Frequency { get; init; }

    [Key("cycles", "number of waves")]
    [Between(1, 100_000)]
    public int Cycles { get; init; } = 1;
}

[Description("A sine wave that is held at its second peak and is then completed; usually 0.7 Hz with 0.5 s.")]
internal sealed record SineWithDwellFile
{
    [Key("frequency_Hz", "frequency")]
    [Between(0.001, 100)]
    public required double Frequency { get; init; }

    [Key("dwell_s", "time for which the second peak is held")]
    [Between(0.001, 7200)]
    public required double Dwell { get; init; }
}

[Description("A swept sine in time, then zero.")]
internal sealed record SweptSineFile
{
    [Key("startFrequency_Hz", "frequency at the start")]
    [Between(0.001, 100)]
    public required double StartFrequency { get; init; }

    [Key("endFrequency_Hz", "frequency at the end")]
    [Between(0.001, 100)]
    public required double EndFrequency { get; init; }

    [Key("cycles", "number of waves")]
    [Between(1, 100_000)]
    public required int Cycles { get; init; }
}

[Description("The whole vehicle as a linear single-track model: it gives the lateral acceleration at the centre of gravity from the steering; body roll does not act back on it.")]
internal sealed record SingleTrackFile
{
    [Key("mass_kg", "mass of the whole vehicle, both axles")]
    [Between(10, 200_000)]
    public required double MassKg { get; init; }

    [Key("yawInertia_kg_m2", "yaw inertia of the whole vehicle about its centre of gravity")]
    [Between(1, 10_000_000)]
    public required double YawInertia { get; init; }

    [Key("cgToFrontAxle_mm", "distance from the centre of gravity to the front axle")]
    [Between(1, 50_000)]
    public required double CgToFrontAxleMm { get; init; }

    [Key("cgToRearAxle_mm", "distance from the centre of gravity to the rear axle")]
    [Between(1, 50_000)]
    public required double CgToRearAxleMm { get; init; }

    [Key("frontCorneringStiffness_kN_per_rad", "cornering stiffness of the front axle, both sides together")]
    [Between(0.1, 100_000)]
    public required double FrontCorneringStiffness { get; init; }

    [Key("rearCorneringStiffness_kN_per_rad", "cornering stiffness of the rear axle, both sides together")]
    [Between(0.1, 100_000)]
    public required double RearCorneringStiffness { get; init; }

    [Key("steeringRatio", "steering-wheel angle over road-wheel angle")]
    [Between(0.1, 1000)]
    public required double SteeringRatio { get; init; }
}
