using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>How one channel is named and scaled where results leave the program.</summary>
/// <param name="Channel">The channel.</param>
/// <param name="Name">Its column name without the unit.</param>
/// <param name="Unit">The unit shown.</param>
public sealed record ChannelInfo(Channel Channel, string Name, Unit Unit)
{
    /// <summary>Name of the column in a time-history file.</summary>
    public string Column { get; } = Unit.KeyOf(Name);
}

/// <summary>The names, units and scales of all channels.</summary>
public static class ChannelTable
{
    /// <summary>Number of channels.</summary>
    public static int Count { get; } = Enum.GetValues<Channel>().Length;

    /// <summary>Every channel.</summary>
    internal static ImmutableArray<Channel> All { get; } = [.. Enum.GetValues<Channel>()];

    /// <summary>The channels that a corner from rest is judged by.</summary>
    internal static ImmutableArray<Channel> OfCorner { get; } = [Channel.BodyRoll, Channel.BodyRollRate, Channel.TyreContactLeft, Channel.TyreContactRight, Channel.CorneringCommand];

    /// <summary>The channels that a time-history file holds, in the order of its columns.</summary>
    public static ImmutableArray<ChannelInfo> Recorded { get; } =
    [
        new(Channel.RoadLeft, "roadLeft", Unit.Millimetre),
        new(Channel.RoadRight, "roadRight", Unit.Millimetre),
        new(Channel.LateralAcceleration, "lateralAcceleration", Unit.MetrePerSecondSquared),
        new(Channel.BodyHeave, "bodyHeave", Unit.Millimetre),
        new(Channel.BodyRoll, "bodyRoll", Unit.Degree),
        new(Channel.UnsprungHeave, "unsprungHeave", Unit.Millimetre),
        new(Channel.UnsprungRoll, "unsprungRoll", Unit.Degree),
        new(Channel.BodyHeaveRate, "bodyHeaveVelocity", Unit.MetrePerSecond),
        new(Channel.BodyRollRate, "bodyRollVelocity", Unit.DegreePerSecond),
        new(Channel.UnsprungHeaveRate, "unsprungHeaveVelocity", Unit.MetrePerSecond),
        new(Channel.UnsprungRollRate, "unsprungRollVelocity", Unit.DegreePerSecond),
        new(Channel.BodyAcceleration, "bodyAcceleration", Unit.MetrePerSecondSquared),
        new(Channel.BodyRollAcceleration, "bodyRollAcceleration", Unit.RadianPerSecondSquared),
        new(Channel.UnsprungAcceleration, "unsprungAcceleration", Unit.MetrePerSecondSquared),
        new(Channel.UnsprungRollAcceleration, "unsprungRollAcceleration", Unit.RadianPerSecondSquared),
        new(Channel.SeatAcceleration, "seatAcceleration", Unit.MetrePerSecondSquared),
        new(Channel.WheelTravelLeft, "wheelTravelLeft", Unit.Millimetre),
        new(Channel.WheelTravelRight, "wheelTravelRight", Unit.Millimetre),
        new(Channel.DamperTravelLeft, "damperTravelLeft", Unit.Millimetre),
        new(Channel.DamperTravelRight, "damperTravelRight", Unit.Millimetre),
        new(Channel.DamperVelocityLeft, "damperVelocityLeft", Unit.MetrePerSecond),
        new(Channel.DamperVelocityRight, "damperVelocityRight", Unit.MetrePerSecond),
        new(Channel.DamperForceLeft, "damperForceLeft", Unit.Newton),
        new(Channel.DamperForceRight, "damperForceRight", Unit.Newton),
        new(Channel.SpringForceLeft, "springForceLeft", Unit.Newton),
        new(Channel.SpringForceRight, "springForceRight", Unit.Newton),
        new(Channel.SpringFrictionLeft, "springFrictionLeft", Unit.Newton),
        new(Channel.SpringFrictionRight, "springFrictionRight", Unit.Newton),
        new(Channel.BumpStopForceLeft, "bumpStopForceLeft", Unit.Newton),
        new(Channel.BumpStopForceRight, "bumpStopForceRight", Unit.Newton),
        new(Channel.ReboundStopForceLeft, "reboundStopForceLeft", Unit.Newton),
        new(Channel.ReboundStopForceRight, "reboundStopForceRight", Unit.Newton),
        new(Channel.TyreLoadLeft, "tyreLoadLeft", Unit.Newton),
        new(Channel.TyreLoadRight, "tyreLoadRight", Unit.Newton),
        new(Channel.TyreLoadLeftOuter, "tyreLoadLeftOuter", Unit.Newton),
        new(Channel.TyreLoadLeftInner, "tyreLoadLeftInner", Unit.Newton),
        new(Channel.TyreLoadRightInner, "tyreLoadRightInner", Unit.Newton),
        new(Channel.TyreLoadRightOuter, "tyreLoadRightOuter", Unit.Newton),
    ];

    /// <summary>The channels that such a file holds besides for a vehicle with two axles.</summary>
    public static ImmutableArray<ChannelInfo> OfVehicle { get; } =
    [
        new(Channel.SecondBodyHeave, "otherAxleBodyHeave", Unit.Millimetre),
        new(Channel.SecondBodyRoll, "otherAxleBodyRoll", Unit.Degree),
        new(Channel.Pitch, "pitch", Unit.Degree),
        new(Channel.FrameTwist, "frameTwist", Unit.Degree),
        new(Channel.SecondTyreLoadLeft, "otherAxleTyreLoadLeft", Unit.Newton),
        new(Channel.SecondTyreLoadRight, "otherAxleTyreLoadRight", Unit.Newton),
    ];
}
