using RollRide.Report;
using RollRide.Sweeps;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Report;

/// <summary>The sheet for the damper workshop.</summary>
public sealed class ValvingSheetTests
{
    private static readonly Dictionary<string, SweptValues> None = [];

    [Fact]
    public void A_tolerance_that_the_scenario_gives_has_its_column_and_changes_no_force()
    {
        var without = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair()), None).Markup;
        var with = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair().With("dampers.plain.forceTolerance_percent", 7.5)), None).Markup;

        Assert.DoesNotContain("Tolerance", without, StringComparison.Ordinal);
        Assert.Contains("<th scope=\"col\">Tolerance</th>", with, StringComparison.Ordinal);
        Assert.Equal(without, with.Replace("<th scope=\"col\">Tolerance</th>", "", StringComparison.Ordinal).Replace("<td rowspan=\"2\">± 7.5 %</td>", "", StringComparison.Ordinal));
    }

    [Fact]
    public void Where_none_is_agreed_the_scatter_of_the_sweep_is_the_tolerance_that_95_percent_keep()
    {
        var scatter = new Dictionary<string, SweptValues> { ["plain"] = new NormalValues(1, 0.08) };
        var sheet = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair()), scatter).Markup;
        var agreed = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair().With("dampers.plain.forceTolerance_percent", 7.5)), scatter).Markup;

        Assert.Contains("± 15.7 %", sheet, StringComparison.Ordinal); // 1.96 standard deviations
        Assert.Contains("Tolerance: 95 % of the dampers", sheet, StringComparison.Ordinal);
        Assert.Contains("± 7.5 %", agreed, StringComparison.Ordinal);
        Assert.DoesNotContain("95 % of the dampers", agreed, StringComparison.Ordinal);
    }
}
