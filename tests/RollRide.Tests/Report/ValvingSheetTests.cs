using RollRide.Report;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Report;

/// <summary>The sheet for the damper workshop.</summary>
public sealed class ValvingSheetTests
{
    [Fact]
    public void A_tolerance_that_the_scenario_gives_has_its_column_and_changes_no_force()
    {
        var without = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair())).Markup;
        var with = ValvingSheet.Write(VerdictTests.VerdictOf(ShortScenario.Pair().With("dampers.plain.forceTolerance_percent", 7.5))).Markup;

        Assert.DoesNotContain("Tolerance", without, StringComparison.Ordinal);
        Assert.Contains("<th scope=\"col\">Tolerance</th>", with, StringComparison.Ordinal);
        Assert.Equal(without, with.Replace("<th scope=\"col\">Tolerance</th>", "", StringComparison.Ordinal).Replace("<td rowspan=\"2\">± 7.5 %</td>", "", StringComparison.Ordinal));
    }
}
