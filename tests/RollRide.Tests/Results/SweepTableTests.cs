using System.Globalization;
using RollRide.DataFiles;
using RollRide.Metrics;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Sweeps;
using RollRide.Tests.Studies;
using RollRide.Tests.Sweeps;

namespace RollRide.Tests.Results;

public class SweepTableTests
{
    [Fact]
    public void Sweep_of_one_variant_equals_a_comparison_to_the_last_digit()
    {
        using var trial = new SweepTrial($$"""{ "parameters": [ { "path": "{{SweepTrial.Rate}}", "values": [50] } ] }""");
        var rows = trial.Run("out").TrimEnd('\n').Split('\n').Select(line => line.Split(',')).ToArray();
        var result = Comparison.Run(trial.Template.Scenario.Study, cancellation: TestContext.Current.CancellationToken);

        Assert.Equal(3, rows.Length);
        foreach (var (layout, row) in result.Layouts.Zip(rows.Skip(1)))
        {
            string Field(string column) => row[Array.IndexOf(rows[0], column)];
            Assert.Equal(layout.Name, Field("layout"));
            Assert.Equal("50", Field(SweepTrial.Rate));
            Assert.All(RollMetric.All, metric => Assert.Equal(Text(metric.Shown(layout.Metrics)), Field(metric.Key)));
            Assert.All(PhaseMetric.All, metric => Assert.Equal(Text(metric.Shown(layout.Metrics.Whole)), Field(metric.Key)));
            foreach (var phase in layout.Metrics.Phases)
                Assert.All(PhaseMetric.All, metric => Assert.Equal(Text(metric.Shown(phase)), Field($"{phase.Name}.{metric.Key}")));
            Assert.Equal(Text(layout.ReferenceModes.Roll.DampingRatio), Field("rollDampingRatio"));
        }
    }

    [Fact]
    public void Table_does_not_depend_on_the_number_of_threads()
    {
        using var trial = SweepTrial.Twelve();
        Assert.Equal(trial.Run("one", threads: 1), trial.Run("many", threads: 5));
    }

    [Fact]
    public void Table_has_a_row_a_variant_and_layout_inputs_before_outputs()
    {
        using var trial = SweepTrial.Twelve();
        var lines = trial.Run("out").TrimEnd('\n').Split('\n');

        Assert.Equal(1 + (12 * 2), lines.Length);
        Assert.StartsWith($"variant,loadState,layout,failure,warnings,{SweepTrial.Rate},{SweepTrial.Scale},heaveRatio,rollRatio,", lines[0], StringComparison.Ordinal);
        Assert.Contains(",bump.bodyAccelerationRms_m_per_s2,", lines[0], StringComparison.Ordinal);
        Assert.StartsWith("4,,Outer,,0,46.666666666666664,1,", lines[9], StringComparison.Ordinal);
    }

    [Fact]
    public void Shares_joined_are_the_whole_however_many()
    {
        using var trial = SweepTrial.Twelve();
        var whole = trial.Run("whole");
        foreach (var count in (int[])[3, 20])
        {
            SweepShare[] shares = [.. Enumerable.Range(1, count).Select(i => new SweepShare(i, count))];
            foreach (var share in shares.Reverse())
                trial.Run("shares", share);

            var joined = new SweepTable(trial["joined"], trial.Plan, SweepShare.Whole);
            joined.Join([.. shares.Select(share => new SweepTable(trial["shares"], trial.Plan, share))]);

            Assert.Equal(whole, File.ReadAllText(joined.FullPath));
        }
    }

    [Fact]
    public void Table_broken_off_anywhere_is_resumed_to_the_same_bytes()
    {
        using var trial = SweepTrial.Twelve();
        var whole = trial.Run("out");
        var path = Path.Combine(trial["out"], "sweep.csv");
        foreach (var share in (double[])[0.05, 0.77, 0.999, 1])
        {
            File.WriteAllText(path, whole[..(int)(share * whole.Length)]);
            Assert.Equal(whole, trial.Run("out", resume: true));
        }
    }

    [Fact]
    public void Rows_kept_by_a_resume_are_not_run_again()
    {
        using var trial = SweepTrial.Twelve();
        trial.Run("out");
        var path = Path.Combine(trial["out"], "sweep.csv");
        // Changed in length, so that it is seen which rows were kept.
        File.WriteAllText(path, File.ReadAllText(path).Replace("\n0,,Outer,,0,", "\n0,,Outer,,99,", StringComparison.Ordinal)[..^20]);

        Assert.Contains("\n0,,Outer,,99,", trial.Run("out", resume: true), StringComparison.Ordinal);
    }

    [Fact]
    public void Stopping_keeps_whole_variants_and_resuming_completes_them()
    {
        using var trial = SweepTrial.Twelve();
        var whole = trial.Run("whole");
        var table = new SweepTable(trial["out"], trial.Plan, SweepShare.Whole);
        using var stop = new CancellationTokenSource();

        Assert.Throws<OperationCanceledException>(() => table.Fill(table.Prepare(false), 2, new StopAt(3, stop), cancellation: stop.Token));

        var kept = File.ReadAllText(table.FullPath);
        Assert.StartsWith(kept, whole, StringComparison.Ordinal);
        Assert.EndsWith("\n", kept, StringComparison.Ordinal);
        Assert.InRange(kept.Count(c => c == '\n'), 1 + (3 * 2), 12 * 2);
        Assert.Equal(whole, trial.Run("out", resume: true));
    }

    [Fact]
    public void Unfinished_table_is_not_thrown_away_without_being_asked()
    {
        using var trial = SweepTrial.Twelve();
        trial.Run("out");
        var path = Path.Combine(trial["out"], "sweep.csv");
        File.WriteAllText(path, File.ReadAllText(path)[..^20]);

        var fault = Assert.Throws<DataFileException>(() => trial.Run("out"));
        Assert.Contains("11 of 12 variants", fault.Message, StringComparison.Ordinal);
        Assert.Contains("--resume", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Rows_of_another_sweep_are_not_thrown_away_without_being_asked(bool whole)
    {
        // Another damper scale than the sweep that is there, which is finished or was broken off.
        using var trial = SweepTrial.Twelve();
        var rows = trial.Run("out");
        var path = Path.Combine(trial["out"], "sweep.csv");
        if (!whole)
            File.WriteAllText(path, rows = rows[..^20]);
        var other = SweepPlanReader.Read(trial.Template, trial.Template.Sweep! with { Parameters = [.. trial.Template.Sweep!.Parameters.Take(1)] });
        var table = new SweepTable(trial["out"], other, SweepShare.Whole);

        foreach (var resume in (bool[])[false, true])
        {
            var fault = Assert.Throws<DataFileException>(() => table.Prepare(resume)).Message;
            Assert.Contains("rows of another sweep are there", fault, StringComparison.Ordinal);
            Assert.Contains("--overwrite", fault, StringComparison.Ordinal);
        }

        Assert.Contains("rows of another sweep", Assert.Throws<DataFileException>(() => table.Join([])).Message, StringComparison.Ordinal);
        Assert.Equal(rows, File.ReadAllText(path));

        Assert.Equal(0, table.Prepare(resume: false, overwrite: true));
        Assert.Single(File.ReadAllLines(path));
    }

    [Fact]
    public void Rows_are_forced_to_the_disk_every_five_seconds_and_at_the_end()
    {
        using var trial = SweepTrial.Twelve();
        var table = new SweepTable(trial["out"], trial.Plan, SweepShare.Whole);
        var clock = new SteppingClock();
        table.Prepare(resume: false);

        table.Append(0, append =>
        {
            for (var variant = 0L; variant < 12; variant++)
            {
                // Two seconds each: due after the third, the sixth, …, and once more at the end.
                clock.Advance(TimeSpan.FromSeconds(2));
                var results = VariantResult.Run(trial.Plan, variant, 1);
                append(results, table.RowsOf(results));
                Assert.Equal((variant + 1) / 3, table.DiskFlushes);
            }
        }, clock);

        Assert.Equal(5, table.DiskFlushes);
    }

    [Fact]
    public void Rows_that_a_power_cut_left_as_zeros_are_run_again()
    {
        using var trial = SweepTrial.Twelve();
        var whole = trial.Run("out");
        var path = Path.Combine(trial["out"], "sweep.csv");
        var bytes = File.ReadAllBytes(path);

        // Within the row of one variant: every line still begins with the number expected.
        var row = System.Text.Encoding.UTF8.GetString(bytes).IndexOf("\n5,", StringComparison.Ordinal);
        bytes.AsSpan(row + 40, 30).Clear();
        File.WriteAllBytes(path, bytes);

        Assert.Equal(5, new SweepTable(trial["out"], trial.Plan, SweepShare.Whole).Prepare(resume: true));
        Assert.Equal(whole, trial.Run("out", resume: true));
    }

    [Fact]
    public void Rows_without_a_record_are_not_thrown_away()
    {
        using var trial = SweepTrial.Twelve();
        var rows = trial.Run("out");
        File.Delete(Path.Combine(trial["out"], "sweep-plan.json"));

        foreach (var resume in (bool[])[false, true])
            Assert.Contains("nothing is there to say what they belong to", Assert.Throws<DataFileException>(() => trial.Run("out", resume: resume)).Message, StringComparison.Ordinal);
        Assert.Equal(rows, File.ReadAllText(Path.Combine(trial["out"], "sweep.csv")));
        Assert.Equal(rows, trial.Run("out", overwrite: true));
    }

    [Fact]
    public void Resume_of_rows_that_another_build_made_is_refused()
    {
        using var trial = SweepTrial.Twelve();
        trial.Run("out");
        var path = Path.Combine(trial["out"], "sweep-plan.json");
        var record = System.Text.Json.Nodes.JsonNode.Parse(File.ReadAllText(path))!;
        record["build"] = "00000000-0000-0000-0000-000000000000";
        File.WriteAllText(path, record.ToJsonString());

        Assert.Contains("another build of RollRide made it", Assert.Throws<DataFileException>(() => trial.Run("out", resume: true)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("scenario", "the scenario, or a file that it names, was changed since")]
    [InlineData("load state", "the scenario, or a file that it names, was changed since")]
    [InlineData("sweep", "another sweep")]
    [InlineData("preload", "another sweep: parameters, design, samples, seed, layouts, load states or preload")]
    public void Resume_against_something_else_is_refused(string what, string expected)
    {
        using var trial = SweepTrial.Twelve();
        trial.Run("out");
        var plan = what switch
        {
            "scenario" => Changed(trial, text => text + "\n"),
            "load state" => Changed(trial, text => text.Replace("\"dampers\":", "\"loadStates\": { \"kerb\": { \"mass_kg\": 900 } }, \"dampers\":", StringComparison.Ordinal)),
            "preload" => Kept(trial),
            _ => SweepPlanReader.Read(trial.Template, trial.Template.Sweep! with { Parameters = [.. trial.Template.Sweep!.Parameters.Take(1)] }),
        };
        var table = new SweepTable(trial["out"], plan, SweepShare.Whole);

        var before = File.ReadAllText(table.FullPath);
        Assert.Contains(expected, Assert.Throws<DataFileException>(() => table.Prepare(resume: true)).Message, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(table.FullPath));
    }

    [Fact]
    public void Joining_shares_that_set_the_springs_otherwise_is_refused()
    {
        using var trial = SweepTrial.Twelve();
        trial.Run("shares", new SweepShare(1, 1));

        var fault = Assert.Throws<DataFileException>(() => new SweepTable(trial["out"], Kept(trial), SweepShare.Whole)
            .Join([new SweepTable(trial["shares"], Kept(trial), new SweepShare(1, 1))]));
        Assert.Contains("load states or preload are not the same", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Joining_names_the_share_that_is_missing_or_not_whole()
    {
        using var trial = SweepTrial.Twelve();
        trial.Run("out", new SweepShare(1, 2));
        var whole = new SweepTable(trial["out"], trial.Plan, SweepShare.Whole);
        SweepTable[] shares = [new(trial["out"], trial.Plan, new SweepShare(1, 2)), new(trial["out"], trial.Plan, new SweepShare(2, 2))];

        Assert.Contains("share 2/2 is missing", Assert.Throws<DataFileException>(() => whole.Join(shares)).Message, StringComparison.Ordinal);

        trial.Run("out", new SweepShare(2, 2));
        File.WriteAllText(shares[1].FullPath, File.ReadAllText(shares[1].FullPath)[..^20]);
        Assert.Contains("share 2/2 has 5 of 6 variants", Assert.Throws<DataFileException>(() => whole.Join(shares)).Message, StringComparison.Ordinal);
        Assert.False(File.Exists(whole.FullPath));
    }

    [Fact]
    public void Failing_variants_are_rows_with_their_reasons()
    {
        // A negative rate is outside its limits; a centre of gravity at 4 m rolls over in the corner or cannot stand.
        using var trial = new SweepTrial(
            """{ "parameters": [ { "path": "vehicle.springs.rate_N_per_mm", "values": [-1, 50] }, { "path": "vehicle.body.cgHeight_mm", "values": [800, 4000] } ] }""");
        var rows = trial.Run("out").TrimEnd('\n').Split('\n')[1..];

        Assert.Equal(8, rows.Length);
        Assert.All(rows[..4], row => Assert.Contains("short.json:1: vehicle.springs.rate_N_per_mm = -1", row, StringComparison.Ordinal));
        Assert.All(rows[4..6], row => Assert.Contains(",,0,50,800,1,", row, StringComparison.Ordinal));
        Assert.All(rows[6..], row => Assert.EndsWith(",,,,", row, StringComparison.Ordinal));
        Assert.All(rows[6..], row => Assert.DoesNotContain(",,0,50,4000,1,", row, StringComparison.Ordinal));
        // The reason does not depend on where the scenario lies.
        Assert.All(rows, row => Assert.DoesNotContain(Path.GetDirectoryName(trial.ScenarioPath)!, row, StringComparison.Ordinal));
    }

    [Fact]
    public void Names_that_break_lines_do_not_break_rows()
    {
        using var trial = new SweepTrial(
            $$"""{ "parameters": [ { "path": "{{SweepTrial.Rate}}", "values": [40, 50] } ] }""",
            _ => With(ShortScenario.Of(("a\nb", 0.8), ("c, \"d\"", 0.3)), $$"""{ "parameters": [ { "path": "{{SweepTrial.Rate}}", "values": [40, 50] } ] }"""));
        var whole = trial.Run("out");
        Assert.Equal(5, whole.Count(c => c == '\n'));
        var path = Path.Combine(trial["out"], "sweep.csv");
        File.WriteAllText(path, whole[..^5]);
        Assert.Equal(whole, trial.Run("out", resume: true));
    }

    [Fact]
    public void Load_states_run_every_variant_in_each()
    {
        using var trial = new SweepTrial(
            $$"""
            { "parameters": [ { "path": "{{SweepTrial.Rate}}", "values": [40, 50] } ] }
            """,
            loadStates: """{ "kerb": { "mass_kg": 900 }, "full": { "mass_kg": 1500 } }""");
        var rows = trial.Run("out").TrimEnd('\n').Split('\n');

        Assert.Equal(["kerb", "kerb", "kerb", "kerb", "full", "full", "full", "full"], rows[1..].Select(row => row.Split(',')[1]));
        // Heave on the same springs and near enough the same tyre: frequency with 1/√m, but for the tyre and damper's share of some percent.
        var column = Array.IndexOf(rows[0].Split(','), "heaveNaturalFrequency_Hz");
        double Frequency(int row) => double.Parse(rows[row].Split(',')[column], CultureInfo.InvariantCulture);
        Assert.Equal(Math.Sqrt(1500.0 / 900), Frequency(1) / Frequency(5), 0.03);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(5)]
    public void Progress_counts_the_variants_done_up_to_all_of_them(long from)
    {
        using var trial = SweepTrial.Twelve();
        var table = new SweepTable(trial["out"], trial.Plan, SweepShare.Whole);
        using (var stop = new CancellationTokenSource())
        {
            table.Prepare(resume: false);
            if (from > 0)
                Assert.ThrowsAny<OperationCanceledException>(() => table.Fill(0, 1, new StopAt(from, stop), cancellation: stop.Token));
        }

        var progress = new ProgressRecorder<long>();
        var missing = table.Prepare(resume: from > 0, overwrite: from == 0);
        table.Fill(missing, 1, progress, cancellation: TestContext.Current.CancellationToken);

        // Each report counts the variants whose rows are in the table, those of the run before among them.
        Assert.True(missing >= from);
        Assert.Equal(12, progress.Values.Last());
        Assert.All(progress.Values, value => Assert.InRange(value, missing + 1, 12));
        Assert.Equal(progress.Values.Distinct().Order(), progress.Values);
    }

    private static System.Text.Json.Nodes.JsonObject With(System.Text.Json.Nodes.JsonObject scenario, string sweep) =>
        scenario.With("sweep", System.Text.Json.Nodes.JsonNode.Parse(sweep));

    private static SweepPlan Changed(SweepTrial trial, Func<string, string> change)
    {
        File.WriteAllText(trial.ScenarioPath, change(File.ReadAllText(trial.ScenarioPath)));
        var template = RollRide.Scenarios.ScenarioTemplate.Read(trial.ScenarioPath);
        return SweepPlanReader.Read(template, template.Sweep!);
    }

    private static SweepPlan Kept(SweepTrial trial) =>
        SweepPlanReader.Read(trial.Template, trial.Template.Sweep! with { Preload = RollRide.Sweeps.SweepPreload.Kept });

    private static string Text(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? "";

    private sealed class SteppingClock : TimeProvider
    {
        private long _now;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public void Advance(TimeSpan time) => _now += time.Ticks;

        public override long GetTimestamp() => _now;
    }

    private sealed class StopAt(long count, CancellationTokenSource stop) : IProgress<long>
    {
        public void Report(long value)
        {
            if (value >= count)
                stop.Cancel();
        }
    }
}
