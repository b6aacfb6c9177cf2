using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Cli.Terminals;
using RollRide.Results;
using RollRide.Studies;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

public class LoadStatesCommandTests
{
    private const double G = 9.80665;

    [Fact] // −Δm g/(2 kt) and −Δm g/(2 kt) − Δm g/(2 k), by hand: the example of docs/theory.md, "Rest under another load".
    public async Task Check_prints_where_the_car_stands_in_each_load_state()
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of("check", LoadedShort.Pair().WriteTo(folder));

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        Assert.Equal(["Load state as built (1200 kg)", "Load state laden (1470 kg)"], Headings(invocation.Output));
        Assert.Equal(["0.00", "-25.92"], Cells(invocation.Output, "Body, height change"));
        Assert.Equal(["0.00", "-4.57"], Cells(invocation.Output, "Axle, height change"));
        Assert.Equal([Text(1200 * G / 2, 0), Text(1470 * G / 2, 0)], Cells(invocation.Output, "Spring force"));
        Assert.Equal([Text(1360 * G / 2, 0), Text(1630 * G / 2, 0)], Cells(invocation.Output, "Tyre load of a side"));
    }

    [Fact] // The springs give way by 21.35 mm under 270 kg: more than 20 mm of clearance, so that the stops carry a part.
    public async Task Check_prints_compression_and_force_of_a_stop_that_carries_and_the_clearance_of_one_that_does_not()
    {
        using var folder = new TemporaryFolder();
        var stop = """{ "clearance_mm": 20, "force_N": 6000, "atCompression_mm": 30, "exponent": 2, "placement": { "motionRatios": { "heave": 1, "roll": 0.7 } } }""";
        var scenario = LoadedShort.Pair().With("vehicle.bumpStops", JsonNode.Parse(stop)).With("vehicle.reboundStops", JsonNode.Parse(stop)).WriteTo(folder);

        var output = (await Invocation.Of("check", scenario, "--load", "laden")).Output;

        double One(string label) => double.Parse(Assert.Single(Cells(output, label)), CultureInfo.InvariantCulture);
        var travel = One("Axle, height change") - One("Body, height change");
        Assert.Equal(travel - 20, One("Bump stop, compression"), 0.011); // both printed to 0.01 mm
        Assert.Equal(0, One("Bump stop, clearance"));
        Assert.Equal(6000 * Math.Pow(One("Bump stop, compression") / 30, 2), One("Bump stop, force"), 0.6); // printed to 1 N, and of a compression to 0.01 mm
        Assert.Equal(LoadedShort.Added * G / 2, (62 * travel) + One("Bump stop, force"), 1.2); // printed to 1 N, and two heights to 0.01 mm
        Assert.Equal(20 + travel, One("Rebound stop, clearance"), 0.011);
        Assert.DoesNotContain("Rebound stop, force", output, StringComparison.Ordinal);
    }

    [Fact] // An upright damper on a live axle shortens as the suspension travels: by Δm g/(2 k).
    public async Task Check_prints_what_is_left_of_the_damper_stroke()
    {
        using var folder = new TemporaryFolder();
        var scenario = LoadedShort.Of(ShortScenario.Of())
            .With("dampers.plain.closedLength_mm", 300)
            .With("dampers.plain.extendedLength_mm", 560);
        scenario["layouts"]!.AsArray().Add(JsonNode.Parse("""{ "name": "Upright", "placement": { "mounts": { "axleEnd_mm": [0, 600, 300], "bodyEnd_mm": [0, 600, 750] } }, "damper": "plain" }"""));

        var output = (await Invocation.Of("check", scenario.WriteTo(folder))).Output;

        var travel = LoadedShort.Added * G / (2 * 62);
        Assert.Equal(["150.00", Text(150 - travel, 2)], Cells(output, "Damper stroke remaining, compression"));
        Assert.Equal(["110.00", Text(110 + travel, 2)], Cells(output, "Damper stroke remaining, extension"));
    }

    [Fact]
    public async Task Compare_writes_every_file_for_each_load_state_and_joins_the_tables()
    {
        using var folder = new TemporaryFolder();

        var invocation = await Invocation.Of("compare", LoadedShort.Pair().WriteTo(folder), "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        string[] kinds =
        [
            "history-Outer.csv", "history-Inner.csv", "inputs.png", "roll-angle.png", "body-acceleration.png", "damper-curves.png", "damper-velocity.png",
            "tyre-loads.png", "damping-ratios.png",
        ];
        string[] files = ["summary.json", "metrics.csv", .. from state in (string[])["as-built-", "laden-"] from kind in kinds select state + kind];
        Assert.Equal(files.Order(StringComparer.Ordinal), Directory.EnumerateFiles(folder["out"]).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal));
        var states = Summary(folder)["loadStates"]!.AsArray();
        Assert.Equal(["as built", "laden"], states.Select(state => (string?)state!["name"]));
        Assert.Equal([1200, 1470], states.Select(state => (double)state!["bodyMass_kg"]!));
        var rest = states[1]!["rest"]!["Inner"]!;
        Assert.Equal(-LoadedShort.Added * G / (2 * 290), (double)rest["axleRise_mm"]!, 1e-9);
        Assert.Equal(-LoadedShort.Added * G * ((1.0 / 580) + (1.0 / 124)), (double)rest["bodyRise_mm"]!, 1e-9);
    }

    [Fact]
    public async Task Compare_prints_and_writes_the_same_numbers_for_each_state()
    {
        using var folder = new TemporaryFolder();

        var output = (await Invocation.Of("compare", LoadedShort.Pair().WriteTo(folder), "--no-plots", "--no-history", "--out", folder["out"])).Output;

        var summary = Summary(folder);
        var states = summary["loadStates"]!.AsArray();
        Assert.Equal(["Load state as built (1200 kg)", "Load state laden (1470 kg)"], Headings(output));
        var overshoots = states.SelectMany(state => state!["layouts"]!.AsArray()).Select(layout => (double)layout!["metrics"]!["rollOvershoot_percent"]!).ToArray();
        Assert.Equal(overshoots.Select(value => Text(value, 1)), Cells(output, "Roll overshoot from rest  ", columns: 2));
        var rows = File.ReadAllLines(folder["out/metrics.csv"]).Select(line => line.Split(',')).ToArray();
        Assert.Equal("loadState", rows[0][0]);
        var column = Array.IndexOf(rows[0], "rollOvershoot_percent");
        Assert.Equal(overshoots, rows.Skip(1).Where(row => row[2] == "run").Select(row => double.Parse(row[column], CultureInfo.InvariantCulture)));
        Assert.Equal(["as built", "laden"], rows.Skip(1).Select(row => row[0]).Distinct());
        Assert.All(states.SelectMany(state => state!["conclusions"]!.AsArray()).Concat(summary["conclusions"]!.AsArray()),
            sentence => Assert.Contains((string)sentence!, output, StringComparison.Ordinal));
        Assert.NotEmpty(summary["conclusions"]!.AsArray());
    }

    [Fact] // The design load moves nothing, so its numbers are those of the vehicle as written, to the last digit.
    public async Task Compare_of_the_design_load_alone_gives_the_numbers_of_the_scenario_without_load_states()
    {
        using var folder = new TemporaryFolder();
        await Invocation.Of("compare", LoadedShort.Pair().WriteTo(folder), "--load", "as built", "--no-plots", "--no-history", "--out", folder["loaded"]);
        await Invocation.Of("compare", LoadedShort.Plain(ShortScenario.Pair()).WriteTo(folder), "--no-plots", "--no-history", "--out", folder["plain"]);

        var loaded = Assert.Single(JsonNode.Parse(File.ReadAllText(folder["loaded/summary.json"]))!["loadStates"]!.AsArray())!;
        var plain = JsonNode.Parse(File.ReadAllText(folder["plain/summary.json"]))!;

        Assert.Equal(plain["layouts"]!.ToJsonString(), loaded["layouts"]!.ToJsonString());
        Assert.Equal(plain["conclusions"]!.ToJsonString(), loaded["conclusions"]!.ToJsonString());
        Assert.Null(plain["loadStates"]);
        var rows = File.ReadAllLines(folder["loaded/metrics.csv"]).Select(line => line[(line.IndexOf(',', StringComparison.Ordinal) + 1)..]);
        Assert.Equal(File.ReadAllLines(folder["plain/metrics.csv"]), rows);
    }

    [Fact]
    public async Task Simulate_over_seeds_writes_one_row_per_load_state()
    {
        using var folder = new TemporaryFolder();
        var scenario = LoadedShort.Of(ShortScenario.Of(("Outer", 0.8)))
            .With("manoeuvre.road", JsonNode.Parse("""{ "random": { "class": "a", "leadIn_m": 2 } }"""))
            .With("manoeuvre.duration_s", 5)
            .With("manoeuvre.cornering", null);

        var invocation = await Invocation.Of("simulate", scenario.WriteTo(folder), "--seeds", "2", "--linear", "--no-plots", "--no-history", "--out", folder["out"]);

        Assert.Equal((ExitCode.Done, ""), (invocation.ExitCode, invocation.Error));
        foreach (var file in (string[])["out/seeds.csv", "out/linear.csv"])
        {
            var rows = File.ReadAllLines(folder[file]).Select(line => line.Split(',')).ToArray();
            Assert.Equal(["loadState", "layout"], rows[0][..2]);
            Assert.Equal(["as built", "laden"], rows.Skip(1).Select(row => row[0]).Distinct());
        }

        Assert.Equal(2, Headings(invocation.Output[invocation.Output.IndexOf("Written to", StringComparison.Ordinal)..]).Length);
    }

    [Theory]
    [InlineData("laden", "laden")]
    [InlineData("LADEN,as built", "laden", "as built")]
    public async Task Load_chooses_states_in_the_order_given(string value, params string[] states)
    {
        using var folder = new TemporaryFolder();

        await Invocation.Of("compare", LoadedShort.Pair().WriteTo(folder), "--load", value, "--no-plots", "--no-history", "--out", folder["out"]);

        Assert.Equal(states, Summary(folder)["loadStates"]!.AsArray().Select(state => (string?)state!["name"]));
    }

    [Theory]
    [InlineData("compare")]
    [InlineData("simulate")]
    [InlineData("report")]
    [InlineData("check")]
    public async Task Unknown_load_state_is_refused_with_the_nearest_and_the_known_ones(string command)
    {
        using var folder = new TemporaryFolder();

        (await Invocation.Of(command, LoadedShort.Pair().WriteTo(folder), "--load", "lade"))
            .Refused(ExitCode.BadInput, "there is no load state “lade”", "did you mean laden?", "known: “as built”, “laden”");
        (await Invocation.Of(command, ShortScenario.Pair().WriteTo(folder), "--load", "laden"))
            .Refused(ExitCode.BadInput, "there is no load state “laden”: the scenario has none");
        Assert.Equal(["short.json"], folder.Entries);
    }

    [Fact]
    public async Task Report_shows_the_heaviest_state_or_the_one_named_and_all_of_them_in_one_table()
    {
        using var folder = new TemporaryFolder();
        var scenario = LoadedShort.Pair().WriteTo(folder);

        Assert.Equal(ExitCode.Done, (await Invocation.Of("report", scenario, "--out", folder["out"])).ExitCode);
        Assert.Equal(ExitCode.Done, (await Invocation.Of("report", scenario, "--load", "as built", "--out", folder["named"])).ExitCode);

        var page = File.ReadAllText(folder["out/report.html"]);
        Assert.Contains("· decided over 2 load states; curves over time in “laden”</p>", page, StringComparison.Ordinal);
        Assert.Contains("· decided over 2 load states; curves over time in “as built”</p>", File.ReadAllText(folder["named/report.html"]), StringComparison.Ordinal);
        Assert.True(File.Exists(folder["out/laden-roll-angle.png"]));
        Assert.False(File.Exists(folder["out/as-built-roll-angle.png"]));
        var states = Summary(folder)["loadStates"]!.AsArray();
        Assert.Equal(2, states.Count);
        var cells = string.Concat(states[0]!["layouts"]!.AsArray().Select((layout, i) =>
            $"<td data-layout=\"{layout!["name"]}\">{string.Join(" · ", states.Select(state => Text((double)state!["layouts"]![i]!["metrics"]!["rollOvershoot_percent"]!, 1)))}</td>"));
        Assert.Contains($"<th scope=\"row\">Roll overshoot from rest</th><td class=\"unit\">%</td>{cells}", page, StringComparison.Ordinal);
    }

    [Fact]
    public void File_prefixes_of_names_that_become_the_same_differ()
    {
        var study = LoadedShort.Pair().Read().Study;
        var load = study.Loads[0];

        Assert.Equal(["crew-2-", "Crew-2-2-"], LoadStates.FilePrefixes([study with { Load = load with { Name = "crew+2" } }, study with { Load = load with { Name = "Crew 2" } }]));
        Assert.Equal([""], LoadStates.FilePrefixes([study]));
    }

    [Fact]
    public void Failure_names_layout_and_load_state() =>
        Assert.Equal("Layout “A” in load state “full”: no.", new StudyException("A", new InvalidOperationException("no."), "full").Message);

    private static JsonNode Summary(TemporaryFolder folder) => JsonNode.Parse(File.ReadAllText(folder["out/summary.json"]))!;

    private static string[] Headings(string output) =>
        [.. output.Split('\n').Where(line => line.StartsWith("Load state ", StringComparison.Ordinal)).Select(line => line.TrimEnd('\r').Split(" at rest;")[0])];

    /// <summary>The last cells of each row with a label, table by table.</summary>
    private static string[] Cells(string output, string label, int columns = 1) =>
        [.. output.Split('\n').Where(line => line.StartsWith(label + " ", StringComparison.Ordinal)).SelectMany(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)[^columns..])];

    private static string Text(double value, int decimals) => value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
}
