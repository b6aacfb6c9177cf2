using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Findings;

/// <summary>The sentences follow from the numbers of small runs.</summary>
public class ConclusionsTests
{
    [Fact]
    public void Live_axle_says_how_roll_damping_falls_and_why()
    {
        var result = ShortScenario.Pair().Run();
        var (outer, inner) = (result.Layouts[0], result.Layouts[1]);

        var sentences = Conclusions.Of(result);

        Assert.Equal(
            Invariant($"The roll damping ratio at {result.Study.Analysis.ReferenceVelocity:0.###} m/s damper velocity falls from {outer.ReferenceModes.Roll.DampingRatio:F2} with “Outer” to {inner.ReferenceModes.Roll.DampingRatio:F2} with “Inner”, {100 * (1 - (inner.ReferenceModes.Roll.DampingRatio / outer.ReferenceModes.Roll.DampingRatio)):F0} % less, while heave stays at {outer.ReferenceModes.Heave.DampingRatio:F2}."),
            sentences[0]);
        Assert.Equal("The cause is the roll motion ratio, 0.80 against 0.30: on a live axle roll damping scales with its square.", sentences[1]);
        var (least, most) = (outer.Metrics.RollResponse!, inner.Metrics.RollResponse!);
        Assert.Equal(
            Invariant($"In the corner from rest roll overshoots least with “Outer”, by {100 * least.Overshoot:F0} % to {Deg(least.PeakAngle):F1} deg, and most with “Inner”, by {100 * most.Overshoot:F0} % to {Deg(most.PeakAngle):F1} deg; steady is {Deg(least.SteadyAngle):F1} deg."),
            sentences[2]);
        Assert.Contains(sentences, sentence => sentence.StartsWith("When phase “corner” begins at 0.80 s, the body still swings from before: with “Inner” by ", StringComparison.Ordinal));
        Assert.Contains(sentences, sentence => sentence.StartsWith("Over the bump", StringComparison.Ordinal));
    }

    [Fact] // 300 kN·s/m: past the setting at which roll damping is greatest, more of it locks the suspension.
    public void Dampers_that_lock_the_suspension_are_not_called_a_gain_of_the_roll_ratio()
    {
        var sentences = Conclusions.Of(ShortScenario.Pair().With("dampers.plain.forceScale", 100).Run());

        Assert.Contains("The higher roll ratio, 0.80 against 0.30, damps roll less: these dampers are so hard that they lock the suspension, and the body rocks on its tyres.", sentences);
        Assert.DoesNotContain(sentences, sentence => sentence.Contains("The cause", StringComparison.Ordinal));
    }

    [Fact]
    public void A_turn_to_the_right_reads_as_one_to_the_left()
    {
        var left = Conclusions.Of(ShortScenario.Pair().With("manoeuvre.road", null).Run());
        var right = Conclusions.Of(ShortScenario.Pair().With("manoeuvre.road", null).With("manoeuvre.cornering.lateralAcceleration.events", Turn(-3)).Run());

        Assert.Equal(left, right);
    }

    [Fact]
    public void Layouts_alike_are_called_alike()
    {
        var sentences = Conclusions.Of(ShortScenario.Of(("A", 0.8), ("B", 0.8)).With("manoeuvre.duration_s", 4).Run());

        Assert.StartsWith("The roll damping ratio is similar with all layouts", sentences[0], StringComparison.Ordinal);
        Assert.StartsWith("In the corner from rest roll is similar with all layouts", sentences[1], StringComparison.Ordinal);
        Assert.StartsWith("Over the bump RMS vertical acceleration of the body is similar with all layouts", sentences[2], StringComparison.Ordinal);
        Assert.StartsWith("When phase “corner” begins", sentences[3], StringComparison.Ordinal);
        Assert.Equal(4, sentences.Count);
    }

    [Fact]
    public void Independent_suspension_says_that_one_ratio_serves_both()
    {
        var scenario = ShortScenario.Of(("Long", 0.8), ("Short", 0.5)).With("vehicle.suspension", "independent").With("vehicle.unsprung.axleRollInertia_kg_m2", null);
        foreach (var (layout, ratio) in scenario["layouts"]!.AsArray().Zip([0.8, 0.5]))
            layout!["placement"]!["motionRatios"]!["heave"] = ratio;
        scenario["vehicle"]!["springs"]!["placement"]!["motionRatios"]!["roll"] = 1;

        var sentences = Conclusions.Of(scenario.Run());

        Assert.Contains("while heave goes from", sentences[0], StringComparison.Ordinal);
        Assert.Equal("On independent suspension the ratio is the same in heave and in roll, so mounting and valving change both together.", sentences[1]);
    }

    [Fact]
    public void One_layout_is_described_by_itself()
    {
        var result = ShortScenario.Of(("Only", 0.8)).With("manoeuvre.duration_s", 5).Run();
        var response = result.Layouts[0].Metrics.RollResponse!;

        var sentences = Conclusions.Of(result);

        Assert.StartsWith("Damping ratios with “Only” at ", sentences[0], StringComparison.Ordinal);
        Assert.EndsWith(Invariant($"{100 * response.Overshoot:F0} % over its steady {Deg(response.SteadyAngle):F1} deg, settled {response.SettlingTime:F1} s after the corner began."), sentences[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Run_that_ends_early_and_instant_of_the_corner_change_nothing_that_is_said_of_the_corner()
    {
        string Corner(JsonObject scenario) => Assert.Single(Conclusions.Of(scenario.Run()), sentence => sentence.StartsWith("In the corner from rest", StringComparison.Ordinal));

        Assert.Equal(Corner(ShortScenario.Pair()), Corner(ShortScenario.Pair().With("manoeuvre.duration_s", 0.95)));
        Assert.Equal(Corner(ShortScenario.Pair()), Corner(ShortScenario.Pair().With("manoeuvre.road", JsonNode.Parse("""{ "random": { "class": "a", "leadIn_m": 2 } }""")).With("manoeuvre.duration_s", 3)));
    }

    [Fact]
    public void Corner_that_builds_up_slowly_has_the_overshoot_to_a_step_beside_it()
    {
        var result = ShortScenario.Pair().With("manoeuvre.cornering.lateralAcceleration.events", Turn(3, 0.9)).Run();

        var sentence = Assert.Single(Conclusions.Of(result), sentence => sentence.StartsWith("This corner takes 0.90 s to build up", StringComparison.Ordinal));

        foreach (var layout in result.Layouts)
            Assert.Contains(Invariant($"{100 * layout.Metrics.RollResponse!.OvershootToStep:F0} % with “{layout.Name}”"), sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void No_cornering_and_no_bump_leave_only_the_damping()
    {
        var sentences = Conclusions.Of(ShortScenario.Pair().With("manoeuvre.road", null).With("manoeuvre.cornering", null).Run());

        Assert.Equal(2, sentences.Count);
        Assert.StartsWith("The roll damping ratio", sentences[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Wheel_lift_comes_first_and_names_the_layouts()
    {
        // Beyond the tip-over limit for a moment: a sine of 8.5 m/s² at 1 Hz.
        var scenario = ShortScenario.Of(("Outer", 0.8), ("Centre", 0)).With("manoeuvre.cornering.lateralAcceleration.events",
            new JsonArray(JsonNode.Parse("""{ "start_s": 0.2, "amplitude_m_per_s2": 8.5, "sine": { "frequency_Hz": 1, "cycles": 1 } }""")));
        var result = scenario.Run();
        var lifting = result.Layouts.Where(layout => layout.Metrics.Whole.LiftOffTime > 0).Select(layout => $"“{layout.Name}”").ToArray();

        Assert.NotEmpty(lifting);
        Assert.Equal($"A WHEEL LIFTS in the corner with {string.Join(", ", lifting)}: rollover risk.", Conclusions.Of(result)[0]);
        Assert.All(result.Layouts.Where(layout => layout.Metrics.Whole.LiftOffTime > 0), layout => Assert.Contains(RunWarnings.Of(result.Study, layout), warning => warning.Contains("ROLLOVER RISK", StringComparison.Ordinal)));
    }

    [Fact]
    public void Wheel_that_hops_over_a_bump_on_the_straight_is_no_rollover_risk()
    {
        var scenario = ShortScenario.Of(("Outer", 0.8)).With("manoeuvre.cornering", null)
            .With("manoeuvre.road.events", JsonNode.Parse("""[ { "start_m": 1, "side": "left", "bump": { "length_m": 1, "height_mm": 80 } } ]"""));
        var result = scenario.Run();
        var layout = result.Layouts[0];

        Assert.False(layout.Metrics.LiftsWhileCornering);
        Assert.All(layout.Metrics.WheelLifts, lift => Assert.Equal((RollRide.Mounting.Side.Left, 0), (lift.Side, lift.LateralAcceleration)));
        Assert.Equal(layout.Metrics.Whole.LiftOffTimeLeft, layout.Metrics.WheelLifts.Sum(lift => lift.Duration), 1e-12);
        Assert.True(layout.Metrics.Whole.LiftOffTimeLeft > 0);
        Assert.StartsWith("Driving straight a wheel leaves the road with “Outer”, for up to", Conclusions.Of(result)[0], StringComparison.Ordinal);
        Assert.StartsWith(Invariant($"The left side left the road for {layout.Metrics.Whole.LiftOffTimeLeft:F3} s while driving straight (0.00 m/s²), first at"), RunWarnings.Of(result.Study, layout)[0], StringComparison.Ordinal);
        Assert.Contains("in phase “bump”", RunWarnings.Of(result.Study, layout)[0], StringComparison.Ordinal);
        Assert.DoesNotContain(RunWarnings.Of(result.Study, layout), warning => warning.Contains("ROLLOVER", StringComparison.Ordinal));
    }

    [Fact]
    public void Corner_without_a_stable_position_is_a_rollover_risk()
    {
        // Past the static limit, but the run ends before the vehicle is over.
        var result = ShortScenario.Pair().With("manoeuvre.duration_s", 1).With("manoeuvre.cornering.lateralAcceleration.events", Turn(14)).Run();

        Assert.Contains("The corner leaves NO STABLE POSITION with “Outer”, “Inner”: rollover risk.", Conclusions.Of(result));
        Assert.All(result.Layouts, layout => Assert.Contains(RunWarnings.Of(result.Study, layout), warning => warning.Contains("no stable position", StringComparison.Ordinal)));
    }

    private static JsonArray Turn(double ay, double ramp = 0.2) => new(JsonNode.Parse(Invariant($$"""{ "start_s": 0.8, "amplitude_m_per_s2": {{ay}}, "rampStep": { "rampDuration_s": {{ramp}} } }""")));

    private static double Deg(double? rad) => Math.Abs(rad!.Value) * 180 / Math.PI;

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    [Fact] // A kerb of 80 mm on a smooth road jolts whatever the dampers' place.
    public void Ride_names_its_obstacles_and_every_layout_that_jolts()
    {
        var result = ShortScenario.Pair()
            .With("manoeuvre.road", JsonNode.Parse("""{ "random": { "class": "a" }, "events": [ { "start_m": 60, "side": "left", "bump": { "length_m": 0.5, "height_mm": 80 } } ] }"""))
            .With("manoeuvre.cornering", null).With("manoeuvre.duration_s", 9).Run();

        Assert.All(result.Layouts, layout => Assert.True(layout.Ride!.WorstSeat.Vertical.NeedsAdditionalMeasures));
        var sentences = Conclusions.Of(result);
        Assert.Contains(sentences, sentence => sentence.StartsWith("On the random road with its obstacles, 4.3 to 9 s, weighted acceleration", StringComparison.Ordinal));
        Assert.Contains(sentences, sentence => sentence.StartsWith("With “Outer”, “Inner” single jolts stand out", StringComparison.Ordinal));
        Assert.All(result.Layouts, layout => Assert.Contains("No spectrum of the ride: 4.75 s are measured, and a spectrum needs 6.40 s. Lengthen the run.", RunWarnings.Of(result.Study, layout)));
    }
}
