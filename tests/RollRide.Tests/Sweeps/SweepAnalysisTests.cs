using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Results;
using RollRide.Sweeps;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Sweeps;

public class SweepAnalysisTests
{
    [Fact]
    public void Statistics_are_those_of_the_values()
    {
        // 1 to 5 with a gap: mean 3, deviation √2.5, percentiles by interpolation between order statistics (type 7).
        var found = MetricStatistics.Of([5, 1, double.NaN, 4, 2, 3]);
        Assert.Equal((5, 3.0, 1.0, 3.0, 5.0), (found.Count, found.Mean, found.Minimum, found.Median, found.Maximum));
        Assert.Equal(Math.Sqrt(2.5), found.Deviation, 1e-14);
        Assert.Equal(1.2, found.Percentile5, 1e-14);
        Assert.Equal(4.8, found.Percentile95, 1e-14);
        Assert.Equal(0, MetricStatistics.Of([double.NaN]).Count);
    }

    [Fact]
    public void Findings_of_a_table_just_written_are_those_of_its_file()
    {
        using var trial = SweepTrial.Twelve();
        var written = new SweepTable(trial["out"], trial.Plan, SweepShare.Whole);
        written.Fill(written.Prepare(resume: false), 2, cancellation: TestContext.Current.CancellationToken);
        static string Of(SweepTrial trial, SweepTable table)
        {
            using var text = new StringWriter();
            var analysis = table.Analyse(TestContext.Current.CancellationToken);
            SweepStatisticsTable.Write(text, analysis);
            SweepDriversTable.Write(text, analysis);
            return text.ToString();
        }

        Assert.Equal(Of(trial, new SweepTable(trial["out"], trial.Plan, SweepShare.Whole)), Of(trial, written));
    }

    [Fact]
    public void Load_transfer_driven_by_one_input_alone_is_recognised()
    {
        // The roll ratio of the layout is the input itself; the spring's rate does not touch it.
        using var trial = new SweepTrial(
            $$"""
            { "design": "sensitivity", "samples": 8, "parameters": [
              { "path": "layouts[Outer].placement.motionRatios.roll", "uniform": { "from": 0.4, "to": 0.8 } },
              { "path": "{{SweepTrial.Rate}}", "normal": { "mean": 50, "deviation": 2 } } ],
              "metrics": ["rollRatio"], "targets": [ { "metric": "rollRatio", "atMost": 0.6 } ] }
            """);
        var analysis = trial.Analyse();
        var outer = analysis.GroupOf(0, 0).Metrics.First(finding => finding.Metric.Key == "rollRatio");
        var inner = analysis.GroupOf(0, 1).Metrics.First(finding => finding.Metric.Key == "rollRatio");

        Assert.Equal(16, outer.Statistics.Count);
        Assert.Equal(1, outer.Influences[0].RankCorrelation, 1e-12);
        Assert.Equal(1, outer.Influences[0].FirstOrder!.Value, 1e-12);
        // The input that does nothing has a total index of exactly zero. Its first-order index is estimated as 1 − Σ(fB − fA)²/(2NV) (Jansen 1999),
        // since taking it from B leaves A as it was: known from the eight samples of A and B themselves, which stand first in each block of four.
        Assert.Equal(0, outer.Influences[1].Total!.Value, 1e-12);
        var blocks = analysis.ValuesOf(0, 0, 0).Chunk(4).ToArray();
        double[] both = [.. blocks.SelectMany(block => block.Take(2))];
        var variance = both.Average(value => value * value) - (both.Average() * both.Average());
        Assert.Equal(1 - (blocks.Average(block => Math.Pow(block[1] - block[0], 2)) / (2 * variance)), outer.Influences[1].FirstOrder!.Value, 1e-12);
        Assert.All(blocks, block => Assert.Equal((block[0], block[1]), (block[3], block[2]))); // the roll ratio comes from B in the third alone
        // Half of a uniform distribution lies above its middle, in a Sobol sample of 2³ points exactly.
        Assert.Equal(0.5, outer.Misses[0].Share);
        // All equal: rounding of the mean.
        Assert.Equal(0, inner.Statistics.Deviation, 1e-15);
        Assert.True(double.IsNaN(inner.Influences[0].RankCorrelation));
    }

    [Fact]
    public void Undefined_values_count_as_missing_the_target_and_not_in_the_statistics()
    {
        using var trial = new SweepTrial(
            $$"""
            { "parameters": [ { "path": "{{SweepTrial.Rate}}", "values": [-1, 40, 50, 60] } ],
              "targets": [ { "metric": "rollAngleSteady_deg", "atLeast": -90 } ] }
            """);
        var group = trial.Analyse().GroupOf(0, 0);
        var finding = group.Metrics.First(finding => finding.Metric.Key == "rollAngleSteady_deg");

        Assert.Equal((4, 1, 3, 0.25), (group.Variants, group.Failed, finding.Statistics.Count, finding.Misses[0].Share));
    }

    [Fact]
    public void Swings_are_in_order_of_their_extent()
    {
        using var trial = new SweepTrial(
            $$"""
            { "design": "oneAtATime", "metrics": ["rollRatio"], "parameters": [
              { "path": "{{SweepTrial.Rate}}", "values": [40, 60] },
              { "path": "layouts[0].placement.motionRatios.roll", "values": [0.9, 0.6, 0.7] } ] }
            """);
        var swings = trial.Analyse().SwingsOf(0, 0, 0);

        Assert.Equal(["layouts[0].placement.motionRatios.roll", SweepTrial.Rate], swings.Select(swing => swing.Parameter.Name));
        Assert.Equal((0.8, 0.6, 0.9), (swings[0].Base, swings[0].Lowest, swings[0].Highest));
        Assert.Equal(0.3, swings[0].Extent, 1e-12);
        Assert.Equal(0, swings[1].Extent);
    }

    [Fact]
    public void Conclusions_name_targets_spread_and_driver()
    {
        using var trial = SweepTrial.Twelve();
        var analysis = trial.Analyse();
        var sentences = SweepConclusions.Of(analysis);

        // The very sentences, from the numbers of the analysis.
        var (outer, inner) = (Finding(0), Finding(1));
        MetricFinding Finding(int layout) => analysis.GroupOf(0, layout).Metrics.First(finding => finding.Metric.Key == "bodyAccelerationRms_m_per_s2");
        var misses = new[] { (Layout: "Outer", outer.Misses[0].Misses), (Layout: "Inner", inner.Misses[0].Misses) }.OrderBy(miss => miss.Misses).GroupBy(miss => miss.Misses)
            .Select(same => $"{(same.Key == 0 ? "met by all 12" : $"missed by {same.Key} of 12")} variants with {string.Join(" and ", same.Select(miss => $"“{miss.Layout}”"))}");
        Assert.Contains($"Target “Body acceleration, RMS at most 0.5 m/s²”: {string.Join("; ", misses)}.", sentences);

        // Four times the damping changes body acceleration over a bump more than half as much again of the springs does.
        var driver = Assert.Single(sentences, sentence => sentence.StartsWith("Body acceleration, RMS is driven most by ", StringComparison.Ordinal));
        Assert.Contains(FormattableString.Invariant($"by “plain, force scale” with every layout (rank correlation {outer.Influences[1].RankCorrelation:F2}"), driver, StringComparison.Ordinal);
        Assert.DoesNotContain(sentences, sentence => sentence.Contains("NaN", StringComparison.Ordinal));
    }

    [Fact]
    public void Layouts_are_compared_at_equal_load()
    {
        using var trial = new SweepTrial(
            """
            { "targets": [ { "metric": "bodyAccelerationRms_m_per_s2", "atMost": 0.5 } ] }
            """,
            loadStates: """{ "kerb": { "mass_kg": 900 }, "full": { "mass_kg": 1500 } }""");
        var analysis = trial.Analyse();
        var sentences = SweepConclusions.Of(analysis);

        foreach (var (state, name) in new[] { (0, "kerb"), (1, "full") })
        {
            var target = Assert.Single(sentences, sentence => sentence.StartsWith($"Target “Body acceleration, RMS at most 0.5 m/s²” in load state “{name}”: ", StringComparison.Ordinal));
            var spread = Assert.Single(sentences, sentence => sentence.StartsWith($"Body acceleration, RMS in load state “{name}”: ", StringComparison.Ordinal));
            foreach (var (layout, place) in new[] { ("Outer", 0), ("Inner", 1) })
            {
                var value = analysis.ValuesOf(0, state, place)[0];
                Assert.Contains(FormattableString.Invariant($"{value:F3} to {value:F3} m/s² with “{layout}”"), spread, StringComparison.Ordinal);
                Assert.Matches($"{(value > 0.5 ? "missed" : "met")} by all 1 variants with [^;]*“{layout}”", target);
            }
        }
    }

    [Theory] // A bump of 150 mm throws a wheel off the road; the corner comes when it is down again, and with a high centre of gravity lifts the other side.
    [InlineData(800, "Driving straight a wheel leaves the road in some variants with “", "rollover risk")]
    [InlineData(2000, "A WHEEL LIFTS in the corner in some variants with “Outer”; “Inner”: rollover risk.", "Driving straight")]
    public void A_hop_driving_straight_is_no_rollover_risk(int cgHeight, string said, string unsaid)
    {
        using var trial = new SweepTrial(
            $$"""{ "parameters": [ { "path": "{{SweepTrial.Rate}}", "values": [49, 50] } ] }""",
            scenario => scenario
                .With("manoeuvre.duration_s", 2)
                .With("vehicle.body.cgHeight_mm", cgHeight)
                .With("manoeuvre.road.events", JsonNode.Parse("""[ { "start_m": 1, "side": "left", "bump": { "length_m": 2, "height_mm": 150 } } ]"""))
                .With("manoeuvre.cornering.lateralAcceleration", JsonNode.Parse("""{ "events": [ { "start_s": 1.2, "amplitude_m_per_s2": 3.5, "rampStep": { "rampDuration_s": 0.2 } } ] }""")));
        var sentences = SweepConclusions.Of(trial.Analyse());
        Assert.Contains(sentences, sentence => sentence.StartsWith(said, StringComparison.Ordinal));
        Assert.DoesNotContain(sentences, sentence => sentence.Contains(unsaid, StringComparison.Ordinal));
    }

    [Fact]
    public void Noise_has_no_driver()
    {
        // Damping and springs do not touch a motion ratio; nothing moves. Of ten samples a correlation of 0.6 is chance.
        using var still = new SweepTrial(Sampled("rollRatio", SweepTrial.Rate, SweepTrial.Scale));
        Assert.DoesNotContain(SweepConclusions.Of(still.Analyse()), sentence => sentence.Contains("is driven most", StringComparison.Ordinal));

        // A spring rate that is known to a millionth moves nothing that is shown.
        using var tiny = new SweepTrial(Sampled("rollAngleSteady_deg", SweepTrial.Rate, SweepTrial.Scale).Replace("40,", "49.99999,", StringComparison.Ordinal).Replace("60 }", "50.00001 }", StringComparison.Ordinal));
        Assert.DoesNotContain(SweepConclusions.Of(tiny.Analyse()), sentence => sentence.Contains("is driven most", StringComparison.Ordinal));

        using var real = new SweepTrial(Sampled("rollAngleSteady_deg", SweepTrial.Rate, SweepTrial.Scale));
        Assert.Contains(SweepConclusions.Of(real.Analyse()), sentence => sentence.StartsWith("Roll angle, steady is driven most by “springs, rate” ", StringComparison.Ordinal));
    }

    [Fact]
    public void None_of_ten_samples_is_not_no_vehicle_at_all()
    {
        using var trial = new SweepTrial(Sampled("rollAngleSteady_deg", SweepTrial.Rate, SweepTrial.Scale, "\"targets\": [ { \"metric\": \"rollAngleSteady_deg\", \"atMost\": 90 } ],"));
        Assert.Contains(SweepConclusions.Of(trial.Analyse()), sentence =>
            sentence.Contains("met by all 10 samples with “Outer” and “Inner” (at most 25.9 % of the vehicles miss it, with 95 % confidence)", StringComparison.Ordinal));
    }

    [Fact]
    public void Sobol_indices_say_how_many_samples_they_rest_on()
    {
        // Below 0 a rate is refused: about half of the points fail, and with them the samples they belong to.
        using var trial = new SweepTrial(
            $$"""
            { "design": "sensitivity", "samples": 16, "metrics": ["rollAngleSteady_deg"], "parameters": [
              { "path": "{{SweepTrial.Rate}}", "uniform": { "from": -20, "to": 60 } },
              { "path": "{{SweepTrial.Scale}}", "uniform": { "from": 0.5, "to": 2 } } ] }
            """);
        var analysis = trial.Analyse();
        var influence = analysis.GroupOf(0, 0).Metrics.First(finding => finding.Metric.Key == "rollAngleSteady_deg").Influences[0];
        var values = analysis.ValuesOf(0, 0, 0);
        var whole = values.Chunk(4).Count(block => !block.Any(double.IsNaN));

        Assert.InRange(whole, 1, 15);
        Assert.Equal(whole, influence.Samples);
        Assert.Equal(values.Chunk(4).Sum(block => block.Take(2).Count(value => !double.IsNaN(value))), influence.Points);
        Assert.Contains(SweepConclusions.Of(analysis), sentence => sentence.Contains($"{whole} of 16 with “Outer”", StringComparison.Ordinal) && sentence.StartsWith("The Sobol indices", StringComparison.Ordinal));
    }

    private static string Sampled(string metric, string first, string second, string more = "") =>
        $$"""
        { "design": "latinHypercube", "samples": 10, "metrics": ["{{metric}}"], {{more}} "parameters": [
          { "path": "{{first}}", "uniform": { "from": 40, "to": 60 } },
          { "path": "{{second}}", "uniform": { "from": 0.5, "to": 2 } } ] }
        """;
}
