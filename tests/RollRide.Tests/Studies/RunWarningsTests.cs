using System.Text.Json.Nodes;

namespace RollRide.Tests.Studies;

public class RunWarningsTests
{
    [Fact]
    public void Quiet_run_has_no_warning() => Assert.All(ShortScenario.Pair().Run().Layouts, layout => Assert.Empty(layout.Warnings));

    [Fact]
    public void Damper_beyond_its_curve_is_warned_of_both_ways()
    {
        // The same straight curve, given over a tenth of the range.
        var result = ShortScenario.Pair().With("dampers.plain.curve", JsonNode.Parse("""{ "velocity_m_per_s": [-0.1, 0, 0.1], "force_N": [-300, 0, 300] }""")).Run();

        var run = result.Layouts[0].Metrics.Whole;
        Assert.Equal(
            [
                FormattableString.Invariant($"The damper ran at {run.DamperCompressionVelocityPeak:F2} m/s in compression; its curve was given up to 0.10 m/s and is extended straight."),
                FormattableString.Invariant($"The damper ran at {run.DamperReboundVelocityPeak:F2} m/s in rebound; its curve was given up to 0.10 m/s and is extended straight."),
            ],
            result.Layouts[0].Warnings);
    }

    [Fact]
    public void A_corner_before_the_ride_has_settled_leaves_no_figures_of_the_ride_and_is_warned_of()
    {
        // 20 m at 10 m/s, then a quarter of 8 s.
        var result = ShortScenario.Pair().With("manoeuvre.road.random", JsonNode.Parse("""{ "class": "a" }""")).With("manoeuvre.duration_s", 8).Run();
        Assert.All(result.Layouts, layout =>
        {
            Assert.Null(layout.Ride);
            Assert.Equal(
                "No figures of the ride: it is measured from 4.00 s, when the road has grown and the start has died away, and the corner begins at 0.80 s.",
                Assert.Single(layout.Warnings));
        });
    }

    [Fact]
    public void Wheel_that_leaves_the_travel_given_is_warned_of()
    {
        // Without roll a wheel goes as far as both together.
        var result = ShortScenario.Pair().With("vehicle.travel", JsonNode.Parse("""{ "bump_mm": 1, "rebound_mm": 500, "roll_deg": 0 }""")).Run();
        var run = result.Layouts[0].Metrics.Whole;
        Assert.Contains(
            FormattableString.Invariant($"A wheel moved {run.BumpTravelPeak * 1e3:F1} mm in bump; vehicle.travel goes to 1.0 mm at full bump with full roll. Nothing in the model ends it there but a stop."),
            result.Layouts[0].Warnings);
    }
}
