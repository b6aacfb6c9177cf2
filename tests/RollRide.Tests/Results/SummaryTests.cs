using System.Text.Json;
using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Results;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Results;

public class SummaryTests
{
    private static readonly ComparisonResult Pair = ShortScenario.Pair().Run();

    [Fact]
    public void Summary_begins_with_where_its_numbers_come_from()
    {
        var summary = Of(Pair);

        Assert.Equal("RollRide", (string?)summary["program"]);
        Assert.Equal(Provenance.ProgramVersion, (string?)summary["version"]);
        Assert.Equal("Short", (string?)summary["scenario"]!["name"]);
        Assert.Equal("short.json", (string?)summary["scenario"]!["file"]);
        Assert.Matches("^[0-9a-f]{64}$", (string?)summary["scenario"]!["sha256"]);
        Assert.Equal(3e-8, (double)summary["solver"]!["relativeTolerance"]!);
        Assert.Equal(Cautions.All, summary["cautions"]!.AsArray().Select(text => (string?)text));
        Assert.Equal(Conclusions.Of(Pair), summary["conclusions"]!.AsArray().Select(text => (string?)text));
        Assert.Equal(["something odd"], summary["warnings"]!.AsArray().Select(text => (string?)text));
    }

    [Fact]
    public void Each_layout_has_its_name_ratios_and_four_modes()
    {
        var layouts = Of(Pair)["layouts"]!.AsArray();

        Assert.Equal(["Outer", "Inner"], layouts.Select(layout => (string?)layout!["name"]));
        Assert.Equal([0.8, 0.3], layouts.Select(layout => (double)layout!["motionRatios"]!["roll"]!));
        Assert.All(layouts, layout => Assert.Equal(1.0, (double)layout!["motionRatios"]!["heave"]!));
        foreach (var (layout, result) in layouts.Zip(Pair.Layouts))
        {
            var modes = layout!["modes"]!.AsArray();
            Assert.Equal(["heave", "roll", "hop", "tramp"], modes.Select(mode => (string?)mode!["name"]));
            Assert.Equal(result.ReferenceModes.All.Select(mode => mode.NaturalFrequency), modes.Select(mode => (double)mode!["naturalFrequency_Hz"]!));
            Assert.Equal(result.ReferenceModes.All.Select(mode => mode.DampingRatio), modes.Select(mode => (double)mode!["dampingRatio"]!));
        }
    }

    [Fact]
    public void Histogram_adds_up_to_both_dampers_over_the_run()
    {
        var histogram = Of(Pair)["layouts"]![0]!["metrics"]!["velocityHistogram"]!;

        // Two dampers over 2 s; rounding of some thousand sums.
        Assert.Equal(4, histogram["time_s"]!.AsArray().Sum(time => (double)time!), 1e-9);
        Assert.Equal(Pair.Layouts[0].Metrics.Whole.DamperEnergy, histogram["energy_J"]!.AsArray().Sum(energy => (double)energy!), 1e-6);
    }

    [Fact]
    public void What_is_not_defined_is_null_and_no_number_is_infinite()
    {
        var still = ShortScenario.Pair().With("manoeuvre.road", null).With("manoeuvre.cornering", null).Run();

        var text = Text(still);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", text, StringComparison.Ordinal);
        var metrics = JsonNode.Parse(text)!["layouts"]![0]!["metrics"]!.AsObject();
        Assert.False(metrics.ContainsKey("rollAngleSteady_deg"));
        Assert.Empty(JsonNode.Parse(text)!["layouts"]![0]!["phases"]!.AsObject());

        // With next to no damping ten seconds are too short to settle.
        var moving = Of(ShortScenario.Pair().With("dampers.plain.forceScale", 0.05).Run())["layouts"]![1]!["metrics"]!.AsObject();
        Assert.True(moving.ContainsKey("rollSettlingTime_s"));
        Assert.Null(moving["rollSettlingTime_s"]);
    }

    [Fact]
    public void Names_come_through_as_they_are()
    {
        var odd = ShortScenario.Of(("<b>\"Å\" \\ 1", 0.5)).Run();

        Assert.Equal("<b>\"Å\" \\ 1", (string?)Of(odd)["layouts"]![0]!["name"]);
    }

    private static JsonNode Of(ComparisonResult result) => JsonNode.Parse(Text(result), documentOptions: new JsonDocumentOptions { AllowDuplicateProperties = false })!;

    private static string Text(ComparisonResult result)
    {
        using var output = new StringWriter();
        Summary.Write(output, [new ComparisonFindings(result)], ["something odd"]);
        return output.ToString();
    }
}
