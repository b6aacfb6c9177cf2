using RollRide.Mounting;
using RollRide.Tests.Dynamics;

namespace RollRide.Tests.Mounting;

/// <summary>Elements and linkages drawn at another ride height behave from there as the ones they came from.</summary>
public sealed class RedrawnTests
{
    // The body 45 mm down, the wheels 8 mm.
    private static readonly RideHeightChange Laden = new(-0.045, -0.008, -0.020);

    public static TheoryData<string> WheelFittings { get; } = ["0", "1", "2", "3", "4", "5", "arm"];

    private static WheelTravelFitting Find(string name) => name == "arm"
        ? new ArmMountFitting(new(0.3, 0.25), new(0.7, 0.22), new(0.55, 0.26), new(0.5, 0.7), ReferenceLinkages.HalfTrack)
        : ReferenceLinkages.Fittings[name[0] - '0'];

    [Theory]
    [MemberData(nameof(WheelFittings))]
    public void WheelTravelFitting_Redrawn_CountsTheSameCompressionFromThere(string name)
    {
        var design = Find(name);
        var laden = (WheelTravelFitting)design.Redrawn(Laden);
        Assert.Equal(0.037, Laden.Travel, 1e-15);
        foreach (var travel in (double[])[-0.08, -0.037, 0, 0.02, 0.05])
        {
            // Lengths of half a metre carry 1e-16; a linkage's angle is found to a few of these, its ratio and slope to as many more.
            Assert.Equal(design.Compression(0.037 + travel) - design.Compression(0.037), laden.Compression(travel), 1e-14);
            Assert.Equal(design.Ratio(0.037 + travel), laden.Ratio(travel), 1e-13);
            Assert.Equal(design.RatioSlope(0.037 + travel), laden.RatioSlope(travel), 1e-11);
        }

        Assert.Equal(((IMountedElement)design).Length - design.Compression(0.037), ((IMountedElement)laden).Length, 1e-14);
    }

    [Fact]
    public void LiveAxleMounts_Redrawn_TurnAboutTheRollCentreWhereItIs()
    {
        var design = TestCars.InclinedMounts;
        var laden = (LiveAxleMountFitting)design.Redrawn(Laden);
        double q = 0.012, r = 0.06, sin = Math.Sin(r), cos = Math.Cos(r);

        // Everything above the road: the axle end has gone down by 8 mm, the body end by 45 mm, the roll centre by 20 mm.
        double hrc = 0.28, y = 0.6, zeta = 0.25 - 0.008 - hrc;
        double dx = -0.1 + 0.05, dy = (y * cos) - (zeta * sin) - 0.45, dz = hrc + q + (y * sin) + (zeta * cos) - (0.7 - 0.045);
        Assert.Equal(Math.Sqrt((dx * dx) + (dy * dy) + (dz * dz)), laden.LengthAt(q, r, Side.Left), 1e-15);
    }

    [Fact]
    public void LiveAxleMounts_WhoseRollCentreStaysOnTheAxle_KeepTheirCompressionOverAllTravel()
    {
        var design = TestCars.InclinedMounts;
        var laden = design.Redrawn(Laden with { RollCentre = Laden.Unsprung });
        foreach (var side in (Side[])[Side.Left, Side.Right])
        {
            var (from, there, moved) = (design.At(0.037, 0, side), design.At(0.037 + 0.02, 0.05, side), laden.At(0.02, 0.05, side));
            Assert.Equal(there.Compression - from.Compression, moved.Compression, 1e-15);
            Assert.Equal(there.HeaveRatio, moved.HeaveRatio, 1e-14);
            Assert.Equal(there.RollArm, moved.RollArm, 1e-14);
        }
    }

    [Fact]
    public void GivenRatios_Stay()
    {
        var ratios = TestCars.Ratio(0.9, 0.6);
        Assert.Same(ratios, ratios.Redrawn(Laden));
    }

    [Fact]
    public void DoubleWishbone_Redrawn_HasTheRollCentreOfAConstructionWithRulerAtThatTravel()
    {
        var design = ReferenceLinkages.DoubleWishbone;
        var laden = design.Redrawn(Laden);

        // The joints at 37 mm of travel, found by turning the arms until the upright's length fits; heights above the road, the body 45 mm down.
        var (lower, upper) = JointsAt(design, 0.037);
        (double Y, double Z) lowerPivot = (design.LowerPivot.Y, design.LowerPivot.Z - 0.045), upperPivot = (design.UpperPivot.Y, design.UpperPivot.Z - 0.045);
        lower.Z -= 0.045;
        upper.Z -= 0.045;
        var instantCentre = Crossing(lowerPivot, lower, upperPivot, upper);

        // The wheel's plane leans as the upright does, goes through the wheel's centre, and meets the road at z = 0.
        var turn = Math.Atan2(upper.Z - lower.Z, upper.Y - lower.Y)
            - Math.Atan2(design.UpperJoint.Z - design.LowerJoint.Z, design.UpperJoint.Y - design.LowerJoint.Y);
        var centre = Turned(ReferenceLinkages.HalfTrack - design.LowerJoint.Y, ReferenceLinkages.WheelCentreHeight - design.LowerJoint.Z, turn, lower);
        Assert.Equal(ReferenceLinkages.WheelCentreHeight - 0.008, centre.Z, 1e-12);
        (double Y, double Z) contact = (centre.Y + (centre.Z * Math.Tan(turn)), 0);
        var rollCentre = Crossing(contact, instantCentre, (0, 0), (0, 1));

        Assert.Equal(contact.Y, laden.WheelAt(0).Contact.Y, 1e-11);
        Assert.Equal(0, laden.WheelAt(0).Contact.Z, 1e-15);
        Assert.Equal(rollCentre.Z, laden.WheelAt(0).RollCentreHeight, 1e-10);
        Assert.Equal(instantCentre.Y, laden.WheelAt(0).InstantCentre!.Y, 1e-10);
        Assert.Equal(instantCentre.Z, laden.WheelAt(0).InstantCentre!.Z, 1e-10);

        // It is another height than at the design: the check would see a roll centre that merely moved along.
        var atDesign = design.WheelAt(0).RollCentreHeight;
        Assert.True(Math.Min(Math.Abs(rollCentre.Z - atDesign), Math.Abs(rollCentre.Z - atDesign + 0.045)) > 0.002, $"{rollCentre.Z} against {atDesign}");
    }

    public static TheoryData<int> Linkages { get; } = [0, 1, 2];

    private static WheelLinkage Linkage(int index) => index switch
    {
        0 => ReferenceLinkages.DoubleWishbone,
        1 => ReferenceLinkages.Strut,
        _ => ReferenceLinkages.SemiTrailing,
    };

    [Theory]
    [MemberData(nameof(Linkages))]
    public void Linkage_Redrawn_MovesItsWheelAsTheDesignDoesFromThere(int index)
    {
        var design = Linkage(index);
        var laden = design.Redrawn(Laden);
        var from = design.WheelAt(0.037);
        foreach (var travel in (double[])[-0.06, 0, 0.04])
        {
            var (there, moved) = (design.WheelAt(0.037 + travel), laden.WheelAt(travel));
            Assert.Equal(there.Camber - from.Camber, moved.Camber, 1e-13);
            Assert.Equal(there.Toe - from.Toe, moved.Toe, 1e-13);
        }

        Assert.Equal(design.Highest.Travel - 0.037, laden.Highest.Travel, 1e-9);
        Assert.Equal(design.Lowest.Travel - 0.037, laden.Lowest.Travel, 1e-9);
        Assert.Equal(0, laden.WheelAt(0).Contact.Z, 1e-15);
        Assert.Equal(ReferenceLinkages.WheelCentreHeight - 0.008, laden.WheelCentreHeight, 1e-15);
    }

    [Theory]
    [MemberData(nameof(Linkages))]
    public void Linkage_OnRigidTyres_HasTheRollCentreThatTheDesignHasAtThatTravel(int index)
    {
        // The wheels keep their height, the body sinks: the design looked at from its body at 37 mm of travel.
        var design = Linkage(index);
        var laden = design.Redrawn(new RideHeightChange(-0.037, 0, 0)).WheelAt(0);
        var there = design.WheelAt(0.037);

        // The design's contact is a point of the wheel, which camber lifts off the road by as much as the wheel's plane must be followed further
        // down, h (1/cos γ − 1). The wheel turns about a centre more than a half-track away, so that the roll centre rises by less.
        var lift = ReferenceLinkages.WheelCentreHeight * ((1 / Math.Cos(there.Camber)) - 1);
        Assert.InRange(lift, 0, 2e-4);
        Assert.Equal(there.RollCentreHeight, laden.RollCentreHeight, lift + 1e-12);
        Assert.Equal(there.Contact.Y, laden.Contact.Y, (lift * Math.Abs(Math.Tan(there.Camber))) + 1e-12);
    }

    [Theory]
    [MemberData(nameof(Linkages))]
    public void Linkage_RedrawnThereAndBack_IsTheDesign(int index)
    {
        var design = Linkage(index);
        var back = design.Redrawn(Laden).Redrawn(new RideHeightChange(0.045, 0.008, 0.020));
        foreach (var travel in (double[])[-0.05, 0, 0.06])
        {
            var (there, again) = (design.WheelAt(travel), back.WheelAt(travel));
            Assert.Equal(there.Camber, again.Camber, 1e-13);
            Assert.Equal(there.Contact.Y, again.Contact.Y, 1e-13);
            Assert.Equal(there.RollCentreHeight, again.RollCentreHeight, 1e-12);
        }
    }

    [Theory]
    [MemberData(nameof(Linkages))]
    public void Linkage_Redrawn_ThenWidened_MovesTheWheelAlone(int index)
    {
        var laden = Linkage(index).Redrawn(Laden);
        var wider = laden.WithHalfTrack(laden.HalfTrack + 0.02);
        Assert.Equal(laden.WheelAt(0).Contact.Y + 0.02, wider.WheelAt(0).Contact.Y, 1e-14);
        Assert.Equal(laden.WheelCentreHeight, wider.WheelCentreHeight);
    }

    [Fact]
    public void LateralLocation_Redrawn_MovesTheRollCentreByItsShares()
    {
        // Each end of a rod goes with what carries it; the rule of the design then gives the new height.
        var rod = new PanhardRod(new(0.6, 0.40), new(-0.4, 0.50));
        var laden = new PanhardRod(new(0.6, 0.40 - 0.008), new(-0.4, 0.50 - 0.045));
        Assert.Equal(0.6, rod.RollCentreBodyShare, 1e-15);
        Assert.Equal((0.4 * -0.008) + (0.6 * -0.045), laden.RollCentreHeight - rod.RollCentreHeight, 1e-15);

        Assert.Equal(0, new WattLinkage(0.38).RollCentreBodyShare);
        Assert.Equal(1, new WattLinkage(0.38) { PivotIsOnBody = true }.RollCentreBodyShare);

        var eyes = new LeafSpringLocation(0.6, 0.45, -0.9, 0.60);
        var sunk = new LeafSpringLocation(0.6, 0.45 - 0.045, -0.9, 0.60 - 0.045);
        Assert.Equal(sunk.RollCentreHeight - eyes.RollCentreHeight, eyes.RollCentreBodyShare * -0.045, 1e-15);
    }

    /// <summary>Lower and upper joint at a wheel travel, in the body's frame: bisection on the lower arm's angle, the upper joint by crossing circles.</summary>
    private static ((double Y, double Z) Lower, (double Y, double Z) Upper) JointsAt(DoubleWishbone design, double travel)
    {
        (double Y, double Z) lowerPivot = (design.LowerPivot.Y, design.LowerPivot.Z), upperPivot = (design.UpperPivot.Y, design.UpperPivot.Z);
        (double Y, double Z) arm = (design.LowerJoint.Y - lowerPivot.Y, design.LowerJoint.Z - lowerPivot.Z);
        (double Y, double Z) upright = (design.UpperJoint.Y - design.LowerJoint.Y, design.UpperJoint.Z - design.LowerJoint.Z);
        var uprightLength = Math.Sqrt((upright.Y * upright.Y) + (upright.Z * upright.Z));
        var upperLength = Math.Sqrt(Math.Pow(design.UpperJoint.Y - upperPivot.Y, 2) + Math.Pow(design.UpperJoint.Z - upperPivot.Z, 2));

        ((double Y, double Z) Lower, (double Y, double Z) Upper, double Rise) At(double angle)
        {
            var lower = Turned(arm.Y, arm.Z, angle, lowerPivot);
            (double Y, double Z) between = (lower.Y - upperPivot.Y, lower.Z - upperPivot.Z);
            var distance = Math.Sqrt((between.Y * between.Y) + (between.Z * between.Z));
            var along = ((upperLength * upperLength) - (uprightLength * uprightLength) + (distance * distance)) / (2 * distance);
            var across = Math.Sqrt((upperLength * upperLength) - (along * along));
            (double Y, double Z) e = (between.Y / distance, between.Z / distance);

            // Of the two crossings, the one outboard.
            (double Y, double Z) one = (upperPivot.Y + (along * e.Y) - (across * e.Z), upperPivot.Z + (along * e.Z) + (across * e.Y));
            (double Y, double Z) two = (upperPivot.Y + (along * e.Y) + (across * e.Z), upperPivot.Z + (along * e.Z) - (across * e.Y));
            var upper = one.Y > two.Y ? one : two;
            var turn = Math.Atan2(upper.Z - lower.Z, upper.Y - lower.Y) - Math.Atan2(upright.Z, upright.Y);
            var centre = Turned(ReferenceLinkages.HalfTrack - design.LowerJoint.Y, ReferenceLinkages.WheelCentreHeight - design.LowerJoint.Z, turn, lower);
            return (lower, upper, centre.Z - ReferenceLinkages.WheelCentreHeight);
        }

        double low = -0.3, high = 0.3;
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = At(middle).Rise < travel ? (middle, high) : (low, middle);
        }

        var found = At(low);
        return (found.Lower, found.Upper);
    }

    private static (double Y, double Z) Turned(double y, double z, double angle, (double Y, double Z) about) =>
        (about.Y + (y * Math.Cos(angle)) - (z * Math.Sin(angle)), about.Z + (y * Math.Sin(angle)) + (z * Math.Cos(angle)));

    /// <summary>Where the line through two points crosses the line through two others.</summary>
    private static (double Y, double Z) Crossing((double Y, double Z) a, (double Y, double Z) b, (double Y, double Z) c, (double Y, double Z) d)
    {
        (double Y, double Z) ab = (b.Y - a.Y, b.Z - a.Z), cd = (d.Y - c.Y, d.Z - c.Z);
        var share = (((c.Y - a.Y) * cd.Z) - ((c.Z - a.Z) * cd.Y)) / ((ab.Y * cd.Z) - (ab.Z * cd.Y));
        return (a.Y + (share * ab.Y), a.Z + (share * ab.Z));
    }
}
