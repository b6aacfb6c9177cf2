using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Studies;

namespace RollRide.Scenarios;

[Description("What the command tune aims for with the dampers of the layouts.")]
internal sealed record TuningFile
{
    [Key("heave", "the heave damping wanted")]
    public required TuningTargetFile Heave { get; init; }

    [Key("roll", "the roll damping wanted")]
    public required TuningTargetFile Roll { get; init; }

    [Key("limits", "limits of the tuned damper")]
    public required TuningLimitsFile Limits { get; init; }

    [Key("floors", "the least damping ratio of each mode with which a valving counts in the trade-off; below it the vehicle would be nearly undamped")]
    public DampingFloorsFile Floors { get; init; } = new();

    [Key("scatter", "what scatters among the vehicles built; the valving is then also sought for all of them")]
    public ScatterFile? Scatter { get; init; }

    [Key("tradeOff", "the search for the best compromise between ride over the bump and roll in the corner")]
    public TradeOffFile TradeOff { get; init; } = new();
}

[Description("A damping ratio wanted for one body mode, at one damper velocity.")]
internal sealed record TuningTargetFile
{
    [Key("ratio", "damping ratio wanted")]
    [Between(0.01, 0.99)]
    public required double Ratio { get; init; }

    [Key("tolerance", "largest difference from it that still counts as met")]
    [Between(0.001, 0.5)]
    public double Tolerance { get; init; } = 0.02;

    [Key("damperVelocity_m_per_s", "velocity amplitude at the damper for which it is wanted")]
    [Between(0.001, 5)]
    public required double DamperVelocity { get; init; }

    [Key("weight", "how much a miss counts where not all targets can be met")]
    [Between(0, 1000)]
    public double Weight { get; init; } = 1;
}

[Description("Limits of the tuned damper. Its force always rises with velocity.")]
internal sealed record TuningLimitsFile
{
    [Key("force_N", "largest force of either direction, at forceVelocity_m_per_s")]
    [Between(1, 10_000_000)]
    public required double Force { get; init; }

    [Key("forceVelocity_m_per_s", "velocity at which the force limit counts")]
    [Between(0.05, 10)]
    public double ForceVelocity { get; init; } = 1;

    [Key("reboundToCompression", "lowest and highest rebound force over compression force; the present damper's is kept if it lies between")]
    [Between(0.1, 20)]
    [MinCount(2)]
    [MaxCount(2)]
    public IReadOnlyList<double> ReboundToCompression { get; init; } = [1, 4];

    [Key("kneeVelocity_m_per_s", "lowest and highest knee velocity that the shims can give")]
    [Between(0.005, 2)]
    [MinCount(2)]
    [MaxCount(2)]
    public IReadOnlyList<double> KneeVelocity { get; init; } = [0.03, 0.3];

    [Key("kneeForce_N", "lowest and highest knee force that the shims can give, in either direction")]
    [Between(0.1, 10_000_000)]
    [MinCount(2)]
    [MaxCount(2)]
    public IReadOnlyList<double> KneeForce { get; init; } = [10, 5000];

    [Key("highSpeedShare", "lowest and highest slope above the knee over the slope below it: less than 1 is digressive, 1 linear, more progressive")]
    [Between(0.001, 10)]
    [MinCount(2)]
    [MaxCount(2)]
    public IReadOnlyList<double> HighSpeedShare { get; init; } = [0.05, 1];
}

[Description("The least damping ratios with which a valving counts in the trade-off; common practice, no source.")]
internal sealed record DampingFloorsFile
{
    [Key("heave", "least damping ratio of heave, at the velocity of the heave target")]
    [Between(0, 0.9)]
    public double Heave { get; init; } = 0.1;

    [Key("roll", "least damping ratio of roll, at the velocity of the roll target")]
    [Between(0, 0.9)]
    public double Roll { get; init; } = 0.1;

    [Key("hop", "least damping ratio of hop, at analysis.referenceDamperVelocity_m_per_s")]
    [Between(0, 0.9)]
    public double Hop { get; init; } = 0.05;

    [Key("tramp", "least damping ratio of tramp, at the same velocity")]
    [Between(0, 0.9)]
    public double Tramp { get; init; } = 0.05;
}

[Description("Numbers of this file that scatter among the vehicles built, as a sweep varies them: each sample is one vehicle, checked in every load and state of its dampers.")]
internal sealed record ScatterFile
{
    [Key("parameters", "the numbers that scatter, such as dampers.rear.forceScale for the tolerance of the dampers' force")]
    [MinCount(1)]
    [MaxCount(1000)]
    public required IReadOnlyList<SweepParameterFile> Parameters { get; init; }

    [Key("samples", "number of vehicles, drawn as a Latin hypercube; if none of 59 misses, at most 5 % of all vehicles do, with 95 % confidence")]
    [Between(2, 10_000)]
    public int Samples { get; init; } = 64;

    [Key("seed", "seed of the samples: the same seed gives the same vehicles everywhere")]
    [Between(0, int.MaxValue)]
    public int Seed { get; init; } = 1;

    [Key("minimise", "what the valving minimises: the miss of the worst vehicle in its worst state, or the share of vehicles that miss a target in some state")]
    public RobustGoal Minimise { get; init; } = RobustGoal.WorstCase;
}

[Description("How the trade-off front is searched.")]
internal sealed record TradeOffFile
{
    [Key("ridePhase", "phase of the manoeuvre over which the ride counts")]
    public string RidePhase { get; init; } = "bump";

    [Key("points", "points wanted on the front")]
    [Between(30, 200)]
    public int Points { get; init; } = 40;
}
