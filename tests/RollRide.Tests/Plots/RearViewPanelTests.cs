using OxyPlot.Series;
using RollRide.Plots;
using RollRide.Scenarios;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Plots;

public class RearViewPanelTests
{
    [Fact]
    public void Build_draws_each_damper_between_its_mounts_and_its_mirror_image()
    {
        var study = ScenarioReader.Read(Shipped.Scenario("bump-then-corner.json")).Study;

        var model = new RearViewPanel(null, study.Vehicle, [(study.Layouts[1], LayoutStyles.All[1])]).Build();

        // From the scenario: axle end y 450, z 300; body end y 390, z 745.
        var dampers = model.Series.OfType<LineSeries>().Where(line => line.ToolTip == study.Layouts[1].Name).ToArray();
        Assert.Equal(2, dampers.Length);
        foreach (var (damper, side) in dampers.Zip(new[] { 1, -1 }))
        {
            Assert.Equal((side * 450, 300), (damper.Points[0].X, damper.Points[0].Y), Close);
            Assert.Equal((side * 390, 745), (damper.Points[1].X, damper.Points[1].Y), Close);
        }
    }

    [Fact]
    public void Render_is_to_scale_and_shows_left_on_the_left()
    {
        var study = ScenarioReader.Read(Shipped.Scenario("bump-then-corner.json")).Study;
        var model = new RearViewPanel(null, study.Vehicle, [(study.Layouts[0], LayoutStyles.All[0])]).Build();

        PngRenderer.Render(model, PlotSize.Slide);

        Assert.True(model.Axes[0].Scale < 0, "The axis must run to the left.");
        Assert.Equal(Math.Abs(model.Axes[0].Scale), Math.Abs(model.Axes[1].Scale), 1e-9);
        // The view is no wider than the vehicle needs in one direction: it did not grow while the page was laid out.
        Assert.True(model.Axes[0].ActualMaximum < study.Vehicle.Track * 1e3 || model.Axes[1].ActualMaximum < 1.3e3);
    }

    private static bool Close((double X, double Y) a, (double X, double Y) b) => Math.Abs(a.X - b.X) < 1e-6 && Math.Abs(a.Y - b.Y) < 1e-6;
}
