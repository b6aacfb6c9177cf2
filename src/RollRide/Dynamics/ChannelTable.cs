using System.Collections.Immutable;

namespace RollRide.Dynamics;

/// <summary>How one channel is named and scaled where results leave the program.</summary>
/// <param name="Channel">The channel.</param>
/// <param name="Name">Its column name without the unit.</param>
/// <param name="Unit">The unit shown, as it stands in the column name.</param>
/// <param name="Scale">Factor from SI to that unit.</param>
public sealed record ChannelInfo(Channel Channel, string Name, string Unit, double Scale)
{
    /// <summary>Name of the column in a time-history file.</summary>
    public string Column => $"{Name}_{Unit}";
}

/// <summary>The names, units and scales of all channels.</summary>
public static class ChannelTable
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>Number of channels.</summary>
    public static int Count { get; } = Enum.GetValues<Channel>().Length;

    /// <summary>The channels that a time-history file holds, in the order of its columns.</summary>
    public static ImmutableArray<ChannelInfo> Recorded { get; } =
    [
        new(Channel.RoadLeft, "roadLeft", "mm", 1e3),
        new(Channel.RoadRight, "roadRight", "mm", 1e3),
        new(Channel.LateralAcceleration, "lateralAcceleration", "m_per_s2", 1),
        new(Channel.BodyHeave, "bodyHeave", "mm", 1e3),
        new(Channel.BodyRoll, "bodyRoll", "deg", DegPerRad),
        new(Channel.UnsprungHeave, "unsprungHeave", "mm", 1e3),
        new(Channel.UnsprungRoll, "unsprungRoll", "deg", DegPerRad),
        new(Channel.BodyHeaveRate, "bodyHeaveVelocity", "m_per_s", 1),
        new(Channel.BodyRollRate, "bodyRollVelocity", "deg_per_s", DegPerRad),
        new(Channel.UnsprungHeaveRate, "unsprungHeaveVelocity", "m_per_s", 1),
        new(Channel.UnsprungRollRate, "unsprungRollVelocity", "deg_per_s", DegPerRad),
        new(Channel.BodyAcceleration, "bodyAcceleration", "m_per_s2", 1),
        new(Channel.BodyRollAcceleration, "bodyRollAcceleration", "rad_per_s2", 1),
        new(Channel.UnsprungAcceleration, "unsprungAcceleration", "m_per_s2", 1),
        new(Channel.UnsprungRollAcceleration, "unsprungRollAcceleration", "rad_per_s2", 1),
        new(Channel.SeatAcceleration, "seatAcceleration", "m_per_s2", 1),
        new(Channel.WheelTravelLeft, "wheelTravelLeft", "mm", 1e3),
        new(Channel.WheelTravelRight, "wheelTravelRight", "mm", 1e3),
        new(Channel.DamperTravelLeft, "damperTravelLeft", "mm", 1e3),
        new(Channel.DamperTravelRight, "damperTravelRight", "mm", 1e3),
        new(Channel.DamperVelocityLeft, "damperVelocityLeft", "m_per_s", 1),
        new(Channel.DamperVelocityRight, "damperVelocityRight", "m_per_s", 1),
        new(Channel.DamperForceLeft, "damperForceLeft", "N", 1),
        new(Channel.DamperForceRight, "damperForceRight", "N", 1),
        new(Channel.SpringForceLeft, "springForceLeft", "N", 1),
        new(Channel.SpringForceRight, "springForceRight", "N", 1),
        new(Channel.BumpStopForceLeft, "bumpStopForceLeft", "N", 1),
        new(Channel.BumpStopForceRight, "bumpStopForceRight", "N", 1),
        new(Channel.ReboundStopForceLeft, "reboundStopForceLeft", "N", 1),
        new(Channel.ReboundStopForceRight, "reboundStopForceRight", "N", 1),
        new(Channel.TyreLoadLeft, "tyreLoadLeft", "N", 1),
        new(Channel.TyreLoadRight, "tyreLoadRight", "N", 1),
        new(Channel.TyreLoadLeftOuter, "tyreLoadLeftOuter", "N", 1),
        new(Channel.TyreLoadLeftInner, "tyreLoadLeftInner", "N", 1),
        new(Channel.TyreLoadRightInner, "tyreLoadRightInner", "N", 1),
        new(Channel.TyreLoadRightOuter, "tyreLoadRightOuter", "N", 1),
    ];
}
