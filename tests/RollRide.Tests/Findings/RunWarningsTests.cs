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
    public void Gas_that_does_not_hold_the_compression_valves_is_warned_of_at_its_instant()
    {
        // 3 bar on a piston of 30 mm hold about 200 N of a damper that gives 3000 N at 1 m/s.
        var record = ShortScenario.Of(("Outer", 0.8))
            .With("dampers.plain.gas", JsonNode.Parse("""{ "absolutePressure_bar": 3, "volume_cm3": 300, "rodDiameter_mm": 12, "pistonDiameter_mm": 30 }""")).Record();
        var (rod, ring) = (Math.PI / 4 * 0.012 * 0.012, Math.PI / 4 * ((0.03 * 0.03) - (0.012 * 0.012)));
        var channels = record.Layouts[0].History;
        double Missing(int i) => channels[Channel.DamperForceLeft][i] - (3e5 * Math.Pow(300e-6 / (300e-6 - (rod * channels[Channel.DamperTravelLeft][i])), 1.4) * ring);
        var sampled = Enumerable.Range(0, channels.Count).Where(i => Missing(i) > 0).ToArray();
        var cavitation = record.Result.Layouts[0].Metrics.Cavitations.Single(found => found.Side == RollRide.Mounting.Side.Left);

        // Sampled every millisecond.
        Assert.InRange(channels.Time(sampled[0]) - cavitation.Start, 0, 1e-3);
        Assert.Equal(sampled.Length * 1e-3, cavitation.Duration, 4e-3);
        var worst = sampled.MaxBy(Missing);
        Assert.Equal(channels.Time(worst), cavitation.WorstTime, 1e-3);
        Assert.Equal(channels[Channel.DamperForceLeft][worst], cavitation.ValveForce, 2.0);
        Assert.Equal(channels[Channel.DamperForceLeft][worst] - Missing(worst), cavitation.HeldForce, 0.5);
        Assert.Contains(
            FormattableString.Invariant($"The oil in the left damper would cavitate in compression, first at {cavitation.Start:F2} s and for {cavitation.Duration:F3} s in all; worst at {cavitation.WorstTime:F2} s, when the valves take {cavitation.ValveForce:F0} N and the gas pressure on the piston holds {cavitation.HeldForce:F0} N at that stroke."),
            WarningsOf(record.Result)[0].First(warning => warning.Contains("left damper", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public void Gas_that_holds_the_compression_valves_is_not_warned_of() => Assert.Empty(WarningsOf(ShortScenario.Of(("Outer", 0.8))
        .With("dampers.plain.gas", JsonNode.Parse("""{ "gaugePressure_bar": 25, "volume_cm3": 300, "rodDiameter_mm": 12, "pistonDiameter_mm": 50 }""")).Run())[0]);

    [Fact]
    public void A_corner_before_the_ride_has_settled_leaves_no_figures_of_the_ride_and_is_warned_of()
    {
        // 20 m at 10 m/s, then a quarter of 8 s.
        var result = ShortScenario.Pair().With("manoeuvre.road.random", JsonNode.Parse("""{ "class": "a" }""")).With("manoeuvre.duration_s", 8).Run();
        Assert.All(result.Layouts, layout =>
        {
            Assert.Null(layout.Ride);
            Assert.Equal(
                "No ride metrics: the ride is measured from 4.00 s, when the road has its full roughness and the start has died away, and the corner begins at 0.80 s.",
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
