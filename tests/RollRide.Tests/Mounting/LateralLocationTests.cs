using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

public sealed class LateralLocationTests
{
    [Fact]
    public void PanhardRod_GivesTheHeightAtTheCentrePlane()
    {
        // From (0.6, 0.40) to (−0.4, 0.50): at y = 0 six tenths of the way, 0.46.
        Assert.Equal(0.46, new PanhardRod(new(0.6, 0.40), new(-0.4, 0.50)).RollCentreHeight, 1e-15);
        Assert.Equal(0.46, new PanhardRod(new(-0.4, 0.50), new(0.6, 0.40)).RollCentreHeight, 1e-15);
    }

    [Fact]
    public void PanhardRod_OnOneSide_IsRefusedWithItsMillimetres()
    {
        var e = Assert.Throws<ArgumentException>(() => new PanhardRod(new(0.6, 0.40), new(0.1, 0.50)));
        Assert.Contains("y = 600 mm and y = 100 mm", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void WattLinkage_GivesItsPivot() => Assert.Equal(0.38, new WattLinkage(0.38).RollCentreHeight);

    [Fact] // What docs/mounts-and-packaging.md says of a live axle whose body has gone down by 100 mm: the model leaves the roll centre where it was.
    public void RollCentre_OfALiveAxle_LeavesItsPlaceOnTheAxleInHeave()
    {
        Assert.Equal(0.050, new PanhardRod(new(0.5, 0.40), new(-0.5, 0.50)).RollCentreHeight - new PanhardRod(new(0.5, 0.40), new(-0.5, 0.40)).RollCentreHeight, 1e-12);
        Assert.Equal(0.100, new LeafSpringLocation(0.6, 0.45, -0.9, 0.60).RollCentreHeight - new LeafSpringLocation(0.6, 0.35, -0.9, 0.50).RollCentreHeight, 1e-12);
    }

    [Fact]
    public void LeafSprings_GiveTheLineThroughTheEyesAtTheAxle()
    {
        // Eyes at (0.6, 0.45) and (−0.9, 0.60): at x = 0 four tenths of the way, 0.51.
        Assert.Equal(0.51, new LeafSpringLocation(0.6, 0.45, -0.9, 0.60).RollCentreHeight, 1e-15);
        var e = Assert.Throws<ArgumentException>(() => new LeafSpringLocation(0.6, 0.45, 0.9, 0.60));
        Assert.Contains("it is at 900 mm", e.Message, StringComparison.Ordinal);
    }
}
