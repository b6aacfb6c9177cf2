using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>What the dampers are tuned for, as it stands in the file.</summary>
[Description("What the command 'tune' tunes the dampers of the layouts for.")]
public sealed record TuningFile
{
    /// <summary>Heave target.</summary>
    [Key("heave", "the heave damping wanted")]
    public required TuningTargetFile Heave { get; init; }

    /// <summary>Roll target.</summary>
    [Key("roll", "the roll damping wanted")]
    public required TuningTargetFile Roll { get; init; }

    /// <summary>Limits.</summary>
    [Key("limits", "what the damper can be")]
    public required TuningLimitsFile Limits { get; init; }

    /// <summary>Trade-off.</summary>
    [Key("tradeOff", "the search for the best between ride over the bump and roll in the corner")]
    public TradeOffFile TradeOff { get; init; } = new();
}

/// <summary>A damping ratio wanted.</summary>
[Description("A damping ratio wanted for one body mode, at one damper velocity.")]
public sealed record TuningTargetFile
{
    /// <summary>Ratio.</summary>
    [Key("ratio", "damping ratio wanted")]
    [Between(0.01, 0.99)]
    public required double Ratio { get; init; }

    /// <summary>Tolerance.</summary>
    [Key("tolerance", "how far from it still counts as met")]
    [Between(0.001, 0.5)]
    public double Tolerance { get; init; } = 0.02;

    /// <summary>Damper velocity.</summary>
    [Key("damperVelocity_m_per_s", "velocity amplitude at the damper for which it is wanted")]
    [Between(0.001, 5)]
    public required double DamperVelocity { get; init; }

    /// <summary>Weight.</summary>
    [Key("weight", "how much a miss counts where not all targets can be met")]
    [Between(0, 1000)]
    public double Weight { get; init; } = 1;
}

/// <summary>Limits of the valving.</summary>
[Description("What the tuned damper must keep. Its force always rises with velocity.")]
public sealed record TuningLimitsFile
{
    /// <summary>Force.</summary>
    [Key("force_N", "largest force of either direction, at forceVelocity_m_per_s")]
    [Between(1, 10_000_000)]
    public required double Force { get; init; }

    /// <summary>Velocity of the force limit.</summary>
    [Key("forceVelocity_m_per_s", "velocity at which the force limit counts")]
    [Between(0.05, 10)]
    public double ForceVelocity { get; init; } = 1;

    /// <summary>Rebound over compression.</summary>
    [Key("reboundToCompression", "lowest and highest rebound force over compression force; the present damper's is kept if it lies between")]
    [Between(0.1, 20)]
    [MinCount(2)]
    [MaxCount(2)]
    public IReadOnlyList<double> ReboundToCompression { get; init; } = [1, 4];

    /// <summary>Knee velocity.</summary>
    [Key("kneeVelocity_m_per_s", "lowest and highest knee velocity that the shims can give")]
    [Between(0.005, 2)]
    [MinCount(2)]
    [MaxCount(2)]
    public IReadOnlyList<double> KneeVelocity { get; init; } = [0.03, 0.3];

    /// <summary>Knee force.</summary>
    [Key("kneeForce_N", "lowest and highest knee force that the shims can give, in either direction")]
    [Between(0.1, 10_000_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public IReadOnlyList<double> KneeForce { get; init; } = [10, 5000];

    /// <summary>High-speed share.</summary>
    [Key("highSpeedShare", "lowest and highest slope above the knee over the slope below it: less than 1 is digressive, 1 linear, more progressive")]
    [Between(0.001, 10)]
    [MinCount(2)]
    [MaxCount(2)]
    public IReadOnlyList<double> HighSpeedShare { get; init; } = [0.05, 1];
}

/// <summary>Settings of the trade-off.</summary>
[Description("How the trade-off front is searched.")]
public sealed record TradeOffFile
{
    /// <summary>Phase.</summary>
    [Key("ridePhase", "phase of the manoeuvre over which the ride counts")]
    public string RidePhase { get; init; } = "bump";

    /// <summary>Points.</summary>
    [Key("points", "points wanted on the front")]
    [Between(30, 200)]
    public int Points { get; init; } = 40;
}
