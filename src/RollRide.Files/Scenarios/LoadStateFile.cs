using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

[Description("What the body weighs in one state of load. Springs, tyres, gas and stops stay set as they are at the design load, so the body stands higher or lower. Masses are the share that this axle carries.")]
internal sealed record LoadStateFile
{
    [Key("mass_kg", "sprung mass on this axle, without the payload; that of vehicle.body if left out")]
    [Between(1, 100_000)]
    public double? MassKg { get; init; }

    [Key("rollInertia_kg_m2", "roll inertia of that mass about its own centre of gravity; that of vehicle.body if left out")]
    [Between(0.01, 1_000_000)]
    public double? RollInertia { get; init; }

    [Key("cgHeight_mm", "height of its centre of gravity above the road with the body at its design height; that of vehicle.body if left out")]
    [Between(1, 10_000)]
    public double? CgHeightMm { get; init; }

    [Key("otherAxle", "what the body's share on the other axle weighs, with wholeVehicle; as written if left out")]
    public OtherAxleLoadFile? OtherAxle { get; init; }

    [Key("payload", "masses added to it, or taken out of it")]
    [MaxCount(1000)]
    public IReadOnlyList<PayloadFile> Payload { get; init; } = [];
}

[Description("A mass in or on the body, or one taken out: the share of it that this axle carries, or all of it where behindFrontAxle_mm says where it stands.")]
internal sealed record PayloadFile
{
    [Key("mass_kg", "mass; negative where it is taken out")]
    [Between(-100_000, 100_000)]
    public required double MassKg { get; init; }

    [Key("height_mm", "height of its centre above the road with the body at its design height: on a floor it keeps this height when the floor sinks")]
    [Between(-10_000, 20_000)]
    public required double HeightMm { get; init; }

    [Key("lateralOffset_mm", "lateral position of its centre, positive to the left of the centre plane: the body leans to that side")]
    [Between(-5000, 5000)]
    public double LateralOffsetMm { get; init; }

    [Key("behindFrontAxle_mm", "how far its centre stands behind the front axle, with wholeVehicle: mass_kg is then the whole mass, and both axles carry their part of it")]
    [Between(-20_000, 40_000)]
    public double? BehindFrontAxleMm { get; init; }

    [Key("rollInertia_kg_m2", "roll inertia about its own centre; negative where the mass is taken out")]
    [Between(-1_000_000, 1_000_000)]
    public double RollInertia { get; init; }
}
