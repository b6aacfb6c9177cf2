using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>The cornering as it stands in the file.</summary>
[Description("The cornering: the lateral acceleration itself, or the steering that makes it.")]
[ExactlyOneOf("lateralAcceleration", "steering")]
public sealed record CorneringFile
{
    /// <summary>Given lateral acceleration.</summary>
    [Key("lateralAcceleration", "the lateral acceleration over time, positive in a left turn")]
    public LateralAccelerationFile? LateralAcceleration { get; init; }

    /// <summary>Steering.</summary>
    [Key("steering", "the steering-wheel angle over time, through a linear single-track model of the whole vehicle")]
    public SteeringFile? Steering { get; init; }
}

/// <summary>Lateral acceleration over time.</summary>
[Description("Lateral acceleration over time, positive in a left turn.")]
[ExactlyOneOf("events", "file")]
public sealed record LateralAccelerationFile
{
    /// <summary>Events.</summary>
    [Key("events", "events placed by time; where they overlap they add")]
    [MinCount(1)]
    [MaxCount(1000)]
    public IReadOnlyList<LateralAccelerationEventFile>? Events { get; init; }

    /// <summary>Measured record.</summary>
    [Key("file", "a measured record: a CSV file with the columns time_s and lateralAcceleration_m_per_s2")]
    public string? File { get; init; }
}

/// <summary>One event of lateral acceleration.</summary>
[Description("One event of lateral acceleration. Its key says the shape.")]
[ExactlyOneOf("rampStep", "sine", "sineWithDwell", "sweptSine")]
public sealed record LateralAccelerationEventFile : ITimeEventFile
{
    /// <inheritdoc/>
    [Key("start_s", "start of the event, from the start of the run")]
    [Between(0, 7200)]
    public required double Start { get; init; }

    /// <summary>Amplitude.</summary>
    [Key("amplitude_m_per_s2", "final value or amplitude, positive in a left turn")]
    [Between(-15, 15)]
    public required double Amplitude { get; init; }

    /// <inheritdoc/>
    [Key("rampStep", "a rise to the amplitude that is then held")]
    public RampStepFile? RampStep { get; init; }

    /// <inheritdoc/>
    [Key("sine", "a whole number of sine waves")]
    public SineFile? Sine { get; init; }

    /// <inheritdoc/>
    [Key("sineWithDwell", "one sine wave, held at its second peak")]
    public SineWithDwellFile? SineWithDwell { get; init; }

    /// <inheritdoc/>
    [Key("sweptSine", "sine waves whose frequency runs linearly from one to the other over a whole number of cycles")]
    public SweptSineFile? SweptSine { get; init; }
}

/// <summary>Steering over time.</summary>
[Description("Steering-wheel angle over time, positive to the left, and the vehicle that answers it.")]
[ExactlyOneOf("events", "file")]
public sealed record SteeringFile
{
    /// <summary>The whole vehicle.</summary>
    [Key("singleTrack", "the whole vehicle as a linear single-track model")]
    public required SingleTrackFile SingleTrack { get; init; }

    /// <summary>Events.</summary>
    [Key("events", "events placed by time; where they overlap they add")]
    [MinCount(1)]
    [MaxCount(1000)]
    public IReadOnlyList<SteeringEventFile>? Events { get; init; }

    /// <summary>Measured record.</summary>
    [Key("file", "a measured record: a CSV file with the columns time_s and steeringWheelAngle_deg")]
    public string? File { get; init; }
}

/// <summary>One event of steering.</summary>
[Description("One event of the steering wheel. Its key says the shape.")]
[ExactlyOneOf("rampStep", "sine", "sineWithDwell", "sweptSine")]
public sealed record SteeringEventFile : ITimeEventFile
{
    /// <inheritdoc/>
    [Key("start_s", "start of the event, from the start of the run")]
    [Between(0, 7200)]
    public required double Start { get; init; }

    /// <summary>Amplitude.</summary>
    [Key("amplitude_deg", "final value or amplitude at the steering wheel, positive to the left")]
    [Between(-1080, 1080)]
    public required double AmplitudeDeg { get; init; }

    /// <inheritdoc/>
    [Key("rampStep", "a rise to the amplitude that is then held")]
    public RampStepFile? RampStep { get; init; }

    /// <inheritdoc/>
    [Key("sine", "a whole number of sine waves")]
    public SineFile? Sine { get; init; }

    /// <inheritdoc/>
    [Key("sineWithDwell", "one sine wave, held at its second peak")]
    public SineWithDwellFile? SineWithDwell { get; init; }

    /// <inheritdoc/>
    [Key("sweptSine", "sine waves whose frequency runs linearly from one to the other over a whole number of cycles")]
    public SweptSineFile? SweptSine { get; init; }
}

/// <summary>The shapes that lateral acceleration and steering share.</summary>
public interface ITimeEventFile
{
    /// <summary>Start, s.</summary>
    double Start { get; }

    /// <summary>Step with a ramp.</summary>
    RampStepFile? RampStep { get; }

    /// <summary>Sine.</summary>
    SineFile? Sine { get; }

    /// <summary>Sine with dwell.</summary>
    SineWithDwellFile? SineWithDwell { get; }

    /// <summary>Swept sine.</summary>
    SweptSineFile? SweptSine { get; }
}

/// <summary>A step with a ramp.</summary>
[Description("A step with a ramp.")]
public sealed record RampStepFile
{
    /// <summary>Duration of the ramp.</summary>
    [Key("rampDuration_s", "time of the rise; 0.1 to 0.5 s is a quick driver")]
    [Between(0.001, 7200)]
    public required double RampDuration { get; init; }
}

/// <summary>Sine waves in time.</summary>
[Description("Sine waves in time, then zero.")]
public sealed record SineFile
{
    /// <summary>Frequency.</summary>
    [Key("frequency_Hz", "frequency")]
    [Between(0.001, 100)]
    public required double Frequency { get; init; }

    /// <summary>Cycles.</summary>
    [Key("cycles", "number of waves")]
    [Between(1, 100_000)]
    public int Cycles { get; init; } = 1;
}

/// <summary>A sine with dwell.</summary>
[Description("A sine wave that rests at its second peak and is then completed; usually 0.7 Hz with 0.5 s.")]
public sealed record SineWithDwellFile
{
    /// <summary>Frequency.</summary>
    [Key("frequency_Hz", "frequency")]
    [Between(0.001, 100)]
    public required double Frequency { get; init; }

    /// <summary>Dwell.</summary>
    [Key("dwell_s", "time for which the second peak is held")]
    [Between(0.001, 7200)]
    public required double Dwell { get; init; }
}

/// <summary>A swept sine in time.</summary>
[Description("A swept sine in time, then zero.")]
public sealed record SweptSineFile
{
    /// <summary>First frequency.</summary>
    [Key("startFrequency_Hz", "frequency at the start")]
    [Between(0.001, 100)]
    public required double StartFrequency { get; init; }

    /// <summary>Last frequency.</summary>
    [Key("endFrequency_Hz", "frequency at the end")]
    [Between(0.001, 100)]
    public required double EndFrequency { get; init; }

    /// <summary>Cycles.</summary>
    [Key("cycles", "number of waves")]
    [Between(1, 100_000)]
    public required int Cycles { get; init; }
}

/// <summary>The single-track model of the whole vehicle.</summary>
[Description("The whole vehicle as a linear single-track model: it turns the steering into the lateral acceleration at the centre of gravity, and does not feel the roll.")]
public sealed record SingleTrackFile
{
    /// <summary>Mass.</summary>
    [Key("mass_kg", "mass of the whole vehicle, both axles")]
    [Between(10, 200_000)]
    public required double MassKg { get; init; }

    /// <summary>Yaw inertia.</summary>
    [Key("yawInertia_kg_m2", "yaw inertia of the whole vehicle about its centre of gravity")]
    [Between(1, 10_000_000)]
    public required double YawInertia { get; init; }

    /// <summary>Distance to the front axle.</summary>
    [Key("cgToFrontAxle_mm", "distance from the centre of gravity to the front axle")]
    [Between(1, 50_000)]
    public required double CgToFrontAxleMm { get; init; }

    /// <summary>Distance to the rear axle.</summary>
    [Key("cgToRearAxle_mm", "distance from the centre of gravity to the rear axle")]
    [Between(1, 50_000)]
    public required double CgToRearAxleMm { get; init; }

    /// <summary>Cornering stiffness in front.</summary>
    [Key("frontCorneringStiffness_kN_per_rad", "cornering stiffness of the front axle, both sides together")]
    [Between(0.1, 100_000)]
    public required double FrontCorneringStiffness { get; init; }

    /// <summary>Cornering stiffness in the rear.</summary>
    [Key("rearCorneringStiffness_kN_per_rad", "cornering stiffness of the rear axle, both sides together")]
    [Between(0.1, 100_000)]
    public required double RearCorneringStiffness { get; init; }

    /// <summary>Steering ratio.</summary>
    [Key("steeringRatio", "steering-wheel angle over road-wheel angle")]
    [Between(0.1, 1000)]
    public required double SteeringRatio { get; init; }
}
