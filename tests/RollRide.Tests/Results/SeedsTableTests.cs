using System.Text.Json.Nodes;
using RollRide.Results;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Results;

public class SeedsTableTests
{
    [Fact] // The corner from rest is driven on a smooth road: it has no mean over roads. What the manoeuvre does has.
    public void Roll_of_the_manoeuvre_is_averaged_over_the_roads_and_the_corner_from_rest_is_left_out()
    {
        var scenario = ShortScenario.Pair()
            .With("manoeuvre.road", JsonNode.Parse("""{ "random": { "class": "a", "leadIn_m": 2 } }"""))
            .With("manoeuvre.duration_s", 5)
            .With("manoeuvre.cornering", JsonNode.Parse("""{ "lateralAcceleration": { "events": [ { "start_s": 3, "amplitude_m_per_s2": 3, "rampStep": { "rampDuration_s": 0.2 } } ] } }"""));
        var study = scenario.Read().Study;
        var layouts = RideStudy.Run(study, 3, cancellation: TestContext.Current.CancellationToken);
        using var output = new StringWriter();
        SeedsTable.Write(output, [new ComparisonFindings(Comparison.Run(study, cancellation: TestContext.Current.CancellationToken)) { Seeds = layouts }]);

        var mean = layouts[0].Runs.Average(run => run.Metrics.Whole.RollAnglePeak) * 180 / Math.PI;
        var row = output.ToString().Split('\n').Single(line => line.StartsWith("Outer,run,rollAngleLargest_deg,3,", StringComparison.Ordinal)).Split(',');
        Assert.DoesNotContain("rollOvershoot", output.ToString(), StringComparison.Ordinal);
        Assert.Equal(mean, double.Parse(row[4], System.Globalization.CultureInfo.InvariantCulture), 1e-9); // rounding of a mean of three
    }

    [Fact] // A worn damper on the right of a road is one on the left of its mirror image; the decision has the worse of both, road by road.
    public void Unlike_sides_meet_each_road_and_its_mirror_image()
    {
        var scenario = ShortScenario.Of(("Worn", 0.8))
            .With("manoeuvre.road", JsonNode.Parse("""{ "random": { "class": "b", "leadIn_m": 2 } }"""))
            .With("manoeuvre.duration_s", 5);
        scenario["dampers"]!["worn"] = JsonNode.Parse("""{ "curve": { "velocity_m_per_s": [-1, 0, 1], "force_N": [-600, 0, 600] } }""");
        scenario["manoeuvre"]!.AsObject().Remove("cornering");
        scenario["layouts"]![0]!["right"] = JsonNode.Parse("""{ "damper": "worn" }""");
        var turned = (JsonObject)scenario.DeepClone();
        turned["layouts"]![0]!.AsObject().Remove("right");
        turned["layouts"]![0]!["left"] = JsonNode.Parse("""{ "damper": "worn" }""");
        var cancellation = TestContext.Current.CancellationToken;
        var (study, other) = (scenario.Read().Study, turned.Read().Study);
        var (seeds, of) = (RideStudy.Run(study, 3, cancellation: cancellation), RideStudy.Run(other, 3, cancellation: cancellation));

        // The car with the other side worn, over the mirrored roads, is the mirror image of this one over the roads.
        Assert.All(seeds[0].Runs.Zip(of[0].Runs), pair => Assert.Equal(pair.First.Ride.DynamicLoadCoefficient, MirroredRoad(pair.Second), 1e-3 * pair.First.Ride.DynamicLoadCoefficient));
        var state = new ComparisonFindings(Comparison.Run(study, cancellation: cancellation)) { Seeds = seeds };
        var quantity = DecidingQuantity.Of(study).First(quantity => quantity.Name == "least tyre load");
        Assert.Equal(seeds[0].Runs.Average(run => Math.Min(run.Metrics.Whole.TyreLoadMinimum, run.Mirrored!.Metrics.Whole.TyreLoadMinimum)), quantity.In(state, 0)!.Value, 1e-9);
        Assert.True(seeds[0].Runs.Any(run => Math.Abs(run.Metrics.Whole.TyreLoadMinimum - run.Mirrored!.Metrics.Whole.TyreLoadMinimum) > 10), "The two ways differ.");
        using var output = new StringWriter();
        SeedsTable.Write(output, [state]);
        Assert.Contains("Worn,\"run, mirrored\",tyreLoadMinimum_N,3,", output.ToString(), StringComparison.Ordinal);

        static double MirroredRoad(SeededRun run) => run.Mirrored!.Ride.DynamicLoadCoefficient;
    }
}
