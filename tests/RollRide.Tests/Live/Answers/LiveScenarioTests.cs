using System.Globalization;
using System.Text.Json.Nodes;
using CsCheck;
using RollRide.Findings;
using RollRide.Live.Answers;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Live.Answers;

public sealed class LiveScenarioTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private string Copy(string scenario)
    {
        foreach (var data in Directory.EnumerateFiles(Shipped.PathOf("scenarios"), "*.csv"))
            File.Copy(data, _folder[Path.GetFileName(data)], overwrite: true);
        File.Copy(Shipped.Scenario(scenario), _folder[scenario], overwrite: true);
        return _folder[scenario];
    }

    private static JsonObject Request(string edits = "", string rest = "", string files = "") =>
        JsonNode.Parse($$"""{ "id": 7, "state": { "edits": [{{edits}}], "files": [{{files}}] }{{(rest.Length > 0 ? $", {rest}" : "")}} }""")!.AsObject();

    private static string Edit(string path, string value) => $$"""{ "path": {{JsonValue.Create(path).ToJsonString()}}, "value": {{value}} }""";

    private static string FaultsOf(JsonObject answer) => answer["faults"]!.ToJsonString();

    private static string DecisionOf(string path)
    {
        var states = Comparison.RunInEachLoad(ScenarioReader.Read(path).Study, cancellation: TestContext.Current.CancellationToken);
        return VerdictWords.Decision(Verdict.Of([.. states.Select(state => new ComparisonFindings(state))]))!;
    }

    [Theory]
    [InlineData("bump-then-corner.json")]
    [InlineData("placement.json")]
    [InlineData("sweep-load-states.json")]
    [InlineData("independent-front.json")]
    public void Start_shows_the_scenario_as_its_reader_understands_it(string name)
    {
        var path = Copy(name);
        var study = ScenarioReader.Read(path).Study;
        var start = new LiveScenario(path).Start();
        Assert.Equal("[]", FaultsOf(start));
        Assert.Equal((name, study.Provenance.Scenario, study.Vehicle.Name), ((string)start["file"]!, (string)start["name"]!, (string)start["vehicle"]!));
        Assert.Equal(study.Layouts.Select(layout => layout.Name), start["document"]!["layouts"]!.AsArray().Select(node => (string)node!["name"]!));
        Assert.Equal(study.Loads.Select(load => load.Name), start["loads"]!.AsArray().Select(node => (string)node!));
        Assert.True(JsonNode.DeepEquals(ScenarioMutations.Tree(File.ReadAllText(path)), start["document"]));
        var fields = start["fields"]!.AsArray().ToDictionary(field => (string)field!["path"]!, field => field!);
        foreach (var number in ScenarioTemplate.Read(path).Numbers)
            Assert.Equal(number.Value, (double?)fields[number.Path]["value"]);
        Assert.NotEmpty(start["prominent"]!.AsArray());
        Assert.All(start["prominent"]!.AsArray(), prominent => Assert.True((bool)fields[(string)prominent!]["isWritten"]!));
    }

    [Fact]
    public void A_field_has_its_words_unit_limits_and_explanation_from_the_key()
    {
        var fields = new LiveScenario(Copy("bump-then-corner.json")).Start()["fields"]!.AsArray().ToDictionary(field => (string)field!["path"]!, field => field!);
        var rate = fields["vehicle.springs.rate_N_per_mm"];
        Assert.Equal(("Rate", "N/mm", "Springs", 62), ((string)rate["label"]!, (string)rate["unit"]!, (string)rate["group"]!, (double)rate["value"]!));
        Assert.NotEmpty((string)rate["explanation"]!);
        Assert.Equal("Axle end, y", (string)fields["layouts[0].placement.mounts.axleEnd_mm[1]"]["label"]!);
        Assert.Equal((-10_000, 10_000), ((double)fields["layouts[0].placement.mounts.axleEnd_mm[1]"]["limits"]!["atLeast"]!, (double)fields["layouts[0].placement.mounts.axleEnd_mm[1]"]["limits"]!["atMost"]!));
        Assert.Equal("Road, event 1, bump", (string)fields["manoeuvre.road.events[0].bump.height_mm"]["group"]!);
        Assert.Equal("Layout Inboard of the rail, placement, mounts", (string)fields["layouts[1].placement.mounts.axleEnd_mm[1]"]["group"]!);
        Assert.Equal("kg·m²", (string)fields["vehicle.body.rollInertia_kg_m2"]["unit"]!);
        Assert.False((bool)fields["output.rate_Hz"]["isWritten"]!);
    }

    // What the page shows is what the command finds in the scenario saved with the same changes, read from disk: to the last bit.
    [Theory]
    [InlineData("bump-then-corner.json", 3)]
    [InlineData("valving.json", 2)]
    [InlineData("placement.json", 1)]
    [InlineData("sweep-load-states.json", 1)]
    [InlineData("independent-front.json", 2)]
    [InlineData("dual-tyre.json", 1)]
    public void Every_figure_is_that_of_the_saved_scenario(string name, int samples)
    {
        var live = new LiveScenario(Copy(name));
        var numbers = live.Start()["fields"]!.AsArray().Where(field => field!["names"] is null && (bool)field["isWritten"]! && (double?)field["value"] is not (null or 0))
            .Select(field => (Path: (string)field!["path"]!, Value: (double)field["value"]!)).Where(number => IsOfVehicleOrLayout(number.Path)).ToArray();
        var compared = 0;
        Gen.Select(Gen.Int[0, numbers.Length - 1], Gen.Double[0.98, 1.02]).List[2, 4].SampleSame(8 * samples, changes =>
        {
            var edits = string.Join(", ", changes.Select(change => Edit(numbers[change.Item1].Path, (numbers[change.Item1].Value * change.Item2).ToString("R", CultureInfo.InvariantCulture))));
            var answer = live.Answer(Request(edits));
            if (answer["faults"]!.AsArray().Count > 0 || compared >= samples)
                return;
            compared++;
            var saved = live.Save(Request(edits, """ "name": "saved.json", "overwrite": true"""));
            Assert.Equal("saved.json", (string?)saved["saved"]);
            var study = ScenarioReader.Read(_folder["saved.json"]).Study.InEachLoad[0];
            Assert.Equal(study.Layouts.Length, answer["layouts"]!.AsArray().Count);
            foreach (var (layout, shown) in study.Layouts.Zip(answer["layouts"]!.AsArray()))
                AssertFigures(Comparison.RunLayout(study, layout), shown!);
        });
        Assert.Equal(samples, compared);

        static bool IsOfVehicleOrLayout(string path) => path.StartsWith("vehicle.", StringComparison.Ordinal) || path.StartsWith("layouts", StringComparison.Ordinal) || path.StartsWith("manoeuvre", StringComparison.Ordinal);
    }

    private static void AssertFigures(LayoutResult run, JsonNode shown)
    {
        var rows = shown["rows"]!.AsArray().ToDictionary(row => (string)row!["key"]!, row => (double?)row!["value"]);
        Assert.Equal(run.Name, (string)shown["name"]!);
        Assert.Equal(run.Car.Layout.Fitting.RollRatio, rows["rollRatio"]);
        Assert.Equal(run.Car.Layout.Fitting.HeaveRatio, rows["heaveRatio"]);
        foreach (var mode in run.ReferenceModes.All)
        {
            Assert.Equal(mode.DampingRatio, rows[$"{ModeNames.Key(mode.Name)}DampingRatio"]);
            Assert.Equal(mode.NaturalFrequency, rows[$"{ModeNames.Key(mode.Name)}NaturalFrequency_Hz"]);
        }

        if (run.Window is { } window)
            Assert.Equal(window.Modes.Roll.DampingRatio, rows["rollDampingRatioAtTargets"]);
        Assert.Equal(run.Metrics.RollResponse is null, !rows.ContainsKey("rollOvershoot_percent"));
        if (run.Metrics.RollResponse is not null)
            Assert.All(RollMetric.OfCorner, metric => Assert.Equal(metric.Shown(run.Metrics), rows[metric.Key]));
        foreach (var row in rows.Where(row => row.Key.EndsWith($".{PhaseMetric.BodyAccelerationRms.Key}", StringComparison.Ordinal)))
            Assert.Equal(PhaseMetric.BodyAccelerationRms.Shown(run.Metrics.Phases.Single(phase => row.Key.StartsWith($"{phase.Name}.", StringComparison.Ordinal))), row.Value);
        foreach (var metric in (PhaseMetric[])[PhaseMetric.BodyAccelerationPeak, PhaseMetric.TyreLoadMinimum, PhaseMetric.LiftOffTime, PhaseMetric.SeatWeightedRms])
            Assert.Equal(metric.Shown(run.Metrics.Whole), rows[metric.Key]);
    }

    [Fact]
    public void Load_and_layouts_are_chosen_by_name_and_unknown_ones_are_faults()
    {
        var path = Copy("sweep-load-states.json");
        var live = new LiveScenario(path);
        var study = ScenarioReader.Read(path).Study;
        var load = study.Loads[^1];
        var answer = live.Answer(Request(rest: $$""" "load": "{{load.Name}}", "layouts": ["{{study.Layouts[1].Name}}", "none"] """));
        Assert.Equal(load.Name, (string)answer["load"]!);
        AssertFigures(Comparison.RunLayout(study with { Load = load }, study.Layouts[1]), Assert.Single(answer["layouts"]!.AsArray())!);
        Assert.Contains("there is no layout “none”", (string)Assert.Single(answer["faults"]!.AsArray())!["message"]!, StringComparison.Ordinal);
        Assert.Contains("there is no load state “none”", (string)Assert.Single(live.Answer(Request(rest: """ "load": "none" """))["faults"]!.AsArray())!["message"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void The_windows_are_those_of_the_command()
    {
        var path = Copy("bump-then-corner.json");
        var live = new LiveScenario(path);
        var edit = Edit("layouts[1].placement.mounts.axleEnd_mm[1]", "560");
        live.Window(Request());
        var window = live.Window(Request(edit));
        live.Save(Request(edit, """ "name": "saved.json" """));
        var expected = SettingWindowStudy.Run(ScenarioReader.Read(_folder["saved.json"]).Study, TestContext.Current.CancellationToken);
        foreach (var (layout, shown) in expected.Layouts.Zip(window["layouts"]!.AsArray()))
        {
            Assert.Equal((layout.Name, layout.Verdict.Window.IsOpen), ((string)shown!["name"]!, (bool)shown["isOpen"]!));
            Assert.Equal(double.IsFinite(layout.Verdict.Window.Lower.Coefficient) ? layout.Verdict.Window.Lower.Coefficient : null, (double?)shown["from"]);
            Assert.Equal(layout.Verdict.Window.Upper.Coefficient, (double?)shown["to"]);
            Assert.Equal(layout.Verdict.Coefficient, (double?)shown["present"]);
        }

        var upright = Assert.Single(expected.Upright);
        var byPosition = Assert.Single(window["upright"]!.AsArray())!["byPosition"]!.AsArray();
        Assert.Equal(upright.ByPosition.Select(at => (double?)at.Window.Upper.Coefficient), byPosition.Select(at => (double?)at!["to"]));
    }

    [Fact]
    public void The_verdict_is_the_sentence_of_the_command()
    {
        var live = new LiveScenario(Copy("sweep-load-states.json"));
        var edit = Edit("vehicle.springs.rate_N_per_mm", "80");
        var decision = (string)live.Verdict(Request(edit))["decision"]!;
        live.Save(Request(edit, """ "name": "saved.json" """));
        Assert.Equal(DecisionOf(_folder["saved.json"]), decision);
    }

    [Fact]
    public void An_impossible_place_is_shown_with_what_is_in_the_way()
    {
        var live = new LiveScenario(Copy("placement.json"));
        string At(int y) => Edit("layouts[0].placement", $$"""{ "mounts": { "axleEnd_mm": [-120, {{y}}, 300], "bodyEnd_mm": [-120, {{y - 20}}, 770] } }""");

        // The frame rail reaches from 390 to 450 mm.
        var inRail = live.Answer(Request(At(430), """ "parts": ["place", "scene", "bands"] """));
        var place = inRail["layouts"]![0]!["place"]!;
        Assert.Equal((true, false), ((bool)place["isChecked"]!, (bool)place["fits"]!));
        Assert.Contains(place["inTheWay"]!.AsArray(), sentence => ((string)sentence!).Contains("frame rail", StringComparison.Ordinal));
        var bands = inRail["scene"]!["bands"]!.AsArray().Select(band => ((double)band![0]!, (double)band[1]!)).ToArray();
        Assert.NotEmpty(bands);
        Assert.All(bands, band => Assert.False(band.Item1 < 430 && band.Item2 > 430));
        var (from, to) = bands[^1];
        var free = live.Answer(Request(At((int)((from + to) / 2)), """ "parts": ["place"] """));
        Assert.True((bool)free["layouts"]![0]!["place"]!["fits"]!, free.ToJsonString());
    }

    [Fact]
    public void A_fault_of_the_state_stands_at_its_value_and_nothing_is_computed()
    {
        var answer = new LiveScenario(Copy("bump-then-corner.json")).Answer(Request(Edit("vehicle.body.mass_kg", "-5")));
        var fault = Assert.Single(answer["faults"]!.AsArray())!;
        Assert.Equal(("vehicle.body.mass_kg", "-5"), ((string)fault["path"]!, (string)fault["value"]!));
        Assert.Empty(answer["layouts"]!.AsArray());
        Assert.Equal(7, (int)answer["id"]!);
    }

    [Fact]
    public void A_scenario_at_fault_is_shown_as_far_as_it_goes_and_recovers_when_mended()
    {
        var path = _folder.Write("van.json", "{ \"name\": ");
        var live = new LiveScenario(path);
        var broken = live.Start();
        Assert.Single(broken["faults"]!.AsArray());
        Assert.Null(broken["document"]);
        File.Copy(Copy("bump-then-corner.json"), path, overwrite: true);
        live.Reload();
        Assert.Equal("[]", FaultsOf(live.Start()));
        Assert.Equal([path, _folder["valley-damper-dyno.csv"]], live.Files);
    }

    [Fact]
    public void A_file_out_of_the_folder_is_read_only_where_the_scenario_on_disk_names_it()
    {
        var path = Copy("bump-then-corner.json");
        Directory.CreateDirectory(_folder["sub"]);
        var inner = _folder.Write(Path.Combine("sub", "van.json"), File.ReadAllText(path).Replace("valley-damper-dyno.csv", "../valley-damper-dyno.csv", StringComparison.Ordinal));
        var live = new LiveScenario(inner);
        Assert.Equal("[]", FaultsOf(live.Start()));
        foreach (var outside in (string[])["../timber-axle-dyno.csv", _folder["timber-axle-dyno.csv"], "/etc/passwd", "x/../../timber-axle-dyno.csv", "../sub2/x.csv", "\0"])
        {
            var fault = Assert.Single(live.Answer(Request(Edit("dampers.valley.dyno", JsonValue.Create(outside).ToJsonString())))["faults"]!.AsArray())!;
            Assert.Contains("outside the scenario's folder", (string)fault["message"]!, StringComparison.Ordinal);
        }

        Assert.Equal("[]", FaultsOf(live.Answer(Request(Edit("dampers.copy", """{ "dyno": "../valley-damper-dyno.csv" }""")))));
        Assert.DoesNotContain(live.Files, file => file.Contains("passwd", StringComparison.Ordinal));
    }

    [Fact]
    public void A_link_in_the_folder_is_read_only_where_the_scenario_on_disk_names_it()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights there.");
        using var elsewhere = new TemporaryFolder();
        var path = Copy("bump-then-corner.json");
        File.Move(_folder["valley-damper-dyno.csv"], elsewhere["valley-damper-dyno.csv"]);
        File.CreateSymbolicLink(_folder["valley-damper-dyno.csv"], elsewhere["valley-damper-dyno.csv"]);
        File.CreateSymbolicLink(_folder["link.csv"], elsewhere["valley-damper-dyno.csv"]);
        Directory.CreateSymbolicLink(_folder["folder"], elsewhere[""]);
        var live = new LiveScenario(path);
        Assert.Equal("[]", FaultsOf(live.Start()));
        foreach (var link in (string[])["link.csv", "folder/valley-damper-dyno.csv"])
            Assert.Contains("behind no link", FaultsOf(live.Answer(Request(Edit("dampers.valley.dyno", $"\"{link}\"")))), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_saved_through_a_link_that_leads_to_nothing()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights there.");
        using var elsewhere = new TemporaryFolder();
        var live = new LiveScenario(Copy("bump-then-corner.json"));
        File.CreateSymbolicLink(_folder["van.json"], elsewhere["van.json"]);
        var refused = live.Save(Request(Edit("vehicle.springs.rate_N_per_mm", "70"), """ "name": "van.json" """));
        Assert.True((bool)refused["exists"]!);
        Assert.False(File.Exists(elsewhere["van.json"]));
    }

    [Fact]
    public void A_file_name_that_no_file_can_have_is_a_fault_and_not_watched()
    {
        var path = Copy("bump-then-corner.json");
        File.WriteAllText(path, File.ReadAllText(path).Replace("valley-damper-dyno.csv", "a\\u0000.csv", StringComparison.Ordinal));
        var live = new LiveScenario(path);
        Assert.Contains("there is no such file", FaultsOf(live.Start()), StringComparison.Ordinal);
        Assert.Equal([path], live.Files);
    }

    [Fact]
    public void A_changed_curve_is_read_as_if_its_file_stood_beside_the_scenario_and_saved_as_one()
    {
        var path = Copy("bump-then-corner.json");
        var (text, dyno) = (File.ReadAllText(path), File.ReadAllText(_folder["valley-damper-dyno.csv"]));
        var live = new LiveScenario(path);
        const string Curve = """{ "name": "valley-edited.csv", "rows": [[-1.0, -3100.5], [-0.1, -700], [0, 0], [0.1, 450], [1.0, 1900.25]] }""";
        var edit = Edit("dampers.valley.dyno", "\"valley-edited.csv\"");
        var answer = live.Answer(Request(edit, files: Curve));
        Assert.Equal("[]", FaultsOf(answer));
        Assert.Equal("[[-1,-3100.5],[-0.1,-700],[0,0],[0.1,450],[1,1900.25]]", answer["dampers"]!["valley"]!["points"]!.ToJsonString());
        Assert.False(File.Exists(_folder["valley-edited.csv"]));

        var saved = live.Save(Request(edit, """ "name": "my-van.json" """, Curve));
        Assert.Equal("""{"saved":"my-van.json","files":["valley-edited.csv"]}""", saved.ToJsonString());
        Assert.Equal((text, dyno), (File.ReadAllText(path), File.ReadAllText(_folder["valley-damper-dyno.csv"])));
        Assert.Equal(text.Replace("\"valley-damper-dyno.csv\"", "\"valley-edited.csv\"", StringComparison.Ordinal), File.ReadAllText(_folder["my-van.json"]));
        Assert.Equal("velocity_m_per_s,force_N\n-1,-3100.5\n-0.1,-700\n0,0\n0.1,450\n1,1900.25\n", File.ReadAllText(_folder["valley-edited.csv"]));
        var study = ScenarioReader.Read(_folder["my-van.json"]).Study;
        foreach (var (layout, shown) in study.Layouts.Zip(answer["layouts"]!.AsArray()))
            AssertFigures(Comparison.RunLayout(study, layout), shown!);

        // The same curve again is there already; another one needs another name.
        Assert.Equal("[]", FaultsOf(live.Answer(Request(edit, files: Curve))));
        Assert.Contains("is there already", FaultsOf(live.Answer(Request(edit, files: Curve.Replace("450", "460", StringComparison.Ordinal)))), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("# Run of 3 May, 24 degC\r\nforce_N, velocity_m_per_s\r\n-1500.1234567, -1.0\r\n\r\n# at rest\r\n 0 , 0\r\n 900.50 , +1.0e0\r\n400,0.25\r\n400,0.25\r\n# end", "400,0.25\r\n400,0.25", "450.5,0.25\r\n450.5,0.25")]
    [InlineData("# sheet\n# positive: compression\n# separator: semicolon\n# decimal: comma\nspeed_mm_per_s;compression_N;rebound_N;tolerance_percent\n1000,0; 900,5 ; -1500,1234567;10\n250;400;-600;12\n", "250;400;-600;12", "250;450,5;-600;12")]
    [InlineData("speed_m_per_s,compression_N,rebound_N\n1,900.5,1500.1234567\n0.25,400,600\n0,0,0\n", "0.25,400,600", "0.25,450.5,600")]
    public void A_changed_curve_keeps_all_of_its_file_but_the_changed_force(string text, string before, string after)
    {
        var path = Copy("bump-then-corner.json");
        _folder.Write("valley-damper-dyno.csv", text);
        var live = new LiveScenario(path);
        Assert.Equal("[]", FaultsOf(live.Start()));
        var points = live.Answer(Request())["dampers"]!["valley"]!["points"]!.AsArray();
        Assert.Equal(400, (double)points.Single(point => (double)point![0]! == 0.25)![1]!);
        points.Single(point => (double)point![0]! == 0.25)![1] = 450.5;
        var curve = $$"""{ "name": "mine.csv", "from": "valley-damper-dyno.csv", "rows": {{points.ToJsonString()}} }""";
        var edit = Edit("dampers.valley.dyno", "\"mine.csv\"");
        var shown = live.Answer(Request(edit, files: curve));
        Assert.Equal("[]", FaultsOf(shown));
        Assert.Equal("""{"saved":"my-van.json","files":["mine.csv"]}""", live.Save(Request(edit, """ "name": "my-van.json" """, curve)).ToJsonString());
        Assert.Equal(text.Replace(before, after, StringComparison.Ordinal), File.ReadAllText(_folder["mine.csv"]));
        var study = ScenarioReader.Read(_folder["my-van.json"]).Study;
        Assert.Equal(450.5, study.Layouts[0].Damper.Curve.Force(0.25));
        AssertFigures(Comparison.RunLayout(study, study.Layouts[0]), shown["layouts"]![0]!);
    }

    [Fact]
    public void A_force_that_contradicts_its_file_is_refused_and_no_other_file_is_looked_at()
    {
        var path = Copy("bump-then-corner.json");
        _folder.Write("secret.csv", "# secret\nvelocity_m_per_s,force_N\n-1,-1500\n0,0\n1,900\n");
        var live = new LiveScenario(path);
        var edit = Edit("dampers.valley.dyno", "\"mine.csv\"");
        string Curve(string from, string force) => $$"""{ "name": "mine.csv", "from": "{{from}}", "rows": [[-1, -1500], [0, 0], [1, {{force}}]] }""";
        Assert.Equal("[]", FaultsOf(live.Answer(Request(edit, files: Curve("secret.csv", "800")))));
        live.Save(Request(edit, """ "name": "my-van.json" """, Curve("secret.csv", "800")));
        Assert.Equal("velocity_m_per_s,force_N\n-1,-1500\n0,0\n1,800\n", File.ReadAllText(_folder["mine.csv"]));

        File.Move(_folder["secret.csv"], _folder["valley-damper-dyno.csv"], overwrite: true);
        live.Reload();
        Assert.Contains("no damper of a vehicle gives such a force", FaultsOf(live.Answer(Request(Edit("dampers.valley.dyno", "\"other.csv\""), files: Curve("valley-damper-dyno.csv", "1e9").Replace("mine", "other", StringComparison.Ordinal)))), StringComparison.Ordinal);
    }

    [Fact]
    public void A_kept_layout_is_saved_as_one_more_and_reads_back()
    {
        var path = Copy("bump-then-corner.json");
        var text = File.ReadAllText(path);
        var live = new LiveScenario(path);
        var kept = Edit("layouts[3]", """{"name": "Kept 1", "placement": {"mounts": {"axleEnd_mm": [-120, 600, 300], "bodyEnd_mm": [-120, 600, 750]}}, "damper": "valley"}""");
        Assert.Equal(4, live.Answer(Request(kept))["layouts"]!.AsArray().Count);
        Assert.Equal("my-van.json", (string?)live.Save(Request(kept, """ "name": "my-van.json" """))["saved"]);
        var saved = File.ReadAllText(_folder["my-van.json"]);
        Assert.Equal("Kept 1", ScenarioReader.Read(_folder["my-van.json"]).Study.Layouts[3].Name);
        var added = saved.Split('\n').Except(text.Split('\n')).ToArray();
        Assert.All(text.Split('\n'), line => Assert.Contains(line, saved, StringComparison.Ordinal));
        Assert.Single(added, line => line.Contains("\"Kept 1\"", StringComparison.Ordinal));
    }

    [Fact]
    public void Save_writes_over_a_file_only_when_told_and_never_with_a_fault()
    {
        var path = Copy("bump-then-corner.json");
        var text = File.ReadAllText(path);
        var live = new LiveScenario(path);
        var edit = Edit("vehicle.springs.rate_N_per_mm", "70");
        var refused = live.Save(Request(edit, """ "name": "bump-then-corner.json" """));
        Assert.True((bool)refused["exists"]!);
        Assert.Null(refused["saved"]);
        var faulty = live.Save(Request(Edit("vehicle.springs.rate_N_per_mm", "-70"), """ "name": "bump-then-corner.json", "overwrite": true"""));
        Assert.NotEmpty(faulty["faults"]!.AsArray());
        Assert.NotNull(live.Save(Request(edit, """ "name": "../van.json" """))["refused"]);
        Assert.Equal(text, File.ReadAllText(path));
        Assert.Equal("bump-then-corner.json", (string?)live.Save(Request(edit, """ "name": "bump-then-corner.json", "overwrite": true"""))["saved"]);
        Assert.Equal(text.Replace("\"rate_N_per_mm\": 62", "\"rate_N_per_mm\": 70", StringComparison.Ordinal), File.ReadAllText(path));
    }

    [Fact]
    public void A_text_with_byte_order_mark_and_other_line_ends_keeps_them()
    {
        var path = Copy("bump-then-corner.json");
        var text = "\uFEFF" + File.ReadAllText(path).ReplaceLineEndings("\r\n");
        File.WriteAllText(path, text, new System.Text.UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
        var live = new LiveScenario(path);
        Assert.Equal("[]", FaultsOf(live.Start()));
        live.Save(Request(Edit("vehicle.springs.rate_N_per_mm", "70"), """ "name": "my-van.json" """));
        Assert.Equal(text.Replace("\"rate_N_per_mm\": 62", "\"rate_N_per_mm\": 70", StringComparison.Ordinal), System.Text.Encoding.UTF8.GetString(File.ReadAllBytes(_folder["my-van.json"])));
    }

    [Theory]
    [InlineData("""{ "state": 1 }""")]
    [InlineData("""{ "state": { "edits": {} } }""")]
    [InlineData("""{ "state": { "edits": [1] } }""")]
    [InlineData("""{ "state": { "edits": [{ "path": 1, "value": 1 }] } }""")]
    [InlineData("""{ "state": { "edits": [{ "path": "a" }] } }""")]
    [InlineData("""{ "state": { "edits": [{ "path": "a", "remove": 1 }] } }""")]
    [InlineData("""{ "state": { "files": [{ "name": "../x.csv", "rows": [[0, 0], [1, 1]] }] } }""")]
    [InlineData("""{ "state": { "files": [{ "name": "x.csv", "rows": [[0, 0]] }] } }""")]
    [InlineData("""{ "state": { "files": [{ "name": "x.csv", "from": 1, "rows": [[0, 0], [1, 1]] }] } }""")]
    [InlineData("""{ "state": { "files": [{ "name": "x.csv", "rows": [[0, 0], [1]] }] } }""")]
    [InlineData("""{ "state": { "files": [{ "name": "x.csv", "rows": [[0, 0], [1, 1e999]] }] } }""")]
    [InlineData("""{ "state": { "files": [{ "name": "x.csv", "rows": [[0, 0], [1, "1"]] }] } }""")]
    [InlineData("""{ "layouts": "Outboard" }""")]
    [InlineData("""{ "layouts": [1] }""")]
    [InlineData("""{ "parts": ["all"] }""")]
    [InlineData("""{ "load": 3 }""")]
    public void A_malformed_request_is_the_pages_fault(string request)
    {
        var live = new LiveScenario(Copy("valving.json"));
        Assert.Throws<RequestFault>(() => live.Answer(JsonNode.Parse(request)!.AsObject()));
    }

    [Fact]
    public void The_drawn_curve_has_the_largest_roll_of_the_run()
    {
        var path = Copy("bump-then-corner.json");
        var study = ScenarioReader.Read(path).Study;
        var time = new LiveScenario(path).Answer(Request(rest: """ "layouts": ["Outboard"], "parts": ["run"] """))["layouts"]![0]!["time"]!;
        var roll = time["roll_deg"]!.AsArray().Select(value => (double)value!).ToArray();
        Assert.InRange(roll.Length, 300, 600);

        // Sampled every few milliseconds, a roll of 1.3 Hz is seen within a ten-thousandth of its peak.
        var largest = Math.Abs(RollMetric.RollAngleLargestInManoeuvre.Shown(Comparison.RunLayout(study, study.Layouts[0]).Metrics)!.Value);
        Assert.Equal(largest, roll.Max(Math.Abs), 1e-4 * largest + 1e-4);
        Assert.Equal(study.Manoeuvre.Duration, (roll.Length - 1) * (double)time["step_s"]!, 0.05);
    }

    [Fact]
    public void Points_of_a_curve_in_the_text_are_given_as_they_stand_and_its_file_without_the_scale()
    {
        var live = new LiveScenario(Copy("bump-then-corner.json"));
        var plain = live.Answer(Request(rest: """ "parts": ["dampers"] """))["dampers"]!["valley"]!;
        Assert.Equal(("dyno", "valley-damper-dyno.csv"), ((string)plain["kind"]!, (string)plain["file"]!));
        var scaled = live.Answer(Request(Edit("dampers.valley.forceScale", "1.25"), """ "parts": ["dampers"] """))["dampers"]!["valley"]!;
        Assert.Equal(plain["points"]!.ToJsonString(), scaled["points"]!.ToJsonString());
        Assert.Equal(1.25 * (double)plain["drawn"]![0]![1]!, (double)scaled["drawn"]![0]![1]!, 0.002);
        var points = live.Answer(Request(Edit("dampers.valley", """{ "curve": { "velocity_m_per_s": [-1, 0, 1], "force_N": [-2000.12345, 0, 1000] } }"""), """ "parts": ["dampers"] """))["dampers"]!["valley"]!;
        Assert.Equal(("points", "[[-1,-2000.12345],[0,0],[1,1000]]"), ((string)points["kind"]!, points["points"]!.ToJsonString()));
    }

    // Whatever a page edits, it gets faults or figures: nothing else is thrown, and the answer is JSON.
    [Theory]
    [InlineData("bump-then-corner.json")]
    [InlineData("placement.json")]
    [InlineData("sweep-load-states.json")]
    public void Any_edit_is_answered(string name)
    {
        var live = new LiveScenario(Copy(name));
        var root = ScenarioMutations.Tree(File.ReadAllText(_folder[name]));
        string[] paths = [.. ScenarioMutations.WithDescendants(root).Skip(1).Select(node => node.GetPath()[2..]), "layouts[9]", "new.key[0]", "x[", "[0]", "dampers[\"a \\ b\"].dyno", "\u0000", ""];
        string[] values = ["null", "0", "-1", "1e300", "1e999", "\"\"", "\"x\\u0000\"", "[]", "{}", "[1, [2]]", """{"dyno": "valley-damper-dyno.csv"}""", "true"];
        Gen.Select(Gen.Int[0, paths.Length - 1], Gen.Int[0, values.Length]).List[1, 3].SampleSame(60, changes =>
        {
            var edits = string.Join(", ", changes.Select(change => change.Item2 == values.Length
                ? $$"""{ "path": {{JsonValue.Create(paths[change.Item1]).ToJsonString()}}, "remove": true }"""
                : Edit(paths[change.Item1], values[change.Item2])));
            var answer = live.Answer(Request(edits));
            Assert.True(answer["faults"]!.AsArray().Count > 0 || answer["layouts"]!.AsArray().Count > 0);
            Assert.NotNull(JsonNode.Parse(answer.ToJsonString()));
        });
    }

    [Fact]
    public void Half_a_character_is_the_pages_fault()
    {
        var live = new LiveScenario(Copy("valving.json"));
        foreach (var value in (string[])["\"\\ud800\"", "{\"\\ud800\": 1}"])
        {
            var answer = Record.Exception(() => live.Answer(Request(Edit("notes", value))));
            Assert.True(answer is null or RequestFault, answer?.ToString());
        }
    }

    [Fact]
    public void A_given_up_request_is_stopped()
    {
        using var given = new CancellationTokenSource();
        given.Cancel();
        var live = new LiveScenario(Copy("bump-then-corner.json"));
        Assert.ThrowsAny<OperationCanceledException>(() => live.Answer(Request(), given.Token));
        Assert.ThrowsAny<OperationCanceledException>(() => live.Verdict(Request(), given.Token));
        Assert.Equal("[]", FaultsOf(live.Answer(Request(), TestContext.Current.CancellationToken)));
    }
}
