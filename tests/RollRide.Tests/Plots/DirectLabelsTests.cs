using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class DirectLabelsTests
{
    [Fact]
    public void Room_beside_the_curves_is_there_for_the_longest_name()
    {
        var few = new DirectLabels([End("Baseline")], LabelPlacement.AtCurveEnds, []);
        var more = new DirectLabels([End("Baseline"), End("Outboard, softer")], LabelPlacement.AtCurveEnds, []);

        Assert.True(few.Room.Right > PlotFont.Width("Baseline", Theme.LabelSize));
        Assert.True(more.Room.Right > few.Room.Right);
    }

    [Fact]
    public void Room_of_a_very_long_name_is_limited() =>
        Assert.True(new DirectLabels([End(new string('m', 200))], LabelPlacement.AtCurveEnds, []).Room.Right < 220);

    [Fact]
    public void Fits_more_than_eight_names_is_false() =>
        Assert.False(new DirectLabels([.. Enumerable.Repeat(End("A"), 9)], LabelPlacement.AtCurveEnds, []).Fits(10000));

    [Fact]
    public void Fits_names_higher_than_the_plot_is_false()
    {
        var labels = new DirectLabels([.. Enumerable.Repeat(End("A"), 8)], LabelPlacement.AtCurveEnds, []);

        Assert.True(labels.Fits(200));
        Assert.False(labels.Fits(60));
    }

    [Theory]
    [InlineData(LabelPlacement.AtCurveEnds, false, false)]
    [InlineData(LabelPlacement.AtCurveEnds, true, true)]
    [InlineData(LabelPlacement.AbovePanels, false, true)]
    [InlineData(LabelPlacement.None, true, false)]
    public void IsAbove_follows_the_placement_and_the_page(LabelPlacement placement, bool moved, bool above)
    {
        var labels = new DirectLabels([End("A")], placement, []) { MovedAbove = moved };

        Assert.Equal(above, labels.IsAbove);
        Assert.Equal(placement == LabelPlacement.AtCurveEnds && !moved, labels.Room.Right > 0);
    }

    [Fact]
    public void Room_for_a_reference_line_is_there_wherever_the_layouts_are_named() =>
        Assert.True(new DirectLabels([End("A")], LabelPlacement.None, [new ReferenceLine(1, "limit")]).Room.Right > 0);

    [Fact]
    public void Render_names_that_do_not_fit_one_panel_moves_the_names_of_all_above()
    {
        var figure = new Figure("a.png", "", "", "",
            [new Panel(SampleFigures.TimePanel(2).Build()), new Panel(SampleFigures.TimePanel(8).Build(), 1)])
        { RowHeights = [2, 1] };

        PngRenderer.Render(figure);

        Assert.All(figure.Panels, panel => Assert.All(panel.Model.Annotations.OfType<DirectLabels>(), labels => Assert.True(labels.IsAbove)));
    }

    private static CurveEnd End(string name) => new(name, LayoutStyles.All[0], 1, 1);
}
