using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using RollRide.Cli.Terminals;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Cli;

/// <summary>
/// Every number that two outputs both show is the same in both: terminal, summary, tables, report and figure titles, and in one command as in the other. Each
/// scenario is of another kind.
/// </summary>
public sealed partial class ConsistencyTests
{
    private const string Targets = """{ "rollDampingRatioMinimum": 0.2, "heaveDampingRatioMinimum": 0.2, "heaveDampingRatioMaximum": 0.4, "damperVelocity_m_per_s": 0.13 }""";

    private const string Tuning =
        """
        {
          "heave": { "ratio": 0.3, "damperVelocity_m_per_s": 0.26 },
          "roll": { "ratio": 0.38, "damperVelocity_m_per_s": 0.05 },
          "limits": { "force_N": 6000, "highSpeedShare": [0.5, 1] }
        }
        """;

    /// <summary>The scenarios by name.</summary>
    private static JsonObject Scenario(string name) => name switch
    {
        "leaf axle with mounts, travel and load states" => Mounted()
            .With("vehicle.lateralLocation", JsonNode.Parse("""{ "leafSprings": { "frontEye_mm": [650, 430], "rearEye_mm": [-650, 430] } }"""))
            .With("vehicle.rollCentreHeight_mm", null)
            .With("vehicle.travel", JsonNode.Parse("""{ "bump_mm": 80, "rebound_mm": 90, "roll_deg": 3 }"""))
            .With("loadStates", JsonNode.Parse("""{ "empty": {}, "laden": { "payload": [ { "mass_kg": 300, "height_mm": 900 } ] } }""")),
        "dual tyres with bushes" => ShortScenario.Pair()
            .With("vehicle.tyres", JsonNode.Parse("""{ "stiffness_N_per_mm": 150, "damping_N_s_per_m": 200, "dualSpacing_mm": 300 }"""))
            .With("dampers.plain.topMountStiffness_N_per_mm", 600)
            .With("targets", JsonNode.Parse(Targets)),
        "independent wheels" => ShortScenario.Pair()
            .With("vehicle.suspension", "independent")
            .With("vehicle.springs.placement.motionRatios", JsonNode.Parse("""{ "heave": 0.9, "roll": 0.9 }"""))
            .With("vehicle.unsprung", JsonNode.Parse("""{ "mass_kg": 90, "cgHeight_mm": 330 }"""))
            .With("layouts", JsonNode.Parse(
                """
                [
                  { "name": "Out", "damper": "plain", "placement": { "motionRatios": { "heave": 0.8, "roll": 0.8 } } },
                  { "name": "In", "damper": "plain", "placement": { "motionRatios": { "heave": 0.6, "roll": 0.6 } } }
                ]
                """))
            .With("targets", JsonNode.Parse(Targets)),
        "random road" => ShortScenario.Pair()
            .With("manoeuvre.road", JsonNode.Parse("""{ "random": { "class": "c", "leadIn_m": 5 } }"""))
            .With("manoeuvre.duration_s", 6)
            .With("manoeuvre.cornering", JsonNode.Parse("""{ "lateralAcceleration": { "events": [ { "start_s": 4.5, "amplitude_m_per_s2": 3, "rampStep": { "rampDuration_s": 0.2 } } ] } }""")),
        "whole vehicle" => ShortScenario.Pair().With("targets", JsonNode.Parse(Targets)).With("wholeVehicle", JsonNode.Parse(
            """
            {
              "wheelbase_mm": 3200, "studiedAxle": "rear", "torsionalStiffness_N_m_per_deg": 3000, "pitchInertia_kg_m2": 4200, "seatBehindFrontAxle_mm": 1500,
              "otherAxle": {
                "vehicle": {
                  "name": "Front axle", "suspension": "independent", "track_mm": 1580, "rollCentreHeight_mm": 80,
                  "body": { "mass_kg": 1000, "rollInertia_kg_m2": 300, "cgHeight_mm": 700 },
                  "unsprung": { "mass_kg": 110, "cgHeight_mm": 340 },
                  "springs": { "rate_N_per_mm": 42, "placement": { "motionRatios": { "heave": 1, "roll": 1 } } },
                  "antiRollBar_N_m_per_deg": 300,
                  "tyres": { "stiffness_N_per_mm": 240, "damping_N_s_per_m": 300 }
                },
                "layout": { "name": "front", "placement": { "motionRatios": { "heave": 0.8, "roll": 0.8 } }, "damper": "plain" }
              }
            }
            """)),
        "placed dampers with load states" => PlacementScenario.Shipped()
            .With("manoeuvre.duration_s", 5)
            .With("vehicle.travel.rebound_mm", 60)
            .With("vehicle.travel.combinations", "untilStopsTouchOrTyresLift")
            .With("loadStates", JsonNode.Parse("""{ "empty": {}, "laden": { "payload": [ { "mass_kg": 300, "height_mm": 900 } ] } }""")),
        _ => ShortScenario.Pair().With("tuning", JsonNode.Parse(Tuning)).With("targets", JsonNode.Parse(Targets)),
    };

    private static JsonObject Mounted() => ShortScenario.Pair().With("layouts", JsonNode.Parse(
        """
        [
          { "name": "Outboard", "damper": "plain", "placement": { "mounts": { "axleEnd_mm": [-100, 620, 300], "bodyEnd_mm": [-100, 600, 760] } } },
          { "name": "Inboard", "damper": "plain", "placement": { "mounts": { "axleEnd_mm": [-100, 380, 300], "bodyEnd_mm": [-80, 300, 750] } } }
        ]
        """)).With("targets", JsonNode.Parse(Targets));

    public static TheoryData<string> Scenarios => ["leaf axle with mounts, travel and load states", "dual tyres with bushes", "independent wheels", "random road", "tuning", "whole vehicle", "placed dampers with load states"];

    [Theory]
    [MemberData(nameof(Scenarios))]
    public async Task Comparison_says_the_same_on_the_terminal_in_its_summary_and_in_its_table(string name)
    {
        using var folder = new TemporaryFolder();
        var path = Scenario(name).WriteTo(folder);
        var told = await Run("compare", path, "--no-plots", "--out", folder["out"]);
        var states = States(folder["out/summary.json"]);

        Assert.Equal(name.EndsWith("load states", StringComparison.Ordinal) ? 2 : 1, states.Length);
        var rows = File.ReadAllLines(folder["out/metrics.csv"]).Select(line => line.Split(',')).ToArray();
        var stateColumn = Array.IndexOf(rows[0], "loadState");
        Assert.Equal(states.Length > 1, stateColumn >= 0);
        foreach (var row in rows[1..])
        {
            string Field(string key) => row[Array.IndexOf(rows[0], key)];
            var layout = states.Single(state => stateColumn < 0 || state.Name == row[stateColumn]).Layouts.Single(layout => Text(layout, "name") == Field("layout"));
            var values = (Field("phase") == "run" ? layout["metrics"] : layout["phases"]![Field("phase")])!.AsObject();
            foreach (var key in rows[0].Where(key => values.ContainsKey(key)))
                Assert.Equal((double?)values[key], Field(key) is { Length: > 0 } text ? Number(text) : null);
            Assert.Equal(((double)layout["motionRatios"]!["heave"]!, (double)layout["motionRatios"]!["roll"]!), (Number(Field("heaveRatio")), Number(Field("rollRatio"))));
        }

        var summary = JsonNode.Parse(File.ReadAllText(folder["out/summary.json"]))!;
        string[] sentences = [Text(summary, "decision"), .. summary["conclusions"]!.AsArray().Select(text => (string)text!)];
        Assert.All(sentences, sentence => Assert.Contains(sentence, told.Output, StringComparison.Ordinal));

        var lines = told.Output.Split('\n').Select(line => Gap().Split(line.TrimEnd())).ToArray();
        var checkedRows = 0;
        for (var s = 0; s < states.Length; s++)
        {
            var layouts = states[s].Layouts;
            foreach (var metric in RollMetric.All)
            {
                foreach (var line in Nth(lines, metric.Label, s, states.Length))
                {
                    Assert.Equal((metric.Label, string.Join(" | ", layouts.Select(layout => OfRun(layout, metric.Key, metric.Decimals)))), (metric.Label, string.Join(" | ", line[^layouts.Length..].Select(text => text.Replace('−', '-')))));
                    checkedRows++;
                }
            }

            foreach (var mode in Enum.GetValues<ModeName>())
            {
                foreach (var line in Nth(lines, $"{mode}, damping ratio at 0.13 m/s", s, states.Length))
                {
                    Same(line[^layouts.Length..], 3, [.. layouts.Select(layout => Mode(layout["modes"]!, mode, "dampingRatio"))], $"{mode}");
                    checkedRows++;
                }
            }
        }

        Assert.True(checkedRows >= 8 * states.Length);
        Assert.Equal(name == "whole vehicle", states[0].Layouts[0]["onVehicle"] is not null);
        if (name == "whole vehicle")
        {
            JsonNode[] onVehicle = [.. states[0].Layouts.Select(layout => layout["onVehicle"]!)];
            void Row(string label, int decimals, Func<JsonNode, double?> value) => Same(lines.Single(line => line[0] == label)[^onVehicle.Length..], decimals, [.. onVehicle.Select(value)], label);
            Row("Roll, damping ratio", 3, vehicle => (double?)vehicle["rollDampingRatio"]);
            Row("Bounce, damping ratio", 3, vehicle => DampingOf(vehicle, "bounce"));
            Row("Pitch, damping ratio", 3, vehicle => DampingOf(vehicle, "pitch"));
            Row("Front's share of load transfer, steady", 1, vehicle => 100 * (double?)vehicle["frontShareOfLoadTransferSteady"]);
            Row("Loss made up by the other axle", 0, vehicle => 100 * (double?)vehicle["lossMadeUpByOtherAxle"]);
        }

        static double? DampingOf(JsonNode vehicle, string mode) => (double?)vehicle["modes"]!.AsArray().Single(node => Text(node!, "name") == mode)!["dampingRatio"];
    }

    [Theory]
    [MemberData(nameof(Scenarios))]
    public async Task Other_commands_say_what_the_comparison_says(string name)
    {
        using var folder = new TemporaryFolder();
        var scenario = Scenario(name);
        var path = scenario.WriteTo(folder);
        await Run("compare", path, "--no-plots", "--out", folder["compare"]);
        var compared = States(folder["compare/summary.json"]);

        await Run("modes", path, "--no-plots", "--out", folder["modes"]);
        ForEachLayout(compared, States(folder["modes/modes.json"]), (layout, modes) =>
        {
            foreach (var mode in Enum.GetValues<ModeName>())
            {
                foreach (var key in (string[])["naturalFrequency_Hz", "dampingRatio"])
                    Assert.Equal(Mode(layout["modes"]!, mode, key), Mode(modes["modes"]!, mode, key));
            }
        });

        if (scenario["wholeVehicle"] is not null)
        {
            ForEachLayout(compared, States(folder["modes/modes.json"]), (layout, modes) =>
            {
                var (one, other) = (layout["onVehicle"]!.AsObject(), modes["onVehicle"]!.AsObject());
                string[] both = [.. one.Select(entry => entry.Key).Intersect(other.Select(entry => entry.Key))];
                Assert.Contains("modes", both);
                Assert.All(both, key => Assert.Equal(one[key]?.ToJsonString(), other[key]?.ToJsonString()));
            });
        }

        if (scenario["packaging"] is not null)
            await PlacesSayWhatTheComparisonSays(path, compared, folder);
        if (scenario["targets"] is not null)
        {
            await Run("window", path, "--no-plots", "--out", folder["window"]);
            ForEachLayout(compared, States(folder["window/window.json"]), (layout, window) =>
                Assert.Equal(layout["settingWindow"]!.ToJsonString(), window["window"]!.ToJsonString()));
        }

        if (scenario["vehicle"]!["travel"] is not null)
        {
            await Run("mounts", path, "--no-plots", "--out", folder["mounts"]);
            ForEachLayout(compared, States(folder["mounts/mounts.json"]), (layout, mounts) =>
                Assert.Equal(
                    ((double)layout["motionRatios"]!["heave"]!, (double)layout["motionRatios"]!["roll"]!),
                    ((double)mounts["heaveRatio"]!, (double)mounts["rollRatio"]!)));
        }

        var second = Text(compared[0].Layouts[1], "name");
        await Run("simulate", path, "--no-plots", "--layout", second, "--out", folder["simulate"]);
        var alone = States(folder["simulate/summary.json"]);
        for (var s = 0; s < compared.Length; s++)
        {
            var (one, other) = (compared[s].Layouts[1], Assert.Single(alone[s].Layouts));

            // What the other axle makes up for is the loss against another layout, and there is none.
            foreach (var layout in (JsonNode[])[one, other])
                layout["onVehicle"]?.AsObject().Remove("lossMadeUpByOtherAxle");
            Assert.Equal(one.ToJsonString(), other.ToJsonString());
        }

        if (scenario["tuning"] is not null)
        {
            var tuned = JsonNode.Parse((await Run("tune", path, "--no-front", "--no-plots", "--json", "--out", folder["tune"])).Output)!["layouts"]!.AsArray();
            await Run("compare", folder["tune/tuned.json"], "--no-plots", "--out", folder["again"]);
            var again = States(folder["again/summary.json"])[0].Layouts;
            for (var i = 0; i < tuned.Count; i++)
            {
                var (before, after) = (tuned[i]!["before"]!, tuned[i]!["after"]!);
                var bump = compared[0].Layouts[i]["phases"]!["bump"]!;
                Assert.Equal((double)before["overshoot_percent"]!, (double)compared[0].Layouts[i]["metrics"]!["rollOvershoot_percent"]!, 1e-9);
                Assert.Equal((double)before["weightedAcceleration_m_per_s2"]!, (double)bump["bodyWeightedRms_m_per_s2"]!, 1e-12);

                // The curve written has as many digits as a workshop reads.
                Assert.Equal((double)after["overshoot_percent"]!, (double)again[tuned.Count + i]["metrics"]!["rollOvershoot_percent"]!, 0.01);
                Assert.Equal((double)after["weightedAcceleration_m_per_s2"]!, (double)again[tuned.Count + i]["phases"]!["bump"]!["bodyWeightedRms_m_per_s2"]!, 1e-4);
            }
        }
    }

    /// <summary>Layouts that stand where packaging allows: where the damper fits, what each place is worth, and over which travel.</summary>
    private static async Task PlacesSayWhatTheComparisonSays(string path, (string Name, JsonNode[] Layouts)[] compared, TemporaryFolder folder)
    {
        await Run("place", path, "--no-plots", "--out", folder["place"]);
        await Run("mounts", path, "--no-plots", "--out", folder["mounts"]);
        var bands = JsonNode.Parse(File.ReadAllText(folder["place/placement.json"]))!;
        var mounts = JsonNode.Parse(File.ReadAllText(folder["mounts/mounts.json"]))!;
        for (var s = 0; s < compared.Length; s++)
        {
            var (placed, mounted) = (bands["loadStates"]![s]!, mounts["loadStates"]![s]!);
            foreach (var layout in compared[s].Layouts)
            {
                var name = Text(layout, "name");
                var band = bands["common"]!.AsArray().Single(band => Text(band!, "name") == name)!;
                var worth = band["inEachLoadState"]![s]!;
                var drawn = placed["layouts"]!.AsArray().Single(drawn => Text(drawn!, "name") == name)!;
                var mount = mounted["layouts"]!.AsArray().Single(mount => Text(mount!, "name") == name)!;
                Assert.Equal(compared[s].Name, Text(worth, "loadState"));
                Assert.Equal((double)band["to_mm"]!, (double)drawn["axleEnd_mm"]!);
                Assert.True((bool)drawn["fits"]!);

                // A margin is known to 0.01 mm.
                Assert.True((double)mount["leftExtended_mm"]! > -0.01 && (double)mount["leftClosed_mm"]! > -0.01);
                Assert.Equal(placed["travel"]!.ToJsonString(), mount["travel"]!.ToJsonString());
                foreach (var of in (JsonNode[])[worth, mount])
                    Assert.Equal(((double)layout["motionRatios"]!["heave"]!, (double)layout["motionRatios"]!["roll"]!), ((double)of["heaveRatio"]!, (double)of["rollRatio"]!));
                Assert.Equal(
                    (Mode(layout["modes"]!, ModeName.Heave, "dampingRatio"), Mode(layout["modes"]!, ModeName.Roll, "dampingRatio")),
                    ((double?)worth["heaveDampingRatio"], (double?)worth["rollDampingRatio"]));
            }
        }
    }

    // A report takes some seconds: not every kind of it.
    [Theory]
    [InlineData("leaf axle with mounts, travel and load states")]
    [InlineData("random road")]
    [InlineData("whole vehicle")]
    public async Task Report_shows_the_numbers_and_the_titles_of_the_comparison(string name)
    {
        using var folder = new TemporaryFolder();
        var path = Scenario(name).WriteTo(folder);
        await Run("compare", path, "--no-plots", "--out", folder["compare"]);
        var states = States(folder["compare/summary.json"]);
        await Run("report", path, "--out", folder["report"]);
        var page = WebUtility.HtmlDecode(File.ReadAllText(folder["report/report.html"]));

        Assert.Contains(Text(JsonNode.Parse(File.ReadAllText(folder["compare/summary.json"]))!, "decision"), Plain(page).Replace('\n', ' '), StringComparison.Ordinal); // in two paragraphs
        // Of several load states the report shows one, and all its rows are of that one. Where the whole run has a row beside its phases, it comes first.
        (string Label, string Key, int Decimals)[] metrics = [.. RollMetric.All.Select(metric => (metric.Label, metric.Key, metric.Decimals)), .. PhaseMetric.All.Select(metric => (metric.Label, metric.Key, metric.Decimals))];
        string[][] Shows(string label) => [.. Rows(page, $"Whole run: {label}"), .. Rows(page, label)];
        var shown = metrics.Where(metric => Shows(metric.Label).Length > 0).ToArray();
        string[] Of((string Name, JsonNode[] Layouts) state) =>
            [.. shown.Select(metric => $"{metric.Label}: {string.Join(" | ", state.Layouts.Select(layout => OfRun(layout, metric.Key, metric.Decimals)))}")];

        Assert.True(shown.Length >= 7); // without those of which no layout has any
        string[] rows = [.. shown.Select(metric => $"{metric.Label}: {string.Join(" | ", Shows(metric.Label)[0])}")];
        if (states.Length == 1)
            Assert.Equal(Of(states[0]), rows);
        else
            Assert.Single(states, state => Of(state).SequenceEqual(rows));

        var overshoots = states[0].Layouts.Select(layout => (Name: Text(layout, "name"), Percent: (double)layout["metrics"]!["rollOvershoot_percent"]!)).OrderBy(at => at.Percent).ToArray();
        if (states.Length == 1)
        {
            Assert.Contains(
                FormattableString.Invariant($"roll overshoots by {overshoots[0].Percent:F0} % with “{overshoots[0].Name}”, by {overshoots[^1].Percent:F0} % with “{overshoots[^1].Name}”"),
                Plain(page),
                StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Tolerances_are_the_same_where_they_are_tuned_and_in_the_report()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario("tuning").WriteTo(folder);
        var told = await Run("tune", path, "--no-front", "--no-plots", "--out", folder["tune"]);
        await Run("report", path, "--out", folder["report"]);
        var page = WebUtility.HtmlDecode(File.ReadAllText(folder["report/report.html"]));
        var layouts = JsonNode.Parse(File.ReadAllText(folder["tune/tuning.json"]))!["robustness"]!["layouts"]!.AsArray();
        var lines = told.Output[told.Output.IndexOf("Holds ", StringComparison.Ordinal)..].Split('\n').Select(line => Gap().Split(line.TrimEnd())).ToArray();

        Assert.Equal(2, layouts.Count);
        foreach (var layout in layouts)
        {
            var (name, valving) = (Text(layout!, "name"), layout!["perfectParts"]!);
            var (softer, harder, tolerance) = ((double?)valving["forceMarginBelow_percent"], (double?)valving["forceMarginAbove_percent"], (double)valving["drawingTolerance_percent"]!);
            string Told(double? margin) => margin is null ? "none does" : Shown(margin, 1);
            string InReport(double? margin) => margin is null ? "no damper reaches it" : margin < 0 ? $"lost already, {Shown(-margin, 1)}" : Shown(margin, 1);
            Assert.Equal([name, Told(softer), Told(harder), tolerance > 0 ? Shown(tolerance, 0) : "none"], lines.First(line => line[0] == name));
            string[] row = [InReport(softer), InReport(harder), tolerance > 0 ? $"± {Shown(tolerance, 0)} %" : "none", Shown((double)valving["weightedAcceleration_m_per_s2"]!, 2)];
            Assert.Contains(PlainRows(page, name), cells => cells.SequenceEqual(row));
        }
    }

    [Fact]
    public async Task Means_over_random_roads_are_the_same_on_the_terminal_in_the_table_and_in_the_report()
    {
        using var folder = new TemporaryFolder();
        var path = Scenario("random road").WriteTo(folder);
        var told = await Run("compare", path, "--seeds", "3", "--no-plots", "--out", folder["out"]);
        await Run("report", path, "--seeds", "3", "--out", folder["report"]);
        var page = WebUtility.HtmlDecode(File.ReadAllText(folder["report/report.html"]));
        var lines = told.Output[told.Output.IndexOf("mean ± half", StringComparison.Ordinal)..].Split('\n').Select(line => Gap().Split(line.TrimEnd())).ToArray();
        var rows = File.ReadAllLines(folder["out/seeds.csv"]).Select(line => line.Split(',')).Where(row => row[1] == "ride").ToArray();

        foreach (var metric in RideMetric.All)
        {
            string[] expected = [.. rows.Where(row => row[2] == metric.Key).Select(row => FormattableString.Invariant(
                $"{Number(row[4]).ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)} ± {Number(row[5]).ToString($"F{metric.Decimals}", CultureInfo.InvariantCulture)}"))];
            Assert.Equal(2, expected.Length);
            Assert.Equal(expected, lines.First(line => line[0] == metric.Label)[^2..]);
            Assert.Contains(Rows(page, metric.Label), cells => cells.SequenceEqual(expected));
        }
    }

    private static async Task<Invocation> Run(params string[] args)
    {
        var done = await Invocation.Of(args);
        Assert.True(done.ExitCode == ExitCode.Done, done.Error);
        return done;
    }

    /// <summary>The load states of a summary with what stands for each layout; one without a name where there are none.</summary>
    private static (string Name, JsonNode[] Layouts)[] States(string file)
    {
        var summary = JsonNode.Parse(File.ReadAllText(file))!;
        return summary["loadStates"] is JsonArray states
            ? [.. states.Select(state => ((string)state!["name"]!, Layouts(state)))]
            : [("", Layouts(summary))];

        static JsonNode[] Layouts(JsonNode node) => [.. node["layouts"]!.AsArray().Select(layout => layout!)];
    }

    private static void ForEachLayout((string Name, JsonNode[] Layouts)[] one, (string Name, JsonNode[] Layouts)[] other, Action<JsonNode, JsonNode> compare)
    {
        Assert.Equal(one.Select(state => state.Name), other.Select(state => state.Name));
        foreach (var (first, second) in one.Zip(other))
        {
            Assert.Equal(first.Layouts.Select(layout => Text(layout, "name")), second.Layouts.Select(layout => Text(layout, "name")));
            foreach (var (layout, same) in first.Layouts.Zip(second.Layouts))
                compare(layout, same);
        }
    }

    private static string Text(JsonNode node, string key) => (string)node[key]!;

    private static double? Mode(JsonNode modes, ModeName mode, string key) => (double?)modes.AsArray().Single(node => Text(node!, "name") == ModeNames.Key(mode))![key];

    /// <summary>The rows of a label that belong to one of several load states told one after the other; none where the label is not shown.</summary>
    private static IEnumerable<string[]> Nth(string[][] lines, string label, int state, int states)
    {
        var rows = lines.Where(line => line[0] == label).ToArray();
        return rows.Length < states ? [] : [rows[state]];
    }

    private static void Same(string[] shown, int decimals, double?[] values, string what) =>
        Assert.Equal((what, string.Join(" | ", values.Select(value => Shown(value, decimals)))), (what, string.Join(" | ", shown.Select(text => text.Replace('−', '-')))));

    /// <summary>A metric of the whole run as every table shows it: of a settling time that is not reached, what it is longer than.</summary>
    private static string OfRun(JsonNode layout, string key, int decimals)
    {
        var metrics = layout["metrics"]!;
        return key == "rollSettlingTime_s" && metrics[key] is null && metrics["rollOvershoot_percent"] is not null
            ? "> 10.2" // the ramp of 0.2 s and 10 s after it, in which it has not settled
            : Shown((double?)metrics[key], decimals);
    }

    private static string Shown(double? value, int decimals) =>
        value is not { } number ? "–"
        : number.ToString($"F{decimals}", CultureInfo.InvariantCulture) is var text && double.Parse(text, CultureInfo.InvariantCulture) == 0 ? text.TrimStart('-') : text;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>The values in the rows of a label, without the differences and marks beside them.</summary>
    private static IEnumerable<string[]> Rows(string page, string label) => RowOf().Matches(page)
        .Where(row => row.Groups[1].Value == label)
        .Select(row => CellOf().Matches(row.Value).Select(cell => Tag().Replace(Beside().Replace(cell.Groups[1].Value, ""), "").Trim()).ToArray());

    /// <summary>The values in the rows of a label in tables whose columns are no layouts.</summary>
    private static IEnumerable<string[]> PlainRows(string page, string label) => RowOf().Matches(page)
        .Where(row => row.Groups[1].Value == label)
        .Select(row => PlainCellOf().Matches(row.Value).Select(cell => cell.Groups[1].Value).ToArray());

    private static string Plain(string page) => Tag().Replace(page, "").Replace('\u00a0', ' ');

    [GeneratedRegex(@"\s{2,}")]
    private static partial Regex Gap();

    [GeneratedRegex("""<tr><th scope="row">([^<]*)</th>.*?</tr>""", RegexOptions.Singleline)]
    private static partial Regex RowOf();

    [GeneratedRegex("""<td data-layout="[^"]*">(.*?)</td>""", RegexOptions.Singleline)]
    private static partial Regex CellOf();

    [GeneratedRegex("<td>(.*?)</td>", RegexOptions.Singleline)]
    private static partial Regex PlainCellOf();

    [GeneratedRegex("<small.*?</small>", RegexOptions.Singleline)]
    private static partial Regex Beside();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tag();
}
