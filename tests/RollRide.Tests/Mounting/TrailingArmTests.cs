using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

public sealed class TrailingArmTests
{
    [Fact]
    public void PureTrailingArm_RisesOnACircle_AndKeepsItsCamber()
    {
        // Axis straight across, 0.45 m in front of and 0.05 m above the wheel centre; the wheel stands at (0, 0.31).
        var arm = new TrailingArm(new(0.45, 0.4, 0.36), new(0.45, 0.7, 0.36), 0.31, 0.78);
        double radius = Math.Sqrt((0.45 * 0.45) + (0.05 * 0.05));
        Assert.Equal(radius + 0.05, arm.Highest.Travel, 1e-15);
        Assert.Equal(-radius + 0.05, arm.Lowest.Travel, 1e-15);
        foreach (var travel in ReferenceLinkages.Travels)
        {
            var wheel = arm.PointAt(LinkagePart.TrailingArm, new(0, 0.78, 0.31), travel).Position;
            Assert.Equal(0.31 + travel, wheel.Z, 1e-15);
            Assert.Equal(0.45 - Math.Sqrt((radius * radius) - ((travel - 0.05) * (travel - 0.05))), wheel.X, 1e-15);
            Assert.Equal(0.78, wheel.Y, 1e-15);
            var position = arm.WheelAt(travel);
            Assert.Equal(0, position.Camber, 1e-15);
            Assert.Equal(0, position.Toe, 1e-15);
            Assert.Equal(0, position.RollCentreHeight, 1e-15); // on the ground: the contact does not move sideways
        }
    }

    [Fact]
    public void SwingAxle_HasItsRollCentreOnTheLineThroughItsPivot()
    {
        // An axis along the vehicle at (0.10, 0.35): the contact goes round it, and the line from contact to pivot meets the
        // centre plane at 0.35·0.78/(0.78 − 0.10).
        var arm = new TrailingArm(new(0.3, 0.1, 0.35), new(-0.3, 0.1, 0.35), 0.31, 0.78);
        var wheel = arm.WheelAt(0);
        Assert.Equal(0.35 * 0.78 / 0.68, wheel.RollCentreHeight, 1e-15);

        // It turns with the travel: sin of the angle, by the wheel centre's arm of 0.68 m and 0.04 m below the pivot.
        var up = arm.WheelAt(0.05);
        double turn = Math.Asin(0.01 / Math.Sqrt((0.68 * 0.68) + (0.04 * 0.04))) - Math.Asin(-0.04 / Math.Sqrt((0.68 * 0.68) + (0.04 * 0.04)));
        Assert.Equal(-turn, up.Camber, 1e-15);
    }

    [Fact]
    public void SemiTrailingArm_KeepsEveryDistanceFromItsAxis()
    {
        var arm = ReferenceLinkages.SemiTrailing;
        SpaceVector point = new(-0.08, 0.68, 0.25);
        SpaceVector[] onAxis = [new(0.32, 0.25, 0.28), new(0.47, 0.65, 0.31)];
        foreach (var travel in ReferenceLinkages.Travels)
        {
            var moved = arm.PointAt(LinkagePart.TrailingArm, point, travel).Position;
            foreach (var pivot in onAxis)
                Assert.Equal((point - pivot).Length, (moved - pivot).Length, 1e-15);
            var wheel = arm.PointAt(LinkagePart.TrailingArm, new(0, 0.78, 0.31), travel).Position;
            Assert.Equal(0.31 + travel, wheel.Z, 1e-15);
        }
    }

    [Fact]
    public void SemiTrailingArm_InBump_GainsNegativeCamber()
    {
        // Common practice, no source: with the outer pivot in front of the inner one the top leans in as the wheel rises.
        Assert.True(ReferenceLinkages.SemiTrailing.WheelAt(0.05).Camber < 0);
    }

    [Fact]
    public void Axis_AboveTheWheel_CannotLiftIt()
    {
        var e = Assert.Throws<ArgumentException>(() => new TrailingArm(new(0, 0.4, 0.5), new(0, 0.9, 0.5), 0.31, 0.78));
        Assert.Contains("does not rise", e.Message, StringComparison.Ordinal);
        var same = Assert.Throws<ArgumentException>(() => new TrailingArm(new(0.4, 0.4, 0.5), new(0.4, 0.4, 0.5), 0.31, 0.78));
        Assert.Contains("0 mm apart", same.Message, StringComparison.Ordinal);
    }
}
