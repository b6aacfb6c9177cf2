using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>The room around a live axle's dampers.</summary>
[Description("The room around a live axle's left damper in the rear view at ride height; the right side mirrors it. A position fits when every clearance is kept over every combination of heave and roll in vehicle.travel.")]
public sealed record PackagingFile
{
    /// <summary>The damper.</summary>
    [Key("damper", "name of the damper to place: one of the names under dampers, with its closed and extended length")]
    public required string Damper { get; init; }

    /// <summary>Its tubes.</summary>
    [Key("envelope", "the room that the damper takes")]
    public required EnvelopeFile Envelope { get; init; }

    /// <summary>Its mounts.</summary>
    [Key("mounts", "where its ends sit, but for the lateral position")]
    public required PackagingMountsFile Mounts { get; init; }

    /// <summary>The tyres.</summary>
    [Key("tyre", "the tyre, or the dual pair, with its growth and chain allowance")]
    public required TyreRoomFile Tyre { get; init; }

    /// <summary>The frame rail.</summary>
    [Key("frameRail", "the section of the frame rail; leave out where there is none")]
    public KeepOutFile? FrameRail { get; init; }

    /// <summary>What is fixed to the body.</summary>
    [Key("onBody", "other rooms fixed to the body, by name: fuel tank, exhaust, tunnel")]
    public IReadOnlyDictionary<string, KeepOutFile>? OnBody { get; init; }

    /// <summary>What moves with the axle.</summary>
    [Key("onAxle", "rooms that move with the axle, by name: brake, spring, differential")]
    public IReadOnlyDictionary<string, KeepOutFile>? OnAxle { get; init; }

    /// <summary>Clearance between the dampers.</summary>
    [Key("betweenDampers_mm", "clearance between the left and the right damper")]
    [Between(0, 2000)]
    public double BetweenDampersMm { get; init; } = 20;
}

/// <summary>The room that a damper takes.</summary>
[Description("Two flat-ended tubes on the line between the damper's ends, and a bush at each end.")]
public sealed record EnvelopeFile
{
    /// <summary>Upper diameter.</summary>
    [Key("upperDiameter_mm", "diameter of the tube at the body end, usually the dust tube")]
    [Between(1, 2000)]
    public required double UpperDiameterMm { get; init; }

    /// <summary>Upper length.</summary>
    [Key("upperLength_mm", "length of that tube from the body end")]
    [Between(1, 10_000)]
    public required double UpperLengthMm { get; init; }

    /// <summary>Lower diameter.</summary>
    [Key("lowerDiameter_mm", "diameter of the tube at the axle end, usually the damper's body")]
    [Between(1, 2000)]
    public required double LowerDiameterMm { get; init; }

    /// <summary>Lower length.</summary>
    [Key("lowerLength_mm", "length of that tube from the axle end")]
    [Between(1, 10_000)]
    public required double LowerLengthMm { get; init; }

    /// <summary>Upper bush.</summary>
    [Key("upperBush_mm", "largest size of the bush at the body end seen from behind")]
    [Between(0, 2000)]
    public double UpperBushMm { get; init; }

    /// <summary>Lower bush.</summary>
    [Key("lowerBush_mm", "the same at the axle end")]
    [Between(0, 2000)]
    public double LowerBushMm { get; init; }
}

/// <summary>Where the damper's ends sit.</summary>
[Description("Where the damper's ends sit at ride height, but for the lateral position of the axle end, which is sought.")]
public sealed record PackagingMountsFile
{
    /// <summary>Height of the axle end.</summary>
    [Key("axleEndHeight_mm", "height of the axle end above the road")]
    [Between(-5000, 5000)]
    public required double AxleEndHeightMm { get; init; }

    /// <summary>Height of the body end.</summary>
    [Key("bodyEndHeight_mm", "height of the body end above the road")]
    [Between(-5000, 5000)]
    public required double BodyEndHeightMm { get; init; }

    /// <summary>Axle end forward.</summary>
    [Key("axleEndForward_mm", "position of the axle end in front of the axle")]
    [Between(-5000, 5000)]
    public double AxleEndForwardMm { get; init; }

    /// <summary>Body end forward.</summary>
    [Key("bodyEndForward_mm", "position of the body end in front of the axle")]
    [Between(-5000, 5000)]
    public double BodyEndForwardMm { get; init; }

    /// <summary>Body end outboard.</summary>
    [Key("bodyEndOutboard_mm", "how far the body end stands outboard of the axle end; negative where the damper leans in at the top")]
    [Between(-5000, 5000)]
    public double BodyEndOutboardMm { get; init; }
}

/// <summary>The room that a tyre takes.</summary>
[Description("The room of a tyre, or of a dual pair (spacing from vehicle.tyres). Its inner wall follows: half the track less half the width, of a pair also half the spacing, less growth and chains.")]
public sealed record TyreRoomFile
{
    /// <summary>Width.</summary>
    [Key("width_mm", "section width of one tyre")]
    [Between(1, 2000)]
    public required double WidthMm { get; init; }

    /// <summary>Radius.</summary>
    [Key("radius_mm", "radius of the tyre, unloaded")]
    [Between(1, 5000)]
    public required double RadiusMm { get; init; }

    /// <summary>Centre height.</summary>
    [Key("centreHeight_mm", "height of the wheel centre above the road")]
    [Between(1, 5000)]
    public required double CentreHeightMm { get; init; }

    /// <summary>Growth.</summary>
    [Key("growth_mm", "how much the tyre grows at speed and by tolerance, on each face")]
    [Between(0, 2000)]
    public double GrowthMm { get; init; }

    /// <summary>Chain.</summary>
    [Key("chain_mm", "room for chains, on each face")]
    [Between(0, 2000)]
    public double ChainMm { get; init; }

    /// <summary>Clearance.</summary>
    [Key("clearance_mm", "clearance to keep from all that")]
    [Between(0, 2000)]
    public required double ClearanceMm { get; init; }
}

/// <summary>A room to stay clear of.</summary>
[Description("A rectangle in the rear view of the left side at ride height that the damper must stay clear of.")]
public sealed record KeepOutFile
{
    /// <summary>Inner face.</summary>
    [Key("inner_mm", "its inboard face, from the centre plane; negative right of it")]
    [Between(-5000, 5000)]
    public required double InnerMm { get; init; }

    /// <summary>Outer face.</summary>
    [Key("outer_mm", "its outboard face; not less than the inner one")]
    [Between(-5000, 5000)]
    public required double OuterMm { get; init; }

    /// <summary>Bottom.</summary>
    [Key("bottom_mm", "its lower face above the road")]
    [Between(-5000, 5000)]
    public required double BottomMm { get; init; }

    /// <summary>Top.</summary>
    [Key("top_mm", "its upper face; not less than the lower one")]
    [Between(-5000, 5000)]
    public required double TopMm { get; init; }

    /// <summary>Clearance.</summary>
    [Key("clearance_mm", "clearance to keep")]
    [Between(0, 2000)]
    public required double ClearanceMm { get; init; }
}
