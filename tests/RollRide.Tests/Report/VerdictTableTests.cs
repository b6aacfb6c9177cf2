using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using RollRide.Findings;
using RollRide.Plots;
using RollRide.Report;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Report;

/// <summary>The cells of the table that the decision rests on, against the modes and metrics of the same vehicles.</summary>
public sealed class VerdictTableTests
{
    [Fact]
    public void Each_target_has_a_row_with_number_and_mark_for_every_layout_and_load_state()
    {
        var scenario = LoadedShort.Pair();
        double[][] roll = [.. scenario.Read().Study.InEachLoad.Select(state =>
            ModesStudy.Run(state, TestContext.Current.CancellationToken).Layouts.Select(layout => layout.Reference.Roll.DampingRatio).ToArray())];
        var asked = Math.Round((roll[0][0] + roll[1][0]) / 2, 3);

        var rows = Rows(Asking(scenario, asked));

        Assert.Equal("In load states as built, laden | Target | Outeras built · laden | Inneras built · laden", rows[0]);
        Assert.Equal(
            FormattableString.Invariant($"Roll damping ratio at 0.13 m/s | at least {asked:0.00#} | {Number(roll[0][0], asked)} ✓ · {Number(roll[1][0], asked)} ✗ | {Number(roll[0][1], asked)} ✗ · {Number(roll[1][1], asked)} ✗"),
            rows[1]);
        Assert.StartsWith("Heave damping ratio at 0.13 m/s | 0.05 to 0.90 | 0.", rows[2], StringComparison.Ordinal);
        Assert.StartsWith("Hop damping ratio at 0.13 m/s | at least 0.01 | 0.", rows[3], StringComparison.Ordinal);
        Assert.Equal("Fits its place |  | not checked | not checked", rows[^2]);
        Assert.Equal("Verdict |  | misses roll damping ratio | misses roll damping ratio", rows[^1]);
    }

    [Fact]
    public void Quantities_that_decide_stand_below_without_pass_or_fail()
    {
        var scenario = Asking(ShortScenario.Pair(), 0.01);
        var result = scenario.Run();

        var rows = Rows(scenario);

        Assert.Equal(
            FormattableString.Invariant($"Roll overshoot from rest, % |  | {result.Layouts[0].Metrics.RollResponse!.Overshoot * 100:F0} | {result.Layouts[1].Metrics.RollResponse!.Overshoot * 100:F0}"),
            rows[4]);
        Assert.Equal(
            FormattableString.Invariant($"Least tyre load, N |  | {result.Layouts[0].Metrics.Whole.TyreLoadMinimum:F0} | {result.Layouts[1].Metrics.Whole.TyreLoadMinimum:F0}"),
            rows[6]);
        Assert.Matches("^Verdict \\|  \\| meets all targets, [0-9]+ % in reserve \\| meets all targets, [0-9]+ % in reserve$", rows[^1]);
    }

    [Fact]
    public void What_cannot_be_built_says_so_in_its_heading_and_its_verdict()
    {
        var scenario = Asking(ShortScenario.Pair(), 0.01);
        scenario["layouts"]![0]!["candidate"] = false;

        var rows = Rows(scenario);

        Assert.Equal(" | Target | Outerfor comparison only | Inner", rows[0]);
        Assert.StartsWith("Verdict |  | cannot be built | meets all targets, ", rows[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void Of_many_load_states_a_cell_shows_the_one_that_decides()
    {
        var scenario = Asking(ShortScenario.Pair(), 0.01).With("loadStates", JsonNode.Parse(
            """{ "a": {}, "b": { "mass_kg": 1210 }, "c": { "mass_kg": 1220 }, "d": { "mass_kg": 1230 }, "e": { "mass_kg": 1240 } }"""));

        var (load, ratios) = scenario.Read().Study.InEachLoad
            .Select(state => (state.Load!.Name, ModesStudy.Run(state, TestContext.Current.CancellationToken).Layouts.Select(layout => layout.Reference.Roll.DampingRatio).ToArray()))
            .MinBy(state => state.Item2[0]);

        Assert.Equal(FormattableString.Invariant($"Roll damping ratio at 0.13 m/s | at least 0.01 | {ratios[0]:F2} ✓ {load} | {ratios[1]:F2} ✓ {load}"), Rows(scenario)[1]);
    }

    [Theory]
    [InlineData("lorry.json")]
    [InlineData("rescue-van-whole.json")]
    [InlineData("sweep-load-states.json")]
    [InlineData("smooth-motorway.json")]
    public void Every_price_that_the_decision_names_has_its_row(string name)
    {
        var rows = Rows(VerdictTests.Shipped(name));
        var told = VerdictWords.Headline(VerdictTests.VerdictOf(VerdictTests.Shipped(name)))!;
        string[] named = [.. Regex.Matches(told, @"(?:rice[^:.]*: |, | and |s: )([a-zA-Z][^:,;.]*?) \d[\d.]* instead of ").Select(price => price.Groups[1].Value)];

        Assert.True(named.Length > 0 || told.StartsWith("Nothing decides", StringComparison.Ordinal));
        Assert.All(named, price => Assert.Contains(rows, row => row.StartsWith(price, StringComparison.OrdinalIgnoreCase)));
        if (told.StartsWith("Nothing decides", StringComparison.Ordinal))
            Assert.Contains(rows, row => row.StartsWith("RMS roll acceleration in phase “motorway”", StringComparison.Ordinal));
    }

    [Fact]
    public void Without_targets_damping_ratios_stand_without_marks()
    {
        var rows = Rows(ShortScenario.Pair());

        Assert.Matches("^Roll damping ratio at 0.13 m/s \\|  \\| 0\\.\\d\\d \\| 0\\.\\d\\d$", rows[1]);
        Assert.StartsWith("Fits its place", rows[^1], StringComparison.Ordinal);
    }

    private static JsonObject Asking(JsonObject scenario, double rollMinimum) => scenario.With("targets", new JsonObject
    {
        ["rollDampingRatioMinimum"] = rollMinimum,
        ["heaveDampingRatioMinimum"] = 0.05,
        ["heaveDampingRatioMaximum"] = 0.9,
        ["hopDampingRatioMinimum"] = 0.01,
        ["damperVelocity_m_per_s"] = 0.13,
    });

    /// <summary>Two decimals, or three where two would hide on which side of the limit the ratio lies.</summary>
    private static string Number(double ratio, double limit) => Math.Round(ratio, 2) >= limit == ratio >= limit && Math.Round(ratio, 2) != limit
        ? FormattableString.Invariant($"{ratio:F2}")
        : FormattableString.Invariant($"{ratio:F3}");

    private static string[] Rows(JsonObject scenario)
    {
        var verdict = VerdictTests.VerdictOf(scenario);
        string[] names = [.. verdict.Layouts.Select(layout => layout.Name)];
        return [.. Regex.Matches(VerdictTable.Write(verdict, new LayoutStyles(names, names)).Markup, "<tr(?: class=\"text\")?>(.*?)</tr>", RegexOptions.Singleline)
            .Select(row => string.Join(" | ", Regex.Matches(row.Groups[1].Value, "<t[hd][^>]*>(.*?)</t[hd]>", RegexOptions.Singleline)
                .Select(cell => WebUtility.HtmlDecode(Regex.Replace(cell.Groups[1].Value, "<[^>]*>", "")).TrimEnd().Replace(" Outer", "Outer").Replace(" Inner", "Inner"))))];
    }
}
