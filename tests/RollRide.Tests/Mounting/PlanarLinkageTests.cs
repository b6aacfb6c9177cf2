using MathNet.Numerics.RootFinding;
using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

/// <summary>The planar linkages against the equations of their rigid links, solved by a general-purpose method.</summary>
public sealed class PlanarLinkageTests
{
    [Fact]
    public void DoubleWishbone_AtEveryTravel_IsWhereAGeneralSolverPutsItsJoints()
    {
        var linkage = ReferenceLinkages.DoubleWishbone;
        double[] lowerPivot = [0.36, 0.21], lower0 = [0.71, 0.18], upperPivot = [0.43, 0.46], upper0 = [0.67, 0.49], wheel0 = [0.78, 0.31], contact0 = [0.78, 0];
        foreach (var travel in ReferenceLinkages.Travels)
        {
            // Unknown: lower joint, upper joint, wheel centre. Known: five lengths, and the height of the wheel centre.
            double[] Residual(double[] x)
            {
                double[] lower = [x[0], x[1]], upper = [x[2], x[3]], wheel = [x[4], x[5]];
                return
                [
                    Distance(lower, lowerPivot) - Distance(lower0, lowerPivot),
                    Distance(upper, upperPivot) - Distance(upper0, upperPivot),
                    Distance(upper, lower) - Distance(upper0, lower0),
                    Distance(wheel, lower) - Distance(wheel0, lower0),
                    Distance(wheel, upper) - Distance(wheel0, upper0),
                    wheel[1] - wheel0[1] - travel,
                ];
            }

            var solved = Broyden.FindRoot(Residual, [.. lower0.Concat(upper0).Concat(wheel0)], 1e-13, 200);
            AssertAt(solved[..2], linkage, LinkagePart.LowerArm, lower0, travel);
            AssertAt(solved[..2], linkage, LinkagePart.Upright, lower0, travel);
            AssertAt(solved[2..4], linkage, LinkagePart.UpperArm, upper0, travel);
            AssertAt(solved[2..4], linkage, LinkagePart.Upright, upper0, travel);
            AssertAt(solved[4..], linkage, LinkagePart.Upright, wheel0, travel);

            // The contact keeps its distances from joint and wheel centre; camber is the turn of the line between those two.
            var position = linkage.WheelAt(travel);
            double[] contact = [position.Contact.Y, position.Contact.Z];
            Assert.Equal(Distance(contact0, lower0), Distance(contact, solved[..2]), 1e-11);
            Assert.Equal(Distance(contact0, wheel0), Distance(contact, solved[4..]), 1e-11);
            double turn = Math.Atan2(solved[3] - solved[1], solved[2] - solved[0]) - Math.Atan2(upper0[1] - lower0[1], upper0[0] - lower0[0]);
            Assert.Equal(-turn, position.Camber, 1e-11);
        }
    }

    [Fact]
    public void Strut_AtEveryTravel_IsWhereAGeneralSolverPutsIt()
    {
        var linkage = ReferenceLinkages.Strut;
        double[] pivot = [0.35, 0.22], joint0 = [0.72, 0.19], foot0 = [0.64, 0.27], top = [0.57, 0.82], wheel0 = [0.78, 0.31];
        foreach (var travel in ReferenceLinkages.Travels)
        {
            // Unknown: lower joint and turn of the upright. The line from the foot along the strut must pass through the top mount.
            double[] Residual(double[] x)
            {
                double[] joint = [x[0], x[1]];
                var foot = Carried(foot0, joint0, joint, x[2]);
                var axisPoint = Carried(top, joint0, joint, x[2]);
                var wheel = Carried(wheel0, joint0, joint, x[2]);
                return
                [
                    Distance(joint, pivot) - Distance(joint0, pivot),
                    ((axisPoint[0] - foot[0]) * (top[1] - foot[1])) - ((axisPoint[1] - foot[1]) * (top[0] - foot[0])),
                    wheel[1] - wheel0[1] - travel,
                ];
            }

            var solved = Broyden.FindRoot(Residual, [joint0[0], joint0[1], 0], 1e-13, 200);
            var strutFoot = Carried(foot0, joint0, solved[..2], solved[2]);
            AssertAt(solved[..2], linkage, LinkagePart.LowerArm, joint0, travel);
            AssertAt(strutFoot, linkage, LinkagePart.Upright, foot0, travel);

            // Hand formula for the strut as damper: its length is the distance from foot to top mount.
            var strut = ReferenceLinkages.Fittings[4];
            Assert.Equal(Distance(top, foot0) - Distance(top, strutFoot), strut.Compression(travel), 1e-11);
        }
    }

    [Fact]
    public void InstantCentre_OfADoubleWishbone_IsWhereTheArmsMeet()
    {
        // Lower arm through (0.36, 0.21) and (0.71, 0.18), upper through (0.43, 0.46) and (0.67, 0.49): two lines, by hand.
        double lowerSlope = -0.03 / 0.35, upperSlope = 0.03 / 0.24;
        double y = (0.46 - 0.21 + (lowerSlope * 0.36) - (upperSlope * 0.43)) / (lowerSlope - upperSlope);
        double z = 0.21 + (lowerSlope * (y - 0.36));
        var wheel = ReferenceLinkages.DoubleWishbone.WheelAt(0);
        Assert.Equal(y, wheel.InstantCentre!.Y, 1e-12);
        Assert.Equal(z, wheel.InstantCentre.Z, 1e-12);

        // The roll centre is where the line from the contact (0.78, 0) to it crosses the centre plane.
        Assert.Equal(0 + ((z - 0) * 0.78 / (0.78 - y)), wheel.RollCentreHeight, 1e-12);
    }

    [Fact]
    public void InstantCentre_OfAStrut_IsWhereTheArmMeetsTheSquareToTheStrut()
    {
        // At the top mount the strut slides along itself, so the centre of turning lies square to it there; and on the lower arm.
        double armSlope = -0.03 / 0.37, squareSlope = (0.64 - 0.57) / (0.82 - 0.27);
        double y = (0.82 - (squareSlope * 0.57) - 0.22 + (armSlope * 0.35)) / (armSlope - squareSlope);
        double z = 0.22 + (armSlope * (y - 0.35));
        var wheel = ReferenceLinkages.Strut.WheelAt(0);
        Assert.Equal(y, wheel.InstantCentre!.Y, 1e-11);
        Assert.Equal(z, wheel.InstantCentre.Z, 1e-11);
    }

    [Fact]
    public void RollCentre_OfParallelLevelArms_LiesOnTheGround()
    {
        var linkage = new DoubleWishbone(new(0.35, 0.2), new(0.7, 0.2), new(0.35, 0.45), new(0.7, 0.45), 0.31, 0.78);
        var wheel = linkage.WheelAt(0);
        Assert.Null(wheel.InstantCentre);
        Assert.Equal(0, wheel.RollCentreHeight, 1e-15);
        Assert.Equal(0, RollCentre.Of(linkage, 0, 0)!.HeightAboveGround, 1e-15);
    }

    [Fact]
    public void RollCentre_WithEqualTravel_IsThatOfOneWheel_AndMirrorsInRoll()
    {
        var linkage = ReferenceLinkages.DoubleWishbone;
        foreach (var travel in ReferenceLinkages.Travels)
        {
            var centre = RollCentre.Of(linkage, travel, travel)!;
            Assert.Equal(0, centre.Y, 1e-12);
            Assert.Equal(linkage.WheelAt(travel).RollCentreHeight, centre.HeightAboveGround, 1e-12);
        }

        var (left, right) = (RollCentre.Of(linkage, 0.03, -0.03)!, RollCentre.Of(linkage, -0.03, 0.03)!);
        Assert.Equal(left.Y, -right.Y, 1e-12);
        Assert.Equal(left.HeightAboveGround, right.HeightAboveGround, 1e-12);
    }

    [Fact]
    public void Reach_OfADoubleWishbone_EndsWhereUpperArmAndUprightLieInLine()
    {
        var linkage = ReferenceLinkages.DoubleWishbone;

        // Locked: the lower joint is as far from the upper pivot as upper arm and upright together, or as their difference.
        double upright = Distance([0.71, 0.18], [0.67, 0.49]), upper = Distance([0.43, 0.46], [0.67, 0.49]);
        foreach (var limit in new[] { linkage.Lowest, linkage.Highest }.Where(limit => limit.Reason.Contains("lock", StringComparison.Ordinal)))
        {
            // A hair inside the limit; near it the distance goes with the square root of what is left, so 1e-12 m is 1e-6 m there.
            double inside = limit.Travel * (1 - 1e-12);
            var joint = linkage.PointAt(LinkagePart.LowerArm, new(0, 0.71, 0.18), inside).Position;
            double distance = Distance([joint.Y, joint.Z], [0.43, 0.46]);
            Assert.Contains(new[] { upright + upper, Math.Abs(upright - upper) }, stretched => Math.Abs(stretched - distance) < 1e-5);
        }

        Assert.True(linkage.Lowest.Travel < -0.1 && linkage.Highest.Travel > 0.1);
        var e = Assert.Throws<UnreachableTravelException>(() => linkage.WheelAt(0.5));
        Assert.Contains("500.0 mm", e.Message, StringComparison.Ordinal);
        Assert.Contains(linkage.Highest.Reason, e.Message, StringComparison.Ordinal);
        Assert.Equal(linkage.Highest.Travel, e.Highest);
    }

    [Fact]
    public void Reach_OfAParallelogram_EndsWithTheArmsUpright()
    {
        // The joint goes round the pivot at radius 0.35 m from level: at most 0.35 m up or down. Links count as in line when
        // the altitude of their triangle is √1e-9 of the upper arm, here at 7.6e-5 rad, where the joint lacks 0.35·(7.6e-5)²/2 = 1e-9 m.
        var linkage = new DoubleWishbone(new(0.35, 0.2), new(0.7, 0.2), new(0.35, 0.45), new(0.7, 0.45), 0.31, 0.78);
        Assert.Equal(0.35, linkage.Highest.Travel, 1.1e-9);
        Assert.Equal(-0.35, linkage.Lowest.Travel, 1.1e-9);
    }

    [Fact]
    public void Points_ThatMakeNoLinkage_AreRefusedWithTheirMillimetres()
    {
        var inboard = Assert.Throws<ArgumentException>(() => new DoubleWishbone(new(0.36, 0.21), new(0.30, 0.18), new(0.43, 0.46), new(0.67, 0.49), 0.31, 0.78));
        Assert.Contains("lower arm's outer joint (y = 300 mm) must lie outboard of its pivot (y = 360 mm)", inboard.Message, StringComparison.Ordinal);
        var upsideDown = Assert.Throws<ArgumentException>(() => new DoubleWishbone(new(0.36, 0.21), new(0.71, 0.18), new(0.43, 0.16), new(0.67, 0.15), 0.31, 0.78));
        Assert.Contains("z = 150 mm", upsideDown.Message, StringComparison.Ordinal);
        var locked = Assert.Throws<ArgumentException>(() => new DoubleWishbone(new(0.36, 0.21), new(0.71, 0.2), new(0.31, 0.4), new(0.51, 0.3), 0.31, 0.78));
        Assert.Contains("lock", locked.Message, StringComparison.Ordinal);
    }

    private static void AssertAt(double[] expected, WheelLinkage linkage, LinkagePart part, double[] atRest, double travel)
    {
        // The general solver stops at residuals of 1e-13 m; the coordinates follow them within a factor of ten.
        var point = linkage.PointAt(part, new(0, atRest[0], atRest[1]), travel).Position;
        Assert.Equal(expected[0], point.Y, 1e-11);
        Assert.Equal(expected[1], point.Z, 1e-11);
    }

    private static double Distance(double[] a, double[] b) => Math.Sqrt(((a[0] - b[0]) * (a[0] - b[0])) + ((a[1] - b[1]) * (a[1] - b[1])));

    private static double[] Carried(double[] point, double[] originBefore, double[] originNow, double turn)
    {
        double y = point[0] - originBefore[0], z = point[1] - originBefore[1];
        return [originNow[0] + (y * Math.Cos(turn)) - (z * Math.Sin(turn)), originNow[1] + (y * Math.Sin(turn)) + (z * Math.Cos(turn))];
    }
}
