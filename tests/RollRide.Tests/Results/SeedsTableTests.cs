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
}
