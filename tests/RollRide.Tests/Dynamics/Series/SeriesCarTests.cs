using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Roads;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics.Series;

public sealed class SeriesCarTests
{
    [Theory]
    [InlineData("ratios", true)]
    [InlineData("mounts, gas, friction, stops", false)]
    [InlineData("top mount", false)]
    [InlineData("arm", false)]
    public void TryCreate_OnlyStraightLaws_HaveASeries(string name, bool has) =>
        Assert.Equal(has, SeriesCar.TryCreate(Find(name), BumpThenTurn(RoadSide.Left, 0.05, 3)) is not null);

    [Fact]
    public void TryCreate_FrictionBentStopOrSteering_HasNone()
    {
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.05, 3);
        Assert.Null(SeriesCar.TryCreate(new AssembledHalfCar(LiveAxle, Layout(Ratio(1, 0.5), RealDamper with { GasForce = 0 })), manoeuvre));
        Assert.NotNull(SeriesCar.TryCreate(new AssembledHalfCar(LiveAxle, Layout(Ratio(1, 0.5), RealDamper with { Friction = 0 })), manoeuvre));
        Assert.Null(SeriesCar.TryCreate(new AssembledHalfCar(LiveAxle with { ReboundStop = Full.ReboundStop }, LinearLayout()), manoeuvre));
        var random = manoeuvre with { Road = manoeuvre.Road with { Unevenness = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.C), Coherence = TrackCoherence.Isotropic(1.5), Seed = 1 } } };
        Assert.Null(SeriesCar.TryCreate(new AssembledHalfCar(LiveAxle, LinearLayout()), random));
    }

    [Fact]
    public void TryCreate_Segments_EndAtTheBreakpoints()
    {
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.05, 3);
        var car = SeriesCar.TryCreate(new AssembledHalfCar(LiveAxle, LinearLayout()), manoeuvre)!;
        Assert.Equal([.. manoeuvre.Breakpoints, manoeuvre.Duration], car.Segments.Select(segment => segment.End));
    }
}
