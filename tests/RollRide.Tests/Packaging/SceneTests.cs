using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Tests.Packaging;

/// <summary>A damper of 5-12-13: 0.5 m long in the rear view, 1.2 m fore and aft, 1.3 m in all. So a tube shows 5/13 of its length, and its ends 12/13 of their radius.</summary>
public class SceneTests
{
    private const double Rounding = 1e-12;
    private const double RollCentre = 0.5;

    private static readonly KeepOut Tyre = new() { Name = "tyre", MovesWithAxle = true, Inner = 0.6, Outer = 0.8, Bottom = 0.1, Top = 0.7, Clearance = 0 };

    private static readonly PackagingSpace Space = new()
    {
        RollCentreHeight = RollCentre,
        Travel = TravelEnvelope.All(new TravelRange { Bump = 0.08, Rebound = 0.09, Roll = 0.1 }),
        Damper = new DamperEnvelope { UpperDiameter = 0.065, UpperLength = 0.26, LowerDiameter = 0.052, LowerLength = 0.13, UpperBush = 0.06, LowerBush = 0.04 },
        Mounts = new DamperMounts { AxleEndHeight = 0.3, BodyEndHeight = 0.7, AxleEndForward = -0.2, BodyEndForward = 1.0, BodyEndOutboard = -0.3 },
        KeepOuts = [Tyre],
        SearchTo = 0.7,
    };

    [Fact]
    public void Damper_AtRest_StandsWhereDrawn()
    {
        var damper = new Scene(Space, position: 0.5, heave: 0, roll: 0).Damper;

        Assert.Equal(1.3, damper.Length, Rounding);
        Assert.Equal(0.5, damper.LengthInView, Rounding);
        Near(new OrientedBox(0.23, 0.66, 0.6, -0.8, 0.05 + 0.03, 0.0325), damper[DamperPart.UpperTube]);
        Near(new OrientedBox(0.485, 0.32, -0.6, 0.8, 0.025 + 0.024, 0.026), damper[DamperPart.LowerTube]);
        Near(new OrientedBox(0.35, 0.5, 0.6, -0.8, 0.25, 0), damper[DamperPart.Rod]);
        Assert.Equal((0.03, 0.02, 0), (damper.Radius(DamperPart.UpperBush), damper.Radius(DamperPart.LowerBush), damper.Radius(DamperPart.Rod)));
    }

    [Theory]
    [InlineData(0.02, 0.1)]
    [InlineData(-0.05, -0.3)]
    public void AxleEnd_InHeaveAndRoll_GoesRoundTheRollCentreThatTheAxleTakesAlong(double heave, double roll)
    {
        var scene = new Scene(Space, position: 0.5, heave, roll);
        double y = (0.5 * Math.Cos(roll)) + (0.2 * Math.Sin(roll)), z = RollCentre + heave + (0.5 * Math.Sin(roll)) - (0.2 * Math.Cos(roll));

        var (axle, body) = (scene.Damper[DamperPart.LowerBush], scene.Damper[DamperPart.UpperBush]);
        Assert.Equal(y, axle.Y, Rounding);
        Assert.Equal(z, axle.Z, Rounding);
        Assert.Equal((0.2, 0.7), (body.Y, body.Z)); // fixed
        Assert.Equal(Math.Sqrt(((y - 0.2) * (y - 0.2)) + ((z - 0.7) * (z - 0.7)) + (1.2 * 1.2)), scene.Damper.Length, Rounding);

        // The other damper is the mirror image of this one with the wheel rolled the other way.
        var other = scene.Part(DamperPart.LowerBush, ofOther: true);
        Assert.Equal(-((0.5 * Math.Cos(roll)) - (0.2 * Math.Sin(roll))), other.Y, Rounding);
        Assert.Equal(RollCentre + heave - (0.5 * Math.Sin(roll)) - (0.2 * Math.Cos(roll)), other.Z, Rounding);
    }

    [Fact]
    public void KeepOut_OnTheAxle_TurnsWithIt_OnTheBody_Stays()
    {
        var scene = new Scene(Space, position: 0.5, heave: 0.02, roll: 0.1);

        // The tyre's middle is 0.7 m out and 0.1 m below the roll centre.
        var (sin, cos) = Math.SinCos(0.1);
        Near(new OrientedBox((0.7 * cos) + (0.1 * sin), RollCentre + 0.02 + (0.7 * sin) - (0.1 * cos), cos, sin, 0.1, 0.3), scene.Place(Tyre));
        Near(new OrientedBox(0.7, 0.4, 1, 0, 0.1, 0.3), scene.Place(Tyre with { MovesWithAxle = false }));
        Near(new OrientedBox(0.7, 0.4, 1, 0, 0.15, 0.3), scene.Place(Tyre with { MovesWithAxle = false }, widened: 0.05));

        // Its farthest corner is 0.8 m out and 0.4 m below.
        Assert.Equal(Math.Sqrt((0.8 * 0.8) + (0.4 * 0.4)), scene.ReachOf(Tyre), Rounding);
    }

    [Theory] // Bodies of 2 by 1 m and 4 by 2 m, both upright.
    [InlineData(6, 0, 3)] // side by side: 6 − 1 − 2
    [InlineData(0, 3, 1.5)] // one above the other: 3 − 0.5 − 1
    [InlineData(6, 5.5, 5)] // corner to corner: 3 and 4 m
    [InlineData(-6, 5.5, 5)]
    [InlineData(6, -5.5, 5)]
    [InlineData(-6, -5.5, 5)]
    [InlineData(2.5, 0, -0.5)] // 0.5 m one in the other
    [InlineData(3, 0, 0)]
    public void Distance_OfUprightBoxes_IsWorkedOutByHand(double y, double z, double distance)
    {
        OrientedBox one = new(10, 20, 1, 0, 1, 0.5), other = new(10 + y, 20 + z, 1, 0, 2, 1);
        Assert.Equal(distance, OrientedBox.Distance(one, other), Rounding);
        Assert.Equal(distance, OrientedBox.Distance(other, one), Rounding);

        // Lying on its other side a box is the same box.
        Assert.Equal(distance, OrientedBox.Distance(one with { AlongY = 0, AlongZ = 1, HalfLength = 0.5, HalfWidth = 1 }, other), Rounding);
    }

    [Fact] // A square on its corner reaches √2 of its half side.
    public void Distance_OfASquareOnItsCorner_IsTakenFromTheCorner()
    {
        double half = Math.Sqrt(0.5);
        OrientedBox square = new(0, 0, half, half, 1, 1), wall = new(5, 0, 1, 0, 1, 3);
        Assert.Equal(4 - Math.Sqrt(2), OrientedBox.Distance(square, wall), Rounding);
        Assert.Equal(4 - Math.Sqrt(2), OrientedBox.Distance(wall, square), Rounding);
    }

    private static void Near(OrientedBox expected, OrientedBox actual)
    {
        Assert.Equal(expected.Y, actual.Y, Rounding);
        Assert.Equal(expected.Z, actual.Z, Rounding);
        Assert.Equal(expected.AlongY, actual.AlongY, Rounding);
        Assert.Equal(expected.AlongZ, actual.AlongZ, Rounding);
        Assert.Equal(expected.HalfLength, actual.HalfLength, Rounding);
        Assert.Equal(expected.HalfWidth, actual.HalfWidth, Rounding);
    }
}
