using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using RollRide.Findings;
using RollRide.Plots.Figures;
using RollRide.Report;
using RollRide.Report.Chapters;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;
using RollRide.Vehicle;

namespace RollRide.Tests.Report;

public partial class ReportPageTests
{
    private static readonly Lazy<string> Pair = new(() => PageOf(ShortScenario.Pair()));

    [Fact]
    public void Write_follows_the_order_of_a_meeting()
    {
        var headings = Heading().Matches(Pair.Value).Select(match => match.Groups[1].Value).ToArray();

        Assert.Equal(
            [
                "What the runs show", "Mounts and motion ratios", "Force over velocity", "Damping ratios",
                "The trade-off: one damper, every position", "Over the bump", "In the corner",
                "What to do next", "The inputs", "Assumptions", "Cautions", "Where the numbers come from",
            ],
            headings.Where(heading => heading != "Warnings"));
        Assert.Contains("<h1>Test cart: where should the dampers sit – “Outer” or “Inner”?</h1>", Pair.Value, StringComparison.Ordinal);
        Assert.All(Cautions.All, caution => Assert.Contains(caution, Pair.Value, StringComparison.Ordinal));
    }

    [Fact]
    public void Write_says_the_decision_first_and_then_all_conclusions()
    {
        var result = ShortScenario.Pair().Run();
        var verdict = Verdict.Of([new ComparisonFindings(result)], TestContext.Current.CancellationToken);
        var page = Read(Pair.Value);

        var at = page.IndexOf($"<p class=\"decision\">{VerdictWords.Headline(verdict)}</p>\n<p class=\"basis\">{VerdictWords.Basis(verdict)}</p>", StringComparison.Ordinal);
        Assert.InRange(at, 1, page.IndexOf("<table", StringComparison.Ordinal));
        Assert.All(Conclusions.Of(result), sentence => Assert.True(page.IndexOf($"<li>{sentence}</li>", StringComparison.Ordinal) > at));
    }

    [Fact]
    public void Write_what_a_scenario_does_not_contain_leaves_no_section()
    {
        var straight = PageOf(ShortScenario.Pair().With("manoeuvre.cornering", null));
        var flat = PageOf(ShortScenario.Pair().With("manoeuvre.road", null));

        Assert.DoesNotContain("In the corner", straight, StringComparison.Ordinal);
        Assert.DoesNotContain("Roll overshoot", straight, StringComparison.Ordinal);
        Assert.DoesNotContain("Over the bump", flat, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_a_random_road_is_no_bump_and_its_phases_are_compared()
    {
        // 1.5 m of lead-in at 10 m/s, then half a second to settle.
        var random = new JsonObject { ["class"] = "b", ["leadIn_m"] = 1.5, ["contactLength_mm"] = 110 };
        var page = Read(PageOf(ShortScenario.Pair().With("manoeuvre.road", new JsonObject { ["random"] = random })));
        var withBump = PageOf(ShortScenario.Pair().With("manoeuvre.road.random", random.DeepClone()));

        Assert.DoesNotContain("Over the bump", page, StringComparison.Ordinal);
        Assert.Contains("Along the road", page, StringComparison.Ordinal);
        Assert.Contains("Over the bump", withBump, StringComparison.Ordinal);
        foreach (var text in new[] { "Phase “rough road”: Body acceleration, RMS", "Phase “corner”: Body acceleration, RMS", "averaged over a contact of 110 mm", "Gaussian" })
            Assert.Contains(text, page, StringComparison.Ordinal);
        Assert.DoesNotContain("Gaussian", Pair.Value, StringComparison.Ordinal);

        // On the bump alone the corner is driven on flat road, where no layout is better for its body acceleration.
        Assert.DoesNotContain("Phase “corner”", Pair.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_mount_points_bring_what_is_left_of_the_strokes()
    {
        var scenario = ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json"));
        var study = scenario.Study with { Placement = null };
        var page = ReportPage.Write(Input(scenario, Comparison.Record(study, cancellation: TestContext.Current.CancellationToken)) with { Positions = null }, ChapterList.FirstPage, ChapterList.InOrderOfArgument, TestContext.Current.CancellationToken);

        var text = Read(page.Page);
        Assert.Contains("length-budget.png", page.Figures.Select(figure => figure.FileName));
        Assert.DoesNotContain("motion-ratios.png", page.Figures.Select(figure => figure.FileName)); // that is what the rear view says
        Assert.All(MountsConclusions.OnStroke(MountsStudy.Run(study)), sentence => Assert.Contains(sentence, text, StringComparison.Ordinal));
        Assert.DoesNotContain("What is left of the stroke", Pair.Value, StringComparison.Ordinal);

        // Of the strokes the file gives closed and extended lengths of 330 and 570 mm; its travel ends before its stops touch.
        Assert.Contains("The travel given is 60 mm in bump and 45 mm in rebound; the stops touch later, at 70 mm in bump and 90 mm in rebound.", text, StringComparison.Ordinal);
        Assert.Matches(@"[\d.]+ to closed, [\d.]+ to extended", page.Page);
    }

    [Fact]
    public void Write_mount_points_without_travel_say_what_is_missing()
    {
        var scenario = ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json"));
        var study = scenario.Study with { Placement = null, Vehicle = scenario.Study.Vehicle with { Travel = null, BumpStop = null, ReboundStop = null } };
        var bare = scenario with { Study = study };
        var page = ReportPage.Write(Input(bare, Comparison.Record(study, cancellation: TestContext.Current.CancellationToken)) with { Positions = null }, ChapterList.FirstPage, ChapterList.InOrderOfArgument, TestContext.Current.CancellationToken);

        Assert.Contains("Neither the travel of the suspension nor its stops are given", page.Page, StringComparison.Ordinal);
        Assert.Contains("Whether the dampers fit, and whether their strokes suffice, was not checked.", page.Page, StringComparison.Ordinal);
        Assert.DoesNotContain(page.Figures, figure => figure.FileName == "length-budget.png");
    }

    [Fact]
    public void Write_targets_bring_the_setting_window()
    {
        var targets = new JsonObject { ["rollDampingRatioMinimum"] = 0.15, ["heaveDampingRatioMinimum"] = 0.2, ["heaveDampingRatioMaximum"] = 0.5 };

        Assert.Contains("The setting window", PageOf(ShortScenario.Pair().With("targets", targets)), StringComparison.Ordinal);
        Assert.DoesNotContain("The setting window", Pair.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_seeds_bring_mean_and_interval_of_each_layout_and_are_traced()
    {
        var random = JsonNode.Parse("""{ "class": "b", "seed": 7 }""");
        var read = ShortScenario.Pair().With("manoeuvre.road", new JsonObject { ["random"] = random }).With("manoeuvre.duration_s", 5).With("manoeuvre.cornering", null).Read();
        var input = Input(read, Comparison.Record(read.Study, cancellation: TestContext.Current.CancellationToken));
        var seeds = RideStudy.Run(read.Study, 3, cancellation: TestContext.Current.CancellationToken);

        var one = ReportPage.Write(input, ChapterList.FirstPage, ChapterList.InOrderOfArgument, TestContext.Current.CancellationToken).Page;
        var several = ReportPage.Write(input with { Seeds = seeds }, ChapterList.FirstPage, ChapterList.InOrderOfArgument, TestContext.Current.CancellationToken).Page;

        Assert.DoesNotContain("95 % interval", one, StringComparison.Ordinal);
        Assert.Contains("road from seed 7<", one, StringComparison.Ordinal);
        Assert.Contains("road from seed 7; mean and interval from 3 random roads, seeds 7 to 9<", several, StringComparison.Ordinal);
        foreach (var layout in seeds)
        {
            var heat = layout.Of(run => run.Ride.DamperPower.Max())!.Value;
            Assert.Contains(FormattableString.Invariant($"<td data-layout=\"{layout.Layout}\">{heat.Mean:F0} ± {heat.HalfWidth:F0}</td>"), several, StringComparison.Ordinal);
        }

        var decoded = Read(several);
        Assert.All(SeedConclusions.Of(seeds), sentence => Assert.Contains($"<li>{sentence}</li>", decoded, StringComparison.Ordinal));
        Assert.DoesNotContain("On the random road", Pair.Value, StringComparison.Ordinal);
        Assert.Contains("<th scope=\"row\">Random numbers</th><td>none</td>", Pair.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_seeds_have_their_part_in_every_statement()
    {
        var random = JsonNode.Parse("""{ "class": "b", "seed": 7 }""");
        var corner = JsonNode.Parse("""{ "lateralAcceleration": { "events": [ { "start_s": 6, "amplitude_m_per_s2": 3, "rampStep": { "rampDuration_s": 0.2 } } ] } }""");
        var read = ShortScenario.Pair().With("manoeuvre.road", new JsonObject { ["random"] = random }).With("manoeuvre.duration_s", 9).With("manoeuvre.cornering", corner).Read();
        var input = Input(read, Comparison.Record(read.Study, cancellation: TestContext.Current.CancellationToken));
        var seeds = RideStudy.Run(read.Study, 3, cancellation: TestContext.Current.CancellationToken);

        var verdict = Verdict.Of([new ComparisonFindings(input.Comparison.Result) { Seeds = seeds }], TestContext.Current.CancellationToken);
        var report = ReportPage.Write(input with { Seeds = seeds, Verdict = verdict }, ChapterList.FirstPage, ChapterList.InOrderOfArgument, TestContext.Current.CancellationToken);
        var page = Read(report.Page);

        // Every statement is of all roads, or says of which one it is; and nobody is told to do what was done.
        Assert.DoesNotContain("--seeds", page, StringComparison.Ordinal);
        Assert.Contains("Weighted vibration at the worst seat, mean over 3 random roads, seeds 7 to 9: least ", page, StringComparison.Ordinal);
        Assert.Contains("the mean over 3 random roads, seeds 7 to 9, ± half of the 95 % interval", page, StringComparison.Ordinal);
        foreach (var layout in seeds)
        {
            var load = layout.Of(run => run.Metrics.Whole.DynamicLoadCoefficient)!.Value;
            Assert.Contains(FormattableString.Invariant($"{load.Mean:F3} ± {load.HalfWidth:F3}"), page, StringComparison.Ordinal);
        }

        string[] ofTheRun = ["tyre-loads.png", "body-acceleration.png", "damper-velocity.png", "damper-curves.png", "ride-tyre-load.png"];
        Assert.All(report.Figures.Where(figure => ofTheRun.Contains(figure.FileName)), figure => Assert.EndsWith(", road of seed 7", figure.Title, StringComparison.Ordinal));
    }

    [Fact]
    public void Write_page_needs_nothing_from_outside_and_runs_only_its_own_script()
    {
        var page = Pair.Value;

        // The only addresses are names of XML dialects, which no browser fetches.
        Assert.All(Address().Matches(page).Select(match => match.Value), address => Assert.StartsWith("http://www.w3.org/", address, StringComparison.Ordinal));
        Assert.DoesNotMatch("(?i)<(link|img|iframe|object|embed|base)[ >]|@import|url\\((?!data:|#)", page);
        var script = Assert.Single(Script().Matches(page)).Groups[1].Value;
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(script)));
        Assert.Contains($"script-src 'sha256-{hash}'", page, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_every_figure_stands_in_the_page_before_any_script_runs()
    {
        var visible = Regex.Count(Pair.Value, "<figure[^>]*>") - Regex.Count(Pair.Value, "<div class=\"frame\"[^>]* hidden>");

        Assert.Equal(10, visible); // nine figures, and one frame of the slider
    }

    [Fact]
    public void Write_names_with_markup_do_no_harm()
    {
        const string evil = "<script>alert(1)</script>";
        var scenario = ShortScenario.Of((evil, 0.8), ("\" onmouseover=\"alert(2)", 0.3), ("../x", 0.5)).With("name", evil).With("vehicle.name", $"</title>{evil}");

        var page = PageOf(scenario);

        Assert.Single(Regex.Matches(page, "<script"));
        Assert.Single(Regex.Matches(page, "</title>\n<style>"));
        Assert.DoesNotContain("\" onmouseover=\"", page, StringComparison.Ordinal);
        Assert.Contains("&lt;script&gt;alert(1)&lt;/script&gt;", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_ids_are_unique()
    {
        var ids = Regex.Matches(Pair.Value, " id=\"([^\"]*)\"").Select(match => match.Groups[1].Value).ToArray();

        Assert.Equal(ids.Distinct(), ids);
    }

    [Fact]
    public void Write_same_input_gives_the_same_page() => Assert.Equal(Pair.Value, PageOf(ShortScenario.Pair()));

    [Theory]
    [InlineData(1)]
    [InlineData(8)]
    public void Write_from_one_to_eight_layouts_with_long_names_can_be_drawn(int count)
    {
        var layouts = Enumerable.Range(1, count).Select(i => ($"Outboard of the frame rail with the longer bracket and rubber bushes, setting {i}", 0.1 * i)).ToArray();

        var page = PageOf(ShortScenario.Of(layouts));

        Assert.Equal(2 * count, Regex.Count(page, "<th scope=\"col\" data-layout=")); // in the table of the verdict and in that of all quantities
        Assert.Equal(count, Regex.Matches(page, "data-readout=\"(.*?)\"").Select(match => match.Value).Distinct().Count());
        Assert.Equal(count == 8, page.Contains("where should the dampers sit – which of 8 layouts?", StringComparison.Ordinal));
    }

    private static string PageOf(JsonObject scenario)
    {
        var read = scenario.Read();
        var result = Comparison.Record(read.Study, cancellation: TestContext.Current.CancellationToken);
        return ReportPage.Write(Input(read, result), ChapterList.FirstPage, ChapterList.InOrderOfArgument).Page;
    }

    private static ReportInput Input(Scenario scenario, RecordedComparison result)
    {
        var verdict = Verdict.Of([new ComparisonFindings(result.Result)], TestContext.Current.CancellationToken);
        return new ReportInput
        {
            Scenario = scenario,
            Comparison = result,
            Studies = ReportStudies.Run(result.Study, scenario.Tuning, cancellation: TestContext.Current.CancellationToken),
            Verdict = verdict,
            Changes = verdict.AllChanges(TestContext.Current.CancellationToken),
            Positions = PositionSweep.Run(scenario.Study, scenario.Study.Layouts[0], 2, cancellation: TestContext.Current.CancellationToken),
        };
    }

    private static string Shown(string name, Func<JsonObject, JsonObject>? change = null)
    {
        var shipped = VerdictTests.Shipped(name);
        return Read(PageOf(change is null ? shipped : change(shipped)));
    }

    private static string Cells(string page, string label) => string.Join(" | ", Tag().Replace(
        Regex.Match(page, $"<tr[^>]*><th scope=\"row\">{Regex.Escape(label)}</th>(.*?)</tr>", RegexOptions.Singleline).Groups[1].Value.Replace("</td><td", "</td>¦<td", StringComparison.Ordinal), "").Split('¦').Select(cell => cell.Trim()));

    [Fact]
    public void Write_why_no_single_change_serves_stands_in_the_decision_and_in_the_cells_of_the_table()
    {
        var page = Shown("dual-tyre.json");

        Assert.Contains("No single change of damper setting, damper position, springs, anti-roll bar or track serves", page, StringComparison.Ordinal);
        var first = page[..page.IndexOf("<h2>", StringComparison.Ordinal)];
        Assert.Equal(2, first.Split("leaves the travel given").Length); // once for all changes that do
        Assert.Matches(@"leaves the travel given \(body roll on the axle up to \d\.\d of 4\.5.deg\)", first);
        foreach (var label in new[] { "Springs apart, mm", "Anti-roll bar, N·m/deg" })
            Assert.EndsWith("leaves the travel given", Cells(page, label).Split(" | ")[0], StringComparison.Ordinal);

        // The window opens 570 mm from the centre, beyond the last whole millimetre beside the tyre; upright dampers still have it there, without room, and with the curve that they need.
        Assert.InRange(TyreOutline.OutermostDamper(VerdictTests.Shipped("dual-tyre.json").Read().Study.Vehicle), 0.569, 0.57);
        Assert.Matches(@"^no value does \| 569 \(now 277\), curve × 1\.\d\d, no room for the dampers' tolerance", Cells(page, "Damper position from the centre, mm"));
        Assert.Contains("similar with both layouts that can be built", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_the_roll_ratio_is_the_same_in_the_table_and_in_the_figure_of_the_mounts_under_a_load()
    {
        var study = VerdictTests.Shipped("sweep-load-states.json").Read().Study.InEachLoad[^1];
        var standing = study.Assemble(study.Layouts[1]).Layout.Fitting.RollRatio;

        Assert.NotEqual(study.Layouts[1].Fitting.RollRatio.ToString("F2", CultureInfo.InvariantCulture), standing.ToString("F2", CultureInfo.InvariantCulture));
        Assert.Contains($"{standing.ToString("F2", CultureInfo.InvariantCulture)} with “Inboard of the rail”", MountsFigure.Build(study).Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_what_a_remedy_costs_stands_under_the_table_of_remedies()
    {
        var page = Shown("bump-then-corner.json");
        var notes = page[page.IndexOf("Factor on the damper curve", StringComparison.Ordinal)..];

        Assert.Matches("“Inboard of the rail”, price of [^<]*the dampers 180.mm outboard: ", notes);
    }

    [Fact]
    public void Write_what_a_tuning_aims_at_stands_on_page_one_beside_the_targets_that_were_not_given()
    {
        var page = Shown("valving.json");
        var first = page[..page.IndexOf("<h2>", StringComparison.Ordinal)];

        Assert.Contains("no targets were given for the dampers as they are", first, StringComparison.Ordinal);
        Assert.Contains("Tuned for damping ratios of heave 0.22 ± 0.02 at 0.26 m/s and roll 0.22 ± 0.02 at 0.05 m/s, “Outboard” can meet both, “Inboard” cannot; price: weighted body acceleration over the bump ", first, StringComparison.Ordinal);

        // The same numbers as in the chapter of the valving; what to do next is no question for targets that were given.
        var told = Regex.Match(page, @"“Outboard”: Simulated before and after: [^<]*weighted body acceleration (\d\.\d\d) → (\d\.\d\d)");
        Assert.True(told.Success);
        Assert.Matches($"price: weighted body acceleration over the bump {told.Groups[2].Value} instead of {told.Groups[1].Value}.m/s²", first);
        Assert.Contains("Enter the tuned valving of “Outboard” (valving sheet below) in the scenario and run it again", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Give the damping ratios wanted as targets", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_a_road_without_corner_or_bump_is_not_told_to_have_one()
    {
        foreach (var name in new[] { "railway-crossing.json", "washboard.json" })
        {
            var page = Shown(name);
            Assert.DoesNotContain("through the same corner", page, StringComparison.Ordinal);
            Assert.DoesNotContain("Over the bump", page, StringComparison.Ordinal);
            Assert.DoesNotContain("roll angle in the corner", page, StringComparison.Ordinal);
        }

        Assert.Contains("<h2>Over the pothole</h2>", Shown("independent-front.json"), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_figures_of_a_ride_name_the_part_of_the_run_that_they_are_of()
    {
        // The weighted total is over the ride, its vertical part beside it over the whole run: it may be more.
        var page = Shown("washboard.json");

        Assert.NotEmpty(Cells(page, "Whole run: Seat, weighted RMS (Wk)"));
        Assert.NotEmpty(Cells(page, "Random road with obstacles, 5.6 to 16.5 s: Worst seat, weighted total"));
        Assert.Contains("The acceleration at the worst seat is that over the random road with its obstacles, 5.6 to 16.5 s.", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_a_wheel_that_lifts_is_never_best_and_roll_that_does_not_settle_is_told_as_longer_than_followed()
    {
        var page = Shown("bump-then-corner.json", van =>
        {
            van["manoeuvre"]!["cornering"]!["lateralAcceleration"]!["events"]![0]!["amplitude_m_per_s2"] = 5.5;
            return van.With("vehicle.body.cgHeight_mm", 1150);
        });
        var (lift, settling) = (Cells(page, "Whole run: Wheel lift, time").Split(" | "), Cells(page, "Settling time to ±5 %").Split(" | "));

        Assert.All(lift[1..], time => Assert.Matches(@"^0*[1-9]|^0\.\d*[1-9]", time));
        Assert.DoesNotContain(lift, time => time.Contains("best", StringComparison.Ordinal));
        Assert.Contains("worst", lift[^1], StringComparison.Ordinal);
        Assert.StartsWith("> 10.4", settling[^1], StringComparison.Ordinal); // the ramp of 0.4 s and 10 s after it
        Assert.Contains("best", settling[1], StringComparison.Ordinal);
    }

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tag();

    [GeneratedRegex("<h2>(.*?)</h2>")]
    private static partial Regex Heading();

    [GeneratedRegex("https?://[^\"' )<]*")]
    private static partial Regex Address();

    [GeneratedRegex("<script>(.*?)</script>", RegexOptions.Singleline)]
    private static partial Regex Script();

    /// <summary>A page as it is read: numbers stay with their units by spaces at which no line breaks.</summary>
    private static string Read(string page) => System.Net.WebUtility.HtmlDecode(page).Replace('\u00a0', ' ');
}
