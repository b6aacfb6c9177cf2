using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Findings;

/// <summary>Which part of a run the ride's figures are measured over, in words.</summary>
public sealed class RideWordsTests
{
    // At 10 m/s the lead-in of 20 m takes 2 s, and the start dies away in the 3 s after it.
    public static TheoryData<string> Scenarios => [.. Shipped.Scenarios];

    private static readonly Road Rough = Road.Flat(10) with
    {
        Unevenness = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.B), Coherence = TrackCoherence.Isotropic(1.6), ContactLength = 0.1, Seed = 1 },
    };

    [Fact]
    public void Obstacle_before_the_measured_part_is_told_to_be_left_out()
    {
        Assert.Equal("", RideWords.LeftOut(On(Rough.With(RoadEvents.HaversineBump(60, 2, 0.06), RoadSide.Left))));
        Assert.Equal(
            "The ride is measured from 5.0 to 20.0 s, without the obstacle that the wheels meet at 3.0 s. ",
            RideWords.LeftOut(On(Rough.With(RoadEvents.HaversineBump(30, 2, 0.06), RoadSide.Left))));
        Assert.Equal(
            "The ride is measured from 5.0 to 20.0 s, without the beginning of the obstacle that the wheels meet at 4.9 s. ",
            RideWords.LeftOut(On(Rough.With(RoadEvents.HaversineBump(49, 2, 0.06), RoadSide.Left))));
    }

    [Fact]
    public void Ride_that_begins_inside_an_obstacle_warns_by_how_far_to_move_it()
    {
        // Measured from 5 s, at 10 m/s from 50 m: the bump from 49 to 51 m is cut, and is whole when it begins 1 m later.
        var cut = RideWords.BegunInside(On(Rough.With(RoadEvents.HaversineBump(49, 2, 0.06), RoadSide.Left)));
        Assert.Equal("The ride's figures begin at 5.0 s, inside the obstacle that the wheels meet at 4.9 s, so they are of a part of it. Let it begin 1 m later, and they hold it whole.", cut);
        Assert.Null(RideWords.BegunInside(On(Rough.With(RoadEvents.HaversineBump(50, 2, 0.06), RoadSide.Left))));
        Assert.Null(RideWords.BegunInside(On(Rough.With(RoadEvents.HaversineBump(30, 2, 0.06), RoadSide.Left))));
        Assert.Null(RideWords.BegunInside(On(Road.Flat(10).With(RoadEvents.HaversineBump(49, 2, 0.06), RoadSide.Left))));
    }

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void Ride_of_a_shipped_scenario_leaves_out_no_obstacle(string name) =>
        Assert.DoesNotContain("obstacle", RideWords.LeftOut(ScenarioReader.Read(Shipped.Scenario(name)).Study.Manoeuvre), StringComparison.Ordinal);

    [Fact]
    public void Corner_is_told_to_be_left_out_and_a_road_without_a_ride_says_nothing()
    {
        Assert.Equal("The ride is measured from 5.0 to 12.0 s, without the corner. ", RideWords.LeftOut(On(Rough) with { Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(12, 1, 3)) }));
        Assert.Equal("", RideWords.LeftOut(On(Road.Flat(10).With(RoadEvents.HaversineBump(30, 2, 0.06), RoadSide.Left))));
    }

    private static Manoeuvre On(Road road) => new() { Road = road, Cornering = GivenLateralAcceleration.StraightAhead, Duration = 20 };
}
