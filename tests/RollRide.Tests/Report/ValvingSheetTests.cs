using System.Text.Json.Nodes;
using RollRide.Damping;
using RollRide.Report;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Report;

/// <summary>The sheet for the damper workshop.</summary>
public sealed class ValvingSheetTests
{
    [Fact]
    public void A_tolerance_that_the_scenario_gives_has_its_column_and_changes_no_force()
    {
        var without = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair()), null).Markup;
        var with = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair().With("dampers.plain.forceTolerance_percent", 7.5)), null).Markup;

        Assert.DoesNotContain("Tolerance", without, StringComparison.Ordinal);
        Assert.Contains("<th scope=\"col\">Tolerance</th>", with, StringComparison.Ordinal);
        Assert.Equal(without, with.Replace("<th scope=\"col\">Tolerance</th>", "", StringComparison.Ordinal).Replace("<td rowspan=\"2\">± 7.5 %</td>", "", StringComparison.Ordinal));
    }

    [Fact]
    public void Where_none_is_agreed_the_scatter_of_the_sweep_is_the_tolerance_that_95_percent_keep()
    {
        var scatter = JsonNode.Parse("""{ "design": "latinHypercube", "parameters": [ { "path": "dampers.plain.forceScale", "normal": { "mean": 1, "deviation": 0.08 } } ] }""");
        var sheet = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair().With("sweep", scatter)), null).Markup;
        var agreed = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair().With("sweep", scatter!.DeepClone()).With("dampers.plain.forceTolerance_percent", 7.5)), null).Markup;

        Assert.Contains("± 15.7 %", sheet, StringComparison.Ordinal); // 1.96 standard deviations
        Assert.Contains("Tolerance: 95 % of the dampers", sheet, StringComparison.Ordinal);
        Assert.Contains("± 7.5 %", agreed, StringComparison.Ordinal);
        Assert.DoesNotContain("95 % of the dampers", agreed, StringComparison.Ordinal);
    }

    [Fact]
    public void Tuned_dampers_stand_below_those_that_they_were_made_of()
    {
        var scenario = ScenarioReader.Read(Scenarios.Shipped.Scenario("valving.json"));
        var tuning = TuningStudy.Run(scenario.Study, scenario.Tuning!, withFronts: false, cancellation: TestContext.Current.CancellationToken);
        var verdict = Verdict.Of([new ComparisonFindings(Comparison.Run(scenario.Study, cancellation: TestContext.Current.CancellationToken))], TestContext.Current.CancellationToken);

        var sheet = ValvingSheet.Write(verdict, tuning).Markup;

        var before = sheet.IndexOf(">present<", StringComparison.Ordinal);
        var after = sheet.IndexOf(">tuned, “Outboard”<", StringComparison.Ordinal);
        Assert.InRange(before, 0, after);

        // The forces of the valving itself, straight bleed up to the knee, not of the table made of it.
        var valving = tuning.Layouts[0].Tuned.Valving;
        Assert.Contains(FormattableString.Invariant($"<td>{valving.ForcesAt(Valving.StandardTestVelocities)[0].Rebound:F0}</td>"), sheet[after..], StringComparison.Ordinal);
    }
}
