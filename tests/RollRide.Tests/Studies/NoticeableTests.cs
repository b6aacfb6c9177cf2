using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Tests.Studies;

/// <summary>Of what a difference between layouts is a share.</summary>
public sealed class NoticeableTests
{
    [Fact]
    public void Differences_are_shares_of_what_the_unit_suggests()
    {
        var vehicle = ShortScenario.Pair().Read().Study.Vehicle;

        Assert.Equal(100, Noticeable.Whole(Unit.Percent, vehicle, 30, 45)); // points of overshoot
        Assert.Equal((1200 + 160) * 9.80665 / 2, Noticeable.Whole(Unit.Newton, vehicle, 300, 200), 1e-9); // a side's load at rest, however little is left of it
        Assert.Equal(0.5, Noticeable.Whole(Unit.MetrePerSecondSquared, vehicle, 0.4, -0.5));
    }
}
