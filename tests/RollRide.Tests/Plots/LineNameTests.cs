using OxyPlot;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class LineNameTests
{
    private static readonly SeriesStyle Style = LayoutStyles.All[0];

    [Theory] // A curve that runs just above the line at 0 on one half, and far away on the other.
    [InlineData(0.02, 0.02, 0.02, 0.02, HorizontalAlignment.Right, VerticalAlignment.Top)] // above it everywhere: below
    [InlineData(1, 1, 0.02, 0.02, HorizontalAlignment.Left, VerticalAlignment.Bottom)] // above it at the right: left
    [InlineData(-1, -1, -1, -1, HorizontalAlignment.Right, VerticalAlignment.Bottom)] // nowhere near
    public void A_name_stands_where_no_curve_runs_through_it(double start, double middle, double behind, double end, HorizontalAlignment horizontal, VerticalAlignment vertical)
    {
        var name = Drawn(new PlotSeries("a layout", Style, [0, 4.9, 5.1, 10], [start, middle, behind, end]), 0);

        Assert.Equal((horizontal, vertical), (name.TextHorizontalAlignment, name.TextVerticalAlignment));
    }

    [Fact]
    public void The_name_of_a_line_at_the_top_of_the_plot_stands_below_it() =>
        Assert.Equal(VerticalAlignment.Top, Drawn(new PlotSeries("a layout", Style, [0, 10], [-1, -1]), 1.999).TextVerticalAlignment);

    // As high as on half a page, where a name has no room above the highest line.
    private static LineName Drawn(PlotSeries curve, double line)
    {
        var model = new CurvePanel(null, "Time", "s", "Angle", "deg", [curve])
        {
            ReferenceLines = [new ReferenceLine(line, "heave minimum")],
            NamesLinesInside = true,
            Labels = LabelPlacement.None,
            YRange = new PlotRange(-2, 2),
        }.Build();
        SvgRenderer.Render(new Figure("test.png", "Title", "", "", [new Panel(model)]) { Size = new PlotSize(1160, 660, 2) }, SvgText.Letters);
        return model.Annotations.OfType<LineName>().Single();
    }
}
