using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public class CompareCommandTests
{
    private static readonly string[] Figures =
        ["body-acceleration.png", "damper-curves.png", "damper-velocity.png", "damping-ratios.png", "inputs.png", "roll-angle.png", "tyre-loads.png"];

    [Fact]
    public async Task Compare_writes_every_file_and_leaves_others_alone()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);
        Directory.CreateDirectory(folder["out"]);
        File.WriteAllText(Path.Combine(folder["out"], "notes.txt"), "mine");
        File.WriteAllText(Path.Combine(folder["out"], "summary.json"), "old");

        var invocation = await Invocation.Of("compare", path, "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        string[] expected = [.. Figures, "history-Inner.csv", "history-Outer.csv", "metrics.csv", "notes.txt", "summary.json"];
        Assert.Equal(expected.Order(StringComparer.Ordinal), Directory.EnumerateFileSystemEntries(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.NotEqual("old", File.ReadAllText(Path.Combine(folder["out"], "summary.json")));
        Assert.Equal("mine", File.ReadAllText(Path.Combine(folder["out"], "notes.txt")));
        Assert.All(Figures, figure => Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], File.ReadAllBytes(Path.Combine(folder["out"], figure))[..4]));
    }

    [Fact]
    public async Task Roll_that_does_not_settle_takes_longer_than_it_was_followed()
    {
        using var folder = new TemporaryFolder();
        var (code, output, _) = await Invocation.Of("compare", Shipped.Scenario("bump-then-corner.json"), "--no-plots", "--out", folder["out"]);

        // The ramp of 0.4 s and 10 s after it, the same in the table and in the sentence.
        Assert.Equal(ExitCode.Done, code);
        Assert.Matches(@"Settling time to ±5 % +s +\d\.\d{3} +\d\.\d{3} +> 10\.4", output);
        Assert.Contains("Roll has not settled to within 5 % of the steady angle in the 10.4 s for which the corner is followed: “At the centre”.", output.ReplaceLineEndings(" ").Replace("  ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_killed_run_left_is_told()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder["out/.unfinished-abc"]);
        var invocation = await Invocation.Of("compare", ShortScenario.Pair().WriteTo(folder), "--no-plots", "--out", folder["out"]);
        Assert.Equal(ExitCode.Done, invocation.ExitCode);
        Assert.Contains(".unfinished-abc” is left of a run that was killed; it has no lock", invocation.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false, "was killed before its files were whole; what it left was removed")]
    [InlineData(true, "was killed while it put its files in place")]
    public async Task What_a_killed_run_left_is_finished_or_removed_and_told_before_anything_else(bool isWhole, string told)
    {
        using var folder = new TemporaryFolder();
        using var killed = new OutputFolder(folder["out"]) { Renaming = () => throw new InvalidOperationException("killed") };
        killed.Add("of-the-killed.csv", writer => writer.Write("1"));
        if (isWhole)
            killed.Staging.BeginCommit(["of-the-killed.csv"], null);
        killed.Staging.Leave();

        var invocation = await Invocation.Of("compare", folder["none.json"], "--out", folder["out"]);

        Assert.Equal(ExitCode.BadInput, invocation.ExitCode);
        Assert.Contains(told, invocation.Error, StringComparison.Ordinal);
        Assert.Equal(isWhole ? ["out", "out/of-the-killed.csv"] : ["out"], folder.Entries);
    }

    [Fact]
    public async Task Summary_names_the_checksum_of_every_other_file()
    {
        using var folder = new TemporaryFolder();
        await Invocation.Of("compare", ShortScenario.Pair().WriteTo(folder), "--out", folder["out"]);

        var files = JsonNode.Parse(File.ReadAllText(folder["out/summary.json"]))!["files"]!.AsObject();
        Assert.Equal(
            Directory.EnumerateFiles(folder["out"]).Select(file => Path.GetFileName(file)).Where(name => name != "summary.json").Order(StringComparer.Ordinal),
            files.Select(file => file.Key).Order(StringComparer.Ordinal));
        Assert.All(files, file => Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(folder[$"out/{file.Key}"]))), file.Value!.GetValue<string>()));
    }

    [Fact]
    public async Task Names_with_control_characters_do_not_reach_the_terminal()
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Of(("Outer\u001b[31m", 0.8), ("In\nner", 0.3)).With("name", "Sh\u009bort").With("vehicle.name", "Test\rcart").WriteTo(folder);
        foreach (var arguments in (string[][])[["check", scenario], ["compare", scenario, "--no-plots", "--out", folder["out"]], ["mounts", scenario, "--no-plots", "--out", folder["out"]]])
        {
            var run = await Invocation.Of(arguments);
            Assert.DoesNotContain((run.Output + run.Error).ReplaceLineEndings(""), char.IsControl);
            Assert.DoesNotContain("\nner", run.Output, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("compare", "--layouts", "@home")]
    [InlineData("compare", "--layouts", "@home,Outer")]
    [InlineData("simulate", "--layout", "@home")]
    [InlineData("report", "--baseline", "@home")]
    public async Task Layout_whose_name_begins_with_an_at_sign_can_be_chosen(string command, string option, string value)
    {
        using var folder = new TemporaryFolder();
        var run = await Invocation.Of(command, ShortScenario.Of(("Outer", 0.8), ("@home", 0.3)).WriteTo(folder), option, value, "--json", "--out", folder["out"]);
        Assert.Equal((ExitCode.Done, ""), (run.ExitCode, run.Error));
        Assert.Contains("\"@home\"", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Same_command_twice_writes_the_same_bytes()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);

        await Invocation.Of("compare", path, "--out", folder["first"]);
        await Invocation.Of("compare", path, "--out", folder["second"]);

        var names = Directory.EnumerateFiles(folder["first"]).Select(file => Path.GetFileName(file)).ToArray();
        Assert.NotEmpty(names);
        Assert.All(names, name => Assert.Equal(File.ReadAllBytes(Path.Combine(folder["first"], name)), File.ReadAllBytes(Path.Combine(folder["second"], name))));
    }

    [Theory]
    [InlineData("Inner", "Inner")]
    [InlineData("inner,OUTER", "Inner,Outer")]
    [InlineData("Inner, Inner", "Inner")]
    [InlineData("Outer, soft", "Outer, soft")]
    public async Task Layouts_are_chosen_by_name_in_the_order_named(string value, string expected)
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Of(("Outer", 0.8), ("Inner", 0.3), ("Outer, soft", 0.8)).WriteTo(folder);

        var invocation = await Invocation.Of("compare", path, "--no-plots", "--layouts", value, "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, invocation.ExitCode);
        Assert.Equal(expected == value ? [value] : expected.Split(','), Names(folder));
    }

    [Fact]
    public async Task Simulate_runs_the_first_layout_unless_one_is_named()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);

        var first = await Invocation.Of("simulate", path, "--no-plots", "--out", folder["out"]);
        Assert.StartsWith("Layout “Outer”, the first of 2; --layout chooses another.", first.Output, StringComparison.Ordinal);
        Assert.Equal(["Outer"], Names(folder));
        await Invocation.Of("simulate", path, "--no-plots", "--layout", "Inner", "--out", folder["out"]);
        Assert.Equal(["Inner"], Names(folder));
    }

    [Theory]
    [InlineData("compare")]
    [InlineData("simulate")]
    public async Task Without_history_the_numbers_are_the_same_to_the_last_digit_and_nothing_else_is_written(string command)
    {
        using var folder = new TemporaryFolder();
        var path = RoughPair().WriteTo(folder);

        var recorded = await Invocation.Of(command, path, "--no-plots", "--seeds", "2", "--linear", "--out", folder["with"]);
        var plain = await Invocation.Of(command, path, "--no-history", "--seeds", "2", "--linear", "--out", folder["without"]);

        Assert.Equal((ExitCode.Done, recorded.Error), (plain.ExitCode, plain.Error));
        Assert.Equal(["linear.csv", "metrics.csv", "seeds.csv", "summary.json"], Directory.EnumerateFileSystemEntries(folder["without"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.All(Directory.EnumerateFiles(folder["without"]), file =>
            Assert.Equal(Content(Path.Combine(folder["with"], Path.GetFileName(file))), Content(file)));

        // All but the list of the other files, which ends the summary.
        static string Content(string file) => File.ReadAllText(file).Split("\n  \"files\": {")[0];

        // Tables, warnings, conclusions and cautions too: all but the list of files.
        static string[] Told(Invocation invocation) => [.. invocation.Output.Split('\n').Where(line => !line.StartsWith("Written to", StringComparison.Ordinal))];
        Assert.Equal(Told(recorded), Told(plain));
    }

    [Fact]
    public async Task Without_history_the_files_of_an_earlier_run_stay_as_others_do()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);
        string[] older = ["history-Outer.csv", "history-Gone.csv", "roll-angle.png"];
        Directory.CreateDirectory(folder["out"]);
        foreach (var name in older.Append("metrics.csv"))
            folder.Write($"out/{name}", "old");

        await Invocation.Of("compare", path, "--no-history", "--out", folder["out"]);

        Assert.All(older, name => Assert.Equal("old", File.ReadAllText(folder[$"out/{name}"])));
        Assert.NotEqual("old", File.ReadAllText(folder["out/metrics.csv"]));
        Assert.Equal(older.Append("metrics.csv").Append("summary.json").Order(StringComparer.Ordinal),
            Directory.EnumerateFileSystemEntries(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Without_history_its_length_is_no_matter()
    {
        using var folder = new TemporaryFolder();
        string Path(int rate) => ShortScenario.Pair().With("manoeuvre.duration_s", 600).With("output.rate_Hz", rate).WriteTo(folder);

        Assert.Contains("rows per layout", (await Invocation.Of("check", Path(2000))).Error, StringComparison.Ordinal);
        Assert.Equal((ExitCode.Done, ""), await Run(Path(2000)));
        (await Invocation.Of("simulate", Path(20_000), "--out", folder["out"])).Refused(ExitCode.BadInput, "output.rate_Hz", "12000000 rows");
        Assert.Equal((ExitCode.Done, ""), await Run(Path(20_000)));

        async Task<(int, string)> Run(string path)
        {
            var invocation = await Invocation.Of("simulate", path, "--no-history", "--out", folder["out"]);
            return (invocation.ExitCode, invocation.Error);
        }
    }

    [Theory]
    [InlineData("compare", "--format", "svg")]
    [InlineData("simulate", "--format", "png")]
    [InlineData("simulate", "--size", "800x600")]
    [InlineData("compare", "--dpi", "200")]
    public async Task Without_history_options_for_figures_are_refused(string command, string option, string value)
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);

        (await Invocation.Of(command, path, "--no-history", option, value, "--out", folder["out"])).Refused(ExitCode.BadInput, option, "--no-history");

        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Without_history_more_layouts_than_a_figure_can_tell_apart_are_no_fault()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Of([.. Enumerable.Range(1, 9).Select(i => ($"L{i}", 0.1 * i))]).WriteTo(folder);

        Assert.Equal(ExitCode.Done, (await Invocation.Of("compare", path, "--no-history", "--no-plots", "--json", "--out", folder["out"])).ExitCode);
        Assert.Equal(9, Names(folder).Count());
    }

    [Fact]
    public async Task Names_that_are_no_file_names_make_safe_and_different_ones()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Of(("<script>", 0.8), ("../x", 0.3), ("x", 0.2), ("X!", 0.1)).WriteTo(folder);

        var invocation = await Invocation.Of("compare", path, "--no-plots", "--out", folder["out"]);

        Assert.Equal(ExitCode.Done, invocation.ExitCode);
        Assert.Equal(
            ["out", "out/history-X-3.csv", "out/history-script.csv", "out/history-x-2.csv", "out/history-x.csv", "out/metrics.csv", "out/summary.json", "short.json"],
            folder.Entries.Select(entry => entry.Replace('\\', '/')));
        Assert.Equal(["<script>", "../x", "x", "X!"], Names(folder));
    }

    [Fact]
    public async Task More_layouts_than_a_figure_can_tell_apart_are_refused_unless_no_figure_is_asked_for()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Of([.. Enumerable.Range(1, 9).Select(i => ($"L{i}", 0.1 * i))]).WriteTo(folder);

        (await Invocation.Of("compare", path, "--out", folder["out"])).Refused(ExitCode.BadInput, "9", "8", "--layouts", "--no-plots");
        Assert.Equal(["short.json"], folder.Entries);
        Assert.Equal(ExitCode.Done, (await Invocation.Of("compare", path, "--no-plots", "--out", folder["out"])).ExitCode);
    }

    [Fact]
    public async Task Numbers_do_not_depend_on_the_culture()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);
        var before = CultureInfo.CurrentCulture;
        var plain = await Invocation.Of("compare", path, "--no-plots", "--out", folder["out"]);
        var check = await Invocation.Of("check", path);
        var files = Contents(folder);
        try
        {
            // The runtime knows no culture but the invariant one: this one writes numbers as German does.
            var german = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            (german.NumberFormat.NumberDecimalSeparator, german.NumberFormat.NumberGroupSeparator, german.NumberFormat.NegativeSign) = (",", ".", "−");
            CultureInfo.CurrentCulture = german; // flows to the threads that run the layouts

            var foreign = await Invocation.Of("compare", path, "--no-plots", "--out", folder["out"]);

            Assert.Equal(plain, foreign);
            Assert.Equal(files, Contents(folder));
            Assert.Equal(check, await Invocation.Of("check", path));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public async Task Report_ends_with_conclusions_cautions_and_the_files()
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of("compare", ShortScenario.Pair().WriteTo(folder), "--no-plots", "--out", folder["out"]);

        var lines = invocation.Output.TrimEnd().Split('\n');
        Assert.Equal($"Written to {folder["out"]}: summary.json, metrics.csv, history-Outer.csv, history-Inner.csv", lines[^1]);
        Assert.Equal(Cautions.All, lines[^(2 + Cautions.All.Length)..^2]);
        Assert.Contains(lines, line => line.StartsWith("The roll damping ratio", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Each_phase_has_its_own_load_transfer_and_least_load()
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of("compare", ShortScenario.Pair().WriteTo(folder), "--no-plots", "--out", folder["out"]);

        var corner = invocation.Output.Split('\n').SkipWhile(line => line != "[corner]").TakeWhile(line => line.Length > 0).ToArray();
        Assert.Contains(corner, line => line.StartsWith("Load transfer, peak", StringComparison.Ordinal));
        Assert.Contains(corner, line => line.StartsWith("Tyre load, minimum", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Tables_are_aligned()
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of("compare", ShortScenario.Pair().WriteTo(folder), "--no-plots", "--out", folder["out"]);

        var rows = invocation.Output.Split('\n').SkipWhile(line => !line.StartsWith('─')).TakeWhile(line => !line.StartsWith("The ", StringComparison.Ordinal)).ToArray();
        var width = rows[0].Length;
        // A row ends with a number or a dash under the last column, or is a title or a gap.
        Assert.All(rows.Where(row => row.Length > 0 && row[0] != '['), row => Assert.Equal(width, row.Length));
    }

    /// <summary>A random road, a bump and a corner, with time before the corner in which the ride is measured.</summary>
    private static JsonObject RoughPair() => ShortScenario.Pair()
        .With("manoeuvre.road.random", JsonNode.Parse("""{ "class": "c", "leadIn_m": 10 }"""))
        .With("manoeuvre.duration_s", 10)
        .With("manoeuvre.cornering.lateralAcceleration.events", JsonNode.Parse("""[ { "start_s": 8, "amplitude_m_per_s2": 3, "rampStep": { "rampDuration_s": 0.2 } } ]"""));

    private static string[] Contents(TemporaryFolder folder) => [.. Directory.EnumerateFiles(folder["out"]).Order(StringComparer.Ordinal).Select(File.ReadAllText)];

    private static IEnumerable<string> Names(TemporaryFolder folder) =>
        JsonNode.Parse(File.ReadAllText(Path.Combine(folder["out"], "summary.json")))!["layouts"]!.AsArray().Select(layout => layout!["name"]!.GetValue<string>());
}
