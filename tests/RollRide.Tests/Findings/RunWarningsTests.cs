using System.Text.Json.Nodes;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Findings;

public class RunWarningsTests
{
    [Fact]
    public void Quiet_run_has_no_warning() => Assert.All(WarningsOf(ShortScenario.Pair().Run()), Assert.Empty);

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
            WarningsOf(result)[0]);
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
                Assert.Single(RunWarnings.Of(result.Study, layout)));
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
            WarningsOf(result)[0]);
    }

    [Fact] // In the corner the body rolls against the axle by 2 deg and more; the wheels stay within bump and rebound.
    public void Roll_beyond_the_travel_given_is_warned_of()
    {
        var narrow = ShortScenario.Of(("Outer", 0.8)).With("vehicle.travel", JsonNode.Parse("""{ "bump_mm": 300, "rebound_mm": 300, "roll_deg": 0.5 }""")).Record();
        var channels = narrow.Layouts[0].History;
        var sampled = Enumerable.Range(0, channels.Count).Max(i => Math.Abs(channels[Channel.BodyRoll][i] - channels[Channel.UnsprungRoll][i])) * 180 / Math.PI;
        var warning = Assert.Single(WarningsOf(narrow.Result)[0]);
        Assert.Matches(@"^The body rolled [0-9.]+ deg against the axle; vehicle\.travel\.roll_deg is 0\.5\.", warning);

        // Samples a millisecond apart miss the peak by little.
        Assert.Equal(sampled, narrow.Layouts[0].Metrics.Whole.SuspensionRollPeak * 180 / Math.PI, 1e-3);
        Assert.Empty(WarningsOf(ShortScenario.Of(("Outer", 0.8)).With("vehicle.travel", JsonNode.Parse("""{ "bump_mm": 300, "rebound_mm": 300, "roll_deg": 20 }""")).Run())[0]);
    }

    [Fact]
    public void One_tyre_of_a_pair_in_the_air_is_warned_of_with_its_time()
    {
        // The axle leans until the outer tyre of the inner pair is off the road; the other one stays on it.
        var result = ShortScenario.Of(("Outer", 0.8))
            .With("vehicle.body.cgHeight_mm", 1000)
            .With("vehicle.tyres", JsonNode.Parse("""{ "stiffness_N_per_mm": 125, "damping_N_s_per_m": 150, "dualSpacing_mm": 400 }"""))
            .With("manoeuvre.cornering.lateralAcceleration", JsonNode.Parse("""{ "events": [ { "start_s": 0.8, "amplitude_m_per_s2": 5.8, "rampStep": { "rampDuration_s": 0.6 } } ] }"""))
            .Run();
        var metrics = result.Layouts[0].Metrics;
        var (one, side) = (metrics.Whole.TyreLiftOffTimes.Max(), metrics.Whole.LiftOffTime);

        Assert.True(one > 0.2 && side == 0, FormattableString.Invariant($"one tyre {one} s, a side {side} s"));
        Assert.Equal(one, metrics.OneTyreLiftOffTime);
        Assert.Contains(FormattableString.Invariant($"A tyre of a dual pair left the ground for {one:F3} s."), WarningsOf(result)[0]);
    }

    [Fact]
    public void Single_tyre_in_the_air_is_the_side_and_not_one_of_a_pair()
    {
        var result = ShortScenario.Of(("Outer", 0.8)).With("manoeuvre.road.events", JsonNode.Parse("""[ { "start_m": 1, "side": "left", "bump": { "length_m": 2, "height_mm": 150 } } ]""")).Run();
        var metrics = result.Layouts[0].Metrics;

        Assert.True(metrics.Whole.LiftOffTimeLeft > 0.01);
        Assert.Equal([metrics.Whole.LiftOffTimeLeft, metrics.Whole.LiftOffTimeRight], metrics.Whole.TyreLiftOffTimes);
        Assert.Equal(0, metrics.OneTyreLiftOffTime);
        Assert.DoesNotContain(WarningsOf(result)[0], warning => warning.Contains("dual pair", StringComparison.Ordinal));
    }

    private static string[][] WarningsOf(ComparisonResult result) => [.. result.Layouts.Select(layout => RunWarnings.Of(result.Study, layout).ToArray())];
}
