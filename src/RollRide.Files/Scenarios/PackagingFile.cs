using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

[Description("The room around a live axle's left damper in the rear view at ride height; the right side mirrors it. A position fits when every clearance is kept over the whole travel (vehicle.travel, or as far as the stops let the wheels go). Layouts with mounts are checked against it too.")]
internal sealed record PackagingFile
{
    [Key("damper", "name of the damper to place: one of the names under dampers, with its closed and extended length")]
    public required string Damper { get; init; }

    [Key("envelope", "the room that the damper takes")]
    public required EnvelopeFile Envelope { get; init; }

    [Key("mounts", "where its ends sit, except the lateral position")]
    public required PackagingMountsFile Mounts { get; init; }

    [Key("tyre", "the tyre, or the dual pair, with its growth and chain allowance")]
    public required TyreRoomFile Tyre { get; init; }

    [Key("frameRail", "the section of the frame rail; leave out where there is none")]
    public KeepOutFile? FrameRail { get; init; }

    [Key("onBody", "other rooms fixed to the body, by name: fuel tank, exhaust, tunnel")]
    public IReadOnlyDictionary<string, KeepOutFile>? OnBody { get; init; }

    [Key("onAxle", "rooms that move with the axle, by name: brake, spring, differential")]
    public IReadOnlyDictionary<string, KeepOutFile>? OnAxle { get; init; }

    [Key("betweenDampers_mm", "clearance between the left and the right damper")]
    [Between(0, 2000)]
    public double BetweenDampersMm { get; init; } = 20;
}

[Description("Two flat-ended tubes on the line between the damper's ends, and a bush at each end.")]
internal sealed record EnvelopeFile
{
    [Key("upperDiameter_mm", "diameter of the tube at the body end, usually the dust tube")]
    [Between(1, 2000)]
    public required double UpperDiameterMm { get; init; }

    [Key("upperLength_mm", "length of that tube from the body end")]
    [Between(1, 2000)]
    public required double UpperLengthMm { get; init; }

    [Key("lowerDiameter_mm", "diameter of the tube at the axle end, usually the damper's body")]
    [Between(1, 2000)]
    public required double LowerDiameterMm { get; init; }

    [Key("lowerLength_mm", "length of that tube from the axle end")]
    [Between(1, 2000)]
    public required double LowerLengthMm { get; init; }

    [Key("upperBush_mm", "largest size of the bush at the body end seen from behind")]
    [Between(0, 2000)]
    public double UpperBushMm { get; init; }

    [Key("lowerBush_mm", "the same at the axle end")]
    [Between(0, 2000)]
    public double LowerBushMm { get; init; }
}

[Description("Where the damper's ends sit at ride height, except the lateral position of the axle end, which is searched for.")]
internal sealed record PackagingMountsFile
{
    [Key("axleEndHeight_mm", "height of the axle end above the road")]
    [Between(-5000, 5000)]
    public required double AxleEndHeightMm { get; init; }

    [Key("bodyEndHeight_mm", "height of the body end above the road")]
    [Between(-5000, 5000)]
    public required double BodyEndHeightMm { get; init; }

    [Key("axleEndForward_mm", "position of the axle end in front of the axle")]
    [Between(-5000, 5000)]
    public double AxleEndForwardMm { get; init; }

    [Key("bodyEndForward_mm", "position of the body end in front of the axle")]
    [Between(-5000, 5000)]
    public double BodyEndForwardMm { get; init; }

    [Key("bodyEndOutboard_mm", "how far the body end stands outboard of the axle end; negative where the damper leans in at the top")]
    [Between(-5000, 5000)]
    public double BodyEndOutboardMm { get; init; }
}

[Description("The room of a tyre, or of a dual pair (spacing from vehicle.tyres). Its inner wall follows: half the track, less half the width, less growth and chains; for a pair also less half the spacing.")]
internal sealed record TyreRoomFile
{
    [Key("width_mm", "section width of one tyre")]
    [Between(1, 2000)]
    public required double WidthMm { get; init; }

    [Key("radius_mm", "radius of the tyre, unloaded")]
    [Between(1, 5000)]
    public required double RadiusMm { get; init; }

    [Key("centreHeight_mm", "height of the wheel centre above the road")]
    [Between(1, 5000)]
    public required double CentreHeightMm { get; init; }

    [Key("growth_mm", "how much the tyre grows at speed and by tolerance, on each face")]
    [Between(0, 2000)]
    public double GrowthMm { get; init; }

    [Key("chain_mm", "room for chains, on each face")]
    [Between(0, 2000)]
    public double ChainMm { get; init; }

    [Key("clearance_mm", "clearance to keep from all that")]
    [Between(0, 2000)]
    public required double ClearanceMm { get; init; }
}

[Description("A rectangle in the rear view of the left side at ride height that the damper must stay clear of.")]
internal sealed record KeepOutFile
{
    [Key("inner_mm", "its inboard face, from the centre plane; negative right of it")]
    [Between(-5000, 5000)]
    public required double InnerMm { get; init; }

    [Key("outer_mm", "its outboard face; not less than the inner one")]
    [Between(-5000, 5000)]
    public required double OuterMm { get; init; }

    [Key("bottom_mm", "its lower face above the road")]
    [Between(-5000, 5000)]
    public required double BottomMm { get; init; }

    [Key("top_mm", "its upper face; not less than the lower one")]
    [Between(-5000, 5000)]
    public required double TopMm { get; init; }

    [Key("clearance_mm", "clearance to keep")]
    [Between(0, 2000)]
    public required double ClearanceMm { get; init; }
}
