using RollRide.DataFiles;

namespace RollRide.Scenarios;

internal sealed record TargetsFile
{
    [Key("rollDampingRatioMinimum", "least damping ratio of body roll")]
    [Above(0)]
    [Below(1)]
    public required double RollMinimum { get; init; }

    [Key("heaveDampingRatioMinimum", "least damping ratio of body heave")]
    [Above(0)]
    [Below(1)]
    public required double HeaveMinimum { get; init; }

    [Key("heaveDampingRatioMaximum", "greatest damping ratio of body heave; beyond it the body follows the road")]
    [Above(0)]
    [Below(1)]
    public required double HeaveMaximum { get; init; }

    [Key("hopDampingRatioMinimum", "least damping ratio of axle hop, both wheels in phase")]
    [Above(0)]
    [Below(1)]
    public double? HopMinimum { get; init; }

    [Key("trampDampingRatioMinimum", "least damping ratio of axle tramp, the wheels against each other")]
    [Above(0)]
    [Below(1)]
    public double? TrampMinimum { get; init; }

    [Key("damperVelocity_m_per_s", "velocity amplitude at the damper for which the targets hold; the reference velocity of the analysis unless given")]
    [Between(0.001, 10)]
    public double? DamperVelocity { get; init; }
}
