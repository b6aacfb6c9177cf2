using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public class CommandLineTests
{
    [Theory]
    [InlineData("compare")]
    [InlineData("simulate")]
    [InlineData("check")]
    public async Task No_scenario_is_refused(string command) =>
        (await Invocation.Of(command)).Refused(ExitCode.BadInput, "scenario", $"rollride {command} --help");

    [Fact]
    public async Task No_command_is_refused() => (await Invocation.Of()).Refused(ExitCode.BadInput, "rollride --help");

    [Fact]
    public async Task Unknown_command_is_refused_in_one_line_with_what_may_be_meant()
    {
        var near = await Invocation.Of("comapre", "x.json");
        near.Refused(ExitCode.BadInput);
        Assert.Equal("unknown command “comapre”; did you mean compare?", near.Error.Split('\n')[0]);
        Assert.Equal(2, near.Error.TrimEnd().Split('\n').Length);

        var far = await Invocation.Of("overtake");
        far.Refused(ExitCode.BadInput, "unknown command “overtake”; known: compare, live, simulate,", "rollride --help");
    }

    [Theory]
    [InlineData("--gears", "--gears")]
    [InlineData("--no-plots=maybe", "maybe")]
    [InlineData("--layouts", "--layouts")]
    [InlineData("--out", "--out")]
    [InlineData("--out=", "--out")]
    [InlineData("--layouts= ", "--layouts")]
    public async Task Unknown_option_or_bad_value_is_refused(string option, string named)
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);

        (await Invocation.Of("compare", path, option)).Refused(ExitCode.BadInput, named, "--help");
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Theory]
    [InlineData("--otu", "results", "unknown option “--otu”; did you mean --out?")]
    [InlineData("--jsno", null, "unknown option “--jsno”; did you mean --json?")]
    [InlineData("--ouput=results", null, "unknown option “--ouput”")]
    [InlineData("--nonsense", "5", "unknown option “--nonsense”")]
    public async Task Unknown_option_is_refused_in_one_line_with_what_may_be_meant(string option, string? value, string said)
    {
        foreach (var atEnd in new[] { true, false })
        {
            string[] given = [.. new[] { option, value }.OfType<string>()];
            var run = await Invocation.Of(["compare", .. atEnd ? [Shipped.Scenario("bump-then-corner.json"), .. given] : (string[])[.. given, Shipped.Scenario("bump-then-corner.json")]]);
            Assert.Equal(ExitCode.BadInput, run.ExitCode);
            Assert.StartsWith(said, run.Error, StringComparison.Ordinal);
            Assert.Equal(2, run.Error.TrimEnd('\n').Split('\n').Length);
        }
    }

    [Theory] // One reader for both: what sweep refuses of the scenario's own sweep, check refuses in the same words.
    [InlineData("""{ "parameters": [ { "path": "vehicle.body.mass_kg", "values": [1000, 1200] } ] }""", "loadStates.full.mass_kg sets it outright")]
    [InlineData("""{ "parameters": [ { "path": "vehicle.body.mass", "values": [1000, 1200] } ] }""", "the scenario has no number")]
    [InlineData("""{ "targets": [ { "metric": "rollOvershot_percent", "atMost": 40 } ] }""", "there is no metric")]
    public async Task Check_refuses_the_sweep_that_sweep_refuses(string sweep, string reason)
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().With("sweep", JsonNode.Parse(sweep)).With("loadStates", JsonNode.Parse("""{ "full": { "mass_kg": 1500 } }""")).WriteTo(folder);
        var (check, run) = (await Invocation.Of("check", path), await Invocation.Of("sweep", path, "--no-plots", "--out", folder["out"]));
        Assert.Equal((ExitCode.BadInput, ExitCode.BadInput), (check.ExitCode, run.ExitCode));
        Assert.Contains(reason, check.Error, StringComparison.Ordinal);
        Assert.Equal(run.Error, check.Error);
        Assert.Equal("", check.Output);
    }

    [Fact] // Targets alone wait for --vary on the command line.
    public async Task Check_accepts_a_sweep_that_options_complete()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().With("sweep", JsonNode.Parse("""{ "targets": [ { "metric": "rollOvershoot_percent", "atMost": 40 } ] }""")).WriteTo(folder);
        Assert.Equal(ExitCode.Done, (await Invocation.Of("check", path)).ExitCode);
    }

    [Fact]
    public async Task Blank_scenario_is_refused() => (await Invocation.Of("compare", "")).Refused(ExitCode.BadInput, "scenario");

    [Fact]
    public async Task Missing_scenario_is_refused()
    {
        using var folder = new TemporaryFolder();

        (await Invocation.Of("compare", folder["none.json"], "--out", folder["out"])).Refused(ExitCode.BadInput, "none.json");
        Assert.Empty(folder.Entries);
    }

    [Fact]
    public async Task Every_fault_of_a_scenario_is_one_line_and_nothing_is_written()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().With("vehicle.body.mass_kg", -1).With("vehicle.body.colour", "red").WriteTo(folder);

        var invocation = await Invocation.Of("compare", path, "--out", folder["out"]);

        invocation.Refused(ExitCode.BadInput, "mass_kg", "-1", "colour", "short.json:1");
        Assert.Equal(2, invocation.Error.TrimEnd().Split('\n').Length);
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Theory]
    [InlineData("compare", "--layouts")]
    [InlineData("simulate", "--layout")]
    public async Task Unknown_layout_is_refused_and_the_known_are_named(string command, string option)
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);

        (await Invocation.Of(command, path, option, "Middle", "--out", folder["out"])).Refused(ExitCode.BadInput, "“Middle”", "known: “Outer”, “Inner”");
        (await Invocation.Of(command, path, option, "Iner", "--out", folder["out"])).Refused(ExitCode.BadInput, "did you mean Inner?");
        (await Invocation.Of(command, path, option, ",", "--out", folder["out"])).Refused(ExitCode.BadInput);
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Folder_that_cannot_be_written_is_refused()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);

        (await Invocation.Of("compare", path, "--no-plots", "--out", Path.Combine(path, "out"))).Refused(ExitCode.BadInput, "cannot be written");
        (await Invocation.Of("compare", path, "--no-plots", "--out", path)).Refused(ExitCode.BadInput, "is a file, not a folder");
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Run_that_rolls_over_names_each_layout_and_the_time_and_writes_nothing()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair()
            .With("manoeuvre.duration_s", 8)
            .With("manoeuvre.cornering.lateralAcceleration.events", new JsonArray(JsonNode.Parse("""{ "start_s": 0.8, "amplitude_m_per_s2": 15, "rampStep": { "rampDuration_s": 0.2 } }""")))
            .WriteTo(folder);

        var invocation = await Invocation.Of("compare", path, "--out", folder["out"]);

        invocation.Refused(ExitCode.RunFailed, "“Outer”", "“Inner”", "rolled over", " s ");
        Assert.Equal(2, invocation.Error.Split('\n').Count(line => line.StartsWith("Layout ", StringComparison.Ordinal)));
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Cancelled_command_ends_with_130_and_writes_nothing()
    {
        using var folder = new TemporaryFolder();
        var path = ShortScenario.Pair().WriteTo(folder);

        var invocation = await Invocation.Of(new CancellationToken(canceled: true), "compare", path, "--out", folder["out"]);

        invocation.Refused(ExitCode.Cancelled, "Stopped");
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Check_says_what_was_understood_and_writes_nothing()
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of("check", ShortScenario.Pair().WriteTo(folder));

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        // Tyre load by hand: (1200 + 160) kg × 9.80665 m/s² / 2 = 6668.5 N, shown without decimals.
        Assert.Matches(@"Static load of a tyre +6669 +N", invocation.Output);
        Assert.Matches(@"Outer +1\.0000 +0\.8000", invocation.Output);
        Assert.Matches(@"bump +0\.100 +0\.800", invocation.Output);
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Warnings_go_to_the_error_stream_and_stop_nothing()
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair();
        scenario["dampers"]!["spare"] = scenario["dampers"]!["plain"]!.DeepClone();

        var invocation = await Invocation.Of("check", scenario.WriteTo(folder));

        Assert.Equal(ExitCode.Done, invocation.ExitCode);
        Assert.StartsWith("warning: ", invocation.Error, StringComparison.Ordinal);
        Assert.Contains("spare", invocation.Error, StringComparison.Ordinal);
        Assert.Contains("1 warning ", invocation.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{ "duration_s": 0.05 }""", "it has none at all")]
    [InlineData("""{ "cornering": null }""", "needs cornering")]
    public async Task Tuning_that_does_not_fit_the_manoeuvre_stops_only_tune(string change, string reason)
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair().With("tuning", JsonNode.Parse(
            """{ "heave": { "ratio": 0.3, "damperVelocity_m_per_s": 0.1 }, "roll": { "ratio": 0.2, "damperVelocity_m_per_s": 0.1 }, "limits": { "force_N": 5000 } }"""));
        foreach (var (key, value) in JsonNode.Parse(change)!.AsObject())
            scenario.With($"manoeuvre.{key}", value?.DeepClone());
        var path = scenario.WriteTo(folder);

        (await Invocation.Of("tune", path, "--out", folder["out"])).Refused(ExitCode.BadInput, "tuning", reason);
        var compare = await Invocation.Of("compare", path, "--no-plots", "--out", folder["out"]);
        Assert.Equal(ExitCode.Done, compare.ExitCode);
        Assert.DoesNotContain("tuning", compare.Error, StringComparison.Ordinal);
        var check = await Invocation.Of("check", path);
        Assert.Equal(ExitCode.Done, check.ExitCode);
        Assert.Contains("warning: the command tune will refuse this", check.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Name_that_the_typeface_lacks_is_told_by_check()
    {
        using var folder = new TemporaryFolder();

        var check = await Invocation.Of("check", ShortScenario.Of(("外側", 0.8), ("Außen", 0.7)).WriteTo(folder));

        Assert.Contains("the typeface of the figures lacks a character of “外側”", check.Error, StringComparison.Ordinal);
        Assert.Contains("1 warning ", check.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Very_many_faults_and_very_long_keys_stay_readable()
    {
        using var folder = new TemporaryFolder();
        var scenario = ShortScenario.Pair();
        for (var i = 0; i < 300; i++)
            scenario[$"{i}{new string('k', 5000)}"] = 1;

        var run = await Invocation.Of("check", scenario.WriteTo(folder));

        Assert.Equal(ExitCode.BadInput, run.ExitCode);
        var lines = run.Error.TrimEnd().Split('\n');
        Assert.Equal(21, lines.Length);
        Assert.Equal("and 280 more faults", lines[^1].TrimEnd());
        Assert.All(lines, line => Assert.InRange(line.Length, 1, 1000));
    }

    [Fact]
    public async Task Schema_is_that_of_the_reader_on_the_terminal_and_in_a_file()
    {
        using var folder = new TemporaryFolder();

        var shown = await Invocation.Of("schema");
        var written = await Invocation.Of("schema", "--out", folder["schema.json"]);

        Assert.Equal(JsonSchemaWriter.WriteText(typeof(ScenarioFile), "RollRide scenario"), shown.Output);
        Assert.NotNull(JsonNode.Parse(shown.Output));
        Assert.Equal((ExitCode.Done, ""), (written.ExitCode, written.Output));
        Assert.Equal(shown.Output, await File.ReadAllTextAsync(folder["schema.json"], TestContext.Current.CancellationToken));
        (await Invocation.Of("schema", "--out", Path.Combine(folder["schema.json"], "x"))).Refused(ExitCode.BadInput, "schema.json");
    }
}
