using OxyPlot;
using OxyPlot.Axes;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public sealed class ScatterPanelTests
{
    [Theory]
    [InlineData("reference.forceScale", "", "reference.\nforceScale")]
    [InlineData("springs.rate", "N/mm", "springs.rate\n[N/mm]")]
    [InlineData("body.mass", "kg", "body.mass [kg]")]
    public void A_path_is_named_in_full_broken_only_where_its_column_is_too_narrow(string quantity, string unit, string title)
    {
        var panel = new ScatterPanel(
            (quantity, unit, new PlotRange(0, 1)), ("roll", "deg", new PlotRange(0, 1)), [("inboard", LayoutStyles.All[0], [new DataPoint(0.5, 0.5)])], NamesX: true, NamesY: true, NamesLayouts: true);

        Assert.Equal(title, panel.Build().Axes.Single(axis => axis.Position == AxisPosition.Bottom).Title);
    }
}
