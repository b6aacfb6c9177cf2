using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Tests.Dynamics;
using RollRide.Vehicle;

namespace RollRide.Tests.Findings;

public sealed class RestWarningsTests
{
    // 50 mm to a quadratic bump stop of 3e6 N/m² and 60 mm to a rebound stop; springs of 35 N/mm that move as the wheels do.
    private static readonly HalfCar Vehicle = TestCars.Full;

    private static LoadedHalfCar With(double mass, HalfCar? vehicle = null, double gas = 0) => LoadedHalfCar.Settle(
        vehicle ?? Vehicle,
        TestCars.Layout(TestCars.Ratio(1, 0.6), TestCars.LinearDamper(2500) with { GasForce = gas }),
        new LoadState { Name = "laden", Masses = [new() { Mass = mass, Height = 0.8 }] });

    [Fact]
    public void LoadWithRoomLeft_WarnsOfNothing() => Assert.Empty(RestWarnings.Of(With(200)));

    [Fact]
    public void StopTouchedAtRest_IsNamedWithItsCompressionAndForce()
    {
        // 35e3 q + 3e6 (q − 0.05)² = 2000 N: 2.09 mm and 13 N of the stop.
        var loaded = With(2 * 2000 / TestCars.TextbookGravity);
        var stop = loaded.Rest.Left.BumpStop!;
        Assert.Equal(2000, (35e3 * (0.05 + stop.Compression)) + stop.Force, 1e-6);
        var warning = Assert.Single(RestWarnings.Of(loaded));
        Assert.Equal(
            FormattableString.Invariant($"Under load state “laden” with layout “layout” the bump stops touch at rest: each is compressed by {stop.Compression * 1e3:F1} mm and carries {stop.Force:F0} N. The ride begins on the stops."),
            warning);
    }

    [Fact]
    public void LittleLeftToAStop_IsNamedWithTheClearance()
    {
        // 1500 N a side on 35 N/mm are 42.86 mm of 50.
        var warning = Assert.Single(RestWarnings.Of(With(2 * 1500 / TestCars.TextbookGravity)));
        Assert.Contains("only 7.1 mm are left at rest until the bump stops touch", warning, StringComparison.Ordinal);
    }

    [Fact]
    public void SpringInTension_IsNamedWithItsForce()
    {
        // 290 kg are left, 1422.45 N a side; gas of 2000 N lifts 577.55 N more.
        var warning = Assert.Single(RestWarnings.Of(With(-710, Vehicle with { BumpStop = null, ReboundStop = null }, gas: 2000)));
        Assert.Contains("the springs pull with 578 N at rest", warning, StringComparison.Ordinal);
    }

    [Fact]
    public void LoadBeyondTheTravel_IsNamed()
    {
        var travel = new TravelRange { Bump = 0.03, Rebound = 0.05, Roll = 0.1 };
        var warning = Assert.Single(RestWarnings.Of(With(2 * 1225 / TestCars.TextbookGravity, Vehicle with { Travel = travel })));
        Assert.Contains("stands 5.0 mm beyond the end of vehicle.travel in bump", warning, StringComparison.Ordinal);
    }

    [Fact] // 1500 N a side more on the other axle's 35 N/mm are 42.86 mm of its 50; the studied axle carries nothing.
    public void OtherAxle_UnderItsPartOfTheLoad_IsLookedAtToo()
    {
        var layout = TestCars.Layout(TestCars.Ratio(1, 0.6), TestCars.LinearDamper(2500));
        var vehicle = Vehicle with
        {
            SecondAxle = new SecondAxle { Vehicle = Vehicle, Layout = layout, Place = Axle.Front, Chassis = new Chassis { Wheelbase = 3, TorsionalStiffness = null } },
        };
        var part = new LoadState { Name = "laden", Masses = [new() { Mass = 2 * 1500 / TestCars.TextbookGravity, Height = 0.8 }] };
        var warning = Assert.Single(RestWarnings.Of(LoadedHalfCar.Settle(vehicle, layout, new LoadState { Name = "laden", OtherAxle = part })));
        Assert.Equal("Under load state “laden” on the front axle only 7.1 mm are left at rest until the bump stops touch. Any road uses that up.", warning);
    }
}
