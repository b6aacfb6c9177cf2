using OxyPlot;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class FigureTests
{
    private const double Unit = 1e-9; // plot units; edges are sums of a few numbers of order 1e3

    [Fact]
    public void Panels_in_a_column_have_the_same_left_and_right_edge_and_time_axis()
    {
        var figure = SampleFigures.Stack();
        PngRenderer.Render(figure);

        var (upper, lower) = (figure.Panels[0].Model, figure.Panels[1].Model);
        Assert.Equal(upper.PlotArea.Left, lower.PlotArea.Left, Unit);
        Assert.Equal(upper.PlotArea.Right, lower.PlotArea.Right, Unit);
        Assert.Equal(upper.PlotArea.Height, lower.PlotArea.Height, Unit);
        Assert.Equal((upper.DefaultXAxis.ActualMinimum, upper.DefaultXAxis.ActualMaximum), (lower.DefaultXAxis.ActualMinimum, lower.DefaultXAxis.ActualMaximum));
        Assert.True(upper.PlotArea.Bottom < lower.PlotArea.Top);
    }

    [Fact]
    public void Panels_in_a_row_have_the_same_top_and_bottom_and_a_span_reaches_across()
    {
        var figure = SampleFigures.Curves();
        PngRenderer.Render(figure);

        var areas = figure.Panels.Select(panel => panel.Model.PlotArea).ToArray();
        Assert.Equal((areas[0].Top, areas[0].Bottom), (areas[1].Top, areas[1].Bottom));
        Assert.Equal(areas[0].Left, areas[2].Left, Unit);
        Assert.Equal(areas[1].Right, areas[2].Right, Unit);
    }

    [Fact]
    public void Row_heights_divide_the_plot_areas()
    {
        var figure = SampleFigures.Stack() with { RowHeights = [1, 2] };
        PngRenderer.Render(figure);

        Assert.Equal(2 * figure.Panels[0].Model.PlotArea.Height, figure.Panels[1].Model.PlotArea.Height, Unit);
    }

    [Theory]
    [InlineData("roll.pdf")]
    [InlineData("figures/roll.png")]
    public void File_name_with_a_folder_or_another_ending_throws(string name) =>
        Assert.Throws<ArgumentException>(() => new Figure(name, "", "", "", [new Panel(new PlotModel())]));

    [Fact]
    public void No_panel_throws() => Assert.Throws<ArgumentException>(() => new Figure("a.png", "", "", "", []));

    [Fact]
    public void Two_panels_in_one_place_throw() =>
        Assert.Throws<ArgumentException>(() => new Figure("a.png", "", "", "", [new Panel(new PlotModel(), 0, 0, 2), new Panel(new PlotModel(), 1)]));

    [Fact]
    public void Row_heights_that_do_not_match_the_rows_throw()
    {
        Assert.Throws<ArgumentException>(() => SampleFigures.Stack() with { RowHeights = [1] });
        Assert.Throws<ArgumentException>(() => SampleFigures.Stack() with { RowHeights = [1, 0] });
    }
}
