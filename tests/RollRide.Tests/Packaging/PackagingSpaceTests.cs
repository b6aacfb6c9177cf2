using RollRide.Mounting;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Tests.Packaging;

public class PackagingSpaceTests
{
    private static readonly DamperEnvelope Damper = new() { UpperDiameter = 0.07, UpperLength = 0.25, LowerDiameter = 0.05, LowerLength = 0.22 };
    private static readonly DamperMounts Mounts = new() { AxleEndHeight = 0.3, BodyEndHeight = 0.75 };
    private static readonly KeepOut Tyre = new() { Name = "tyre", MovesWithAxle = true, Inner = 0.66, Outer = 0.9, Bottom = 0, Top = 0.72, Clearance = 0.015 };
    private static readonly KeepOut Rail = new() { Name = "rail", MovesWithAxle = false, Inner = 0.36, Outer = 0.42, Bottom = 0.55, Top = 0.70, Clearance = 0.010 };
    private static readonly PackagingSpace Space = new()
    {
        RollCentreHeight = 0.5,
        Travel = TravelEnvelope.All(new TravelRange { Bump = 0.08, Rebound = 0.09, Roll = 0.1 }),
        Damper = Damper,
        Mounts = Mounts,
        Rail = Rail,
        KeepOuts = [Tyre],
        SearchTo = 0.7,
    };

    [Fact]
    public void NumberOutOfItsLimits_IsNamedWithItsUnit()
    {
        Refused.NumberIn("m", "UpperDiameter", () => Damper with { UpperDiameter = 0 });
        Refused.NumberIn("m", "UpperLength", () => Damper with { UpperLength = 0 });
        Refused.NumberIn("m", "LowerDiameter", () => Damper with { LowerDiameter = 0 });
        Refused.NumberIn("m", "LowerLength", () => Damper with { LowerLength = 0 });
        Refused.NumberIn("m", "UpperBush", () => Damper with { UpperBush = -1 });
        Refused.NumberIn("m", "LowerBush", () => Damper with { LowerBush = -1 });
        Refused.NumberIn("m", "ClosedLength", () => Damper with { ClosedLength = 0 });
        Refused.NumberIn("m", "ExtendedLength", () => Damper with { ExtendedLength = 0 });
        Refused.NumberIn("m", "AxleEndHeight", () => Mounts with { AxleEndHeight = double.NaN });
        Refused.NumberIn("m", "BodyEndHeight", () => Mounts with { BodyEndHeight = double.NaN });
        Refused.NumberIn("m", "AxleEndForward", () => Mounts with { AxleEndForward = double.NaN });
        Refused.NumberIn("m", "BodyEndForward", () => Mounts with { BodyEndForward = double.NaN });
        Refused.NumberIn("m", "BodyEndOutboard", () => Mounts with { BodyEndOutboard = double.NaN });
        Refused.NumberIn("m", "Inner", () => Tyre with { Inner = double.NaN });
        Refused.NumberIn("m", "Outer", () => Tyre with { Outer = double.NaN });
        Refused.NumberIn("m", "Bottom", () => Tyre with { Bottom = double.NaN });
        Refused.NumberIn("m", "Top", () => Tyre with { Top = double.NaN });
        Refused.NumberIn("m", "Clearance", () => Tyre with { Clearance = -1 });
        Refused.NumberIn("m", "RollCentreHeight", () => Space with { RollCentreHeight = double.NaN });
        Refused.NumberIn("m", "ClearanceBetweenDampers", () => Space with { ClearanceBetweenDampers = -1 });
        Refused.NumberIn("m", "SearchFrom", () => Space with { SearchFrom = double.NaN });
        Refused.NumberIn("m", "SearchTo", () => Space with { SearchTo = double.NaN });
    }

    [Fact]
    public void Mounts_OfAFitting_StandWhereItsEndsAre()
    {
        var mounts = DamperMounts.Of(new LiveAxleMountFitting(new Point3(-0.1, 0.5, 0.3), new Point3(0.1, 0.2, 0.9), rollCentreHeight: 0.4, halfTrack: 0.8));

        Assert.Equal(new Point3(-0.1, 0.5, 0.3), mounts.AxleEndAt(0.5));
        Assert.Equal(0.1, mounts.BodyEndAt(0.5).X);
        Assert.Equal(0.2, mounts.BodyEndAt(0.5).Y, 1e-15);
        Assert.Equal(0.9, mounts.BodyEndAt(0.5).Z);
    }

    [Fact]
    public void KeepOut_SeenFromTheOtherSide_ReachesAsFar()
    {
        var mirrored = Tyre.Mirrored();
        Assert.Equal((-0.9, -0.66), (mirrored.Inner, mirrored.Outer));
    }

    [Theory]
    [InlineData(WallDirection.Outboard, 0.67, 0.91, 0, 0.72)]
    [InlineData(WallDirection.Inboard, 0.65, 0.89, 0, 0.72)]
    [InlineData(WallDirection.Up, 0.66, 0.9, 0.01, 0.73)]
    [InlineData(WallDirection.Down, 0.66, 0.9, -0.01, 0.71)]
    public void KeepOut_Moved_GoesAsAWhole(WallDirection direction, double inner, double outer, double bottom, double top)
    {
        var moved = Tyre.Moved(0.01, direction);
        Assert.Equal(inner, moved.Inner, 1e-12);
        Assert.Equal(outer, moved.Outer, 1e-12);
        Assert.Equal(bottom, moved.Bottom, 1e-12);
        Assert.Equal(top, moved.Top, 1e-12);
    }

    [Fact]
    public void Without_LeavesOutTheOneAlone()
    {
        Assert.Equal([Rail], Space.Without(Tyre).AllKeepOuts);
        Assert.Equal([Tyre], Space.Without(Rail).AllKeepOuts);
    }

    [Fact] // What is on the axle sinks with it, what is on the body with the body.
    public void Redrawn_MovesEachRoomWithWhatCarriesIt()
    {
        var laden = Space.Redrawn(new RideHeightChange(-0.045, -0.008, -0.006));
        Assert.Equal(0.712, laden.KeepOuts[0].Top, 1e-12);
        Assert.Equal(0.655, laden.Rail!.Top, 1e-12);
        Assert.Equal(0.494, laden.RollCentreHeight, 1e-12);
        Assert.Equal((0.292, 0.705), (laden.Mounts.AxleEndHeight, laden.Mounts.BodyEndHeight));
    }
}
