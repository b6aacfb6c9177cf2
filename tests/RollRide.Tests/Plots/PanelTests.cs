using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;
using RollRide.Plots;
using HistogramSeries = RollRide.Plots.HistogramSeries;

namespace RollRide.Tests.Plots;

public class PanelTests
{
    [Fact]
    public void TimePanel_axes_say_what_they_show_and_in_which_unit()
    {
        var model = SampleFigures.TimePanel(1).Build();

        Assert.Equal(("Time", "s"), (model.Axes[0].Title, model.Axes[0].Unit));
        Assert.Equal(("Roll angle", "deg"), (model.Axes[1].Title, model.Axes[1].Unit));
    }

    [Fact]
    public void TimePanel_vertical_axis_reaches_curves_reference_lines_and_peaks()
    {
        var panel = new TimePanel(null, "Roll angle", "deg", [new PlotSeries("A", LayoutStyles.All[0], [0, 1], [0, 1])])
        {
            ReferenceLines = [new ReferenceLine(5, "limit"), new ReferenceLine(90, "time", Vertical: true)],
            Peaks = [new PeakMark(0.5, -3, "−3", LayoutStyles.All[0])],
        };

        var axis = panel.Build().Axes[1];

        Assert.True(axis.Minimum < -3 && axis.Maximum is > 5 and < 10);
    }

    [Fact]
    public void TimePanel_curve_is_drawn_with_its_extremes_and_in_its_layouts_style()
    {
        // Far more points than a picture has columns, so that most are left out.
        double[] time = [.. Enumerable.Range(0, 50_000).Select(i => i * 1e-4)];
        var series = new PlotSeries("A", LayoutStyles.All[3], time, [.. time.Select(t => Math.Exp(-t) * Math.Sin(20 * t))]);

        var line = (LineSeries)new TimePanel(null, "Roll angle", "deg", [series]).Build().Series[0];

        Assert.True(line.Points.Count < series.X.Count);
        Assert.Equal(series.Y.Min(), line.Points.Min(point => point.Y));
        Assert.Equal(LayoutStyles.All[3].Color, line.Color);
        Assert.Equal(LayoutStyles.All[3].Dashes, line.Dashes);
    }

    [Fact]
    public void Markers_stand_at_the_points_given_and_nowhere_else()
    {
        var curve = new PlotSeries("A", LayoutStyles.All[2], [0, 1, 3], [0, 2, 6]);
        LineSeries[] Drawn(PlotSeries series) => [.. new TimePanel(null, "Slope", "", [series]).Build().Series.Cast<LineSeries>().Where(line => line.MarkerType != OxyPlot.MarkerType.None)];

        Assert.Empty(Drawn(curve));
        Assert.Equal([(0, 0), (1, 2), (3, 6)], Assert.Single(Drawn(curve.Marked)).Points.Select(point => (point.X, point.Y)));
    }

    [Fact]
    public void OnOneScale_gives_every_panel_the_limits_of_all()
    {
        static CurvePanel Of(double x, double y) => new(null, "x", "", "y", "", [new PlotSeries("A", LayoutStyles.All[0], [0, x], [0, y])]);
        var models = CurvePanel.OnOneScale([Of(1, 30), Of(20, 2)]).Select(panel => panel.Build()).ToArray();

        Assert.All(models, model => Assert.Equal((0, 20), (model.Axes[0].Minimum, model.Axes[0].Maximum)));
        Assert.All(models, model => Assert.True(model.Axes[1].Minimum < 0 && model.Axes[1].Maximum > 30));
        Assert.Equal(models[0].Axes[1].Maximum, models[1].Axes[1].Maximum);
    }

    [Fact]
    public void Stack_unifies_the_time_axes_and_writes_only_the_lowest()
    {
        var panels = TimePanel.Stack([
            new TimePanel(null, "A", "", [new PlotSeries("A", LayoutStyles.All[0], [0, 2], [0, 1])]),
            new TimePanel(null, "B", "", [new PlotSeries("A", LayoutStyles.All[0], [1, 5], [0, 1])])]);

        Assert.All(panels, panel => Assert.Equal((0, 5), (panel.Model.Axes[0].Minimum, panel.Model.Axes[0].Maximum)));
        Assert.Equal([null, "Time"], panels.Select(panel => panel.Model.Axes[0].Title));
        Assert.Equal([0, 1], panels.Select(panel => panel.Row));
    }

    [Fact]
    public void CurvePanel_draws_the_run_under_the_curve()
    {
        var model = SampleFigures.Curves().Panels[0].Model;

        var (run, curve) = ((LineSeries)model.Series[0], (LineSeries)model.Series[1]);
        Assert.True(run.StrokeThickness > curve.StrokeThickness && run.Color.A < 255);
    }

    [Fact]
    public void CurvePanel_logarithmic_axis_from_zero_throws()
    {
        var panel = new CurvePanel(null, "Frequency", "Hz", "Gain", "", [new PlotSeries("A", LayoutStyles.All[0], [0, 1], [0, 1])]) { LogarithmicX = true };

        Assert.Throws<ArgumentOutOfRangeException>(panel.Build);
    }

    [Fact]
    public void HistogramPanel_outline_steps_at_the_edges_and_encloses_the_area_of_the_classes()
    {
        double[] edges = [0, 1, 3, 4];
        double[] heights = [2, 5, 1];
        var model = new HistogramPanel(null, "v", "m/s", "Share", "%", [new HistogramSeries("A", LayoutStyles.All[0], edges, heights)]).Build();

        var points = ((LineSeries)model.Series[0]).Points;
        Assert.Equal((new DataPoint(0, 0), new DataPoint(4, 0)), (points[0], points[^1]));
        var area = points.Zip(points.Skip(1), (a, b) => (b.X - a.X) * (a.Y + b.Y) / 2).Sum();
        Assert.Equal(1 * 2 + 2 * 5 + 1 * 1, area, 1e-12);
    }

    [Fact]
    public void HistogramSeries_edges_that_do_not_match_or_ascend_throw()
    {
        Assert.Throws<ArgumentException>(() => new HistogramSeries("A", LayoutStyles.All[0], [0, 1], [1, 2]));
        Assert.Throws<ArgumentException>(() => new HistogramSeries("A", LayoutStyles.All[0], [0, 1, 1], [1, 2]));
    }

    [Fact]
    public void BarPanel_value_axis_starts_at_zero_and_leaves_room_beyond_the_longest_bar()
    {
        var axis = new BarPanel(null, "Damping ratio", "", ["ζ"], [new BarGroup("A", LayoutStyles.All[0], [0.2]), new BarGroup("B", LayoutStyles.All[1], [0.4])]).Build().Axes[1];

        Assert.Equal(0, axis.Minimum);
        Assert.True(axis.Maximum > 0.4);
    }

    [Fact]
    public void BarPanel_single_category_writes_the_layouts_at_the_bars_with_the_first_on_top()
    {
        var axis = new BarPanel(null, "Damping ratio", "", ["ζ"], [new BarGroup("A", LayoutStyles.All[0], [0.2]), new BarGroup("B", LayoutStyles.All[1], [0.4])]).Build().Axes[0];

        Assert.Equal((AxisPosition.Left, 1.0, 0.0), (axis.Position, axis.StartPosition, axis.EndPosition));
        Assert.Equal(["A", "B"], [axis.FormatValue(0), axis.FormatValue(1)]);
    }

    [Fact]
    public void BarPanel_layout_without_a_value_for_every_category_throws() =>
        Assert.Throws<ArgumentException>(() => new BarPanel(null, "Q", "", ["a", "b"], [new BarGroup("A", LayoutStyles.All[0], [1])]));

    [Fact]
    public void PlotSeries_value_that_is_not_finite_throws() =>
        Assert.Throws<ArgumentException>(() => new PlotSeries("A", LayoutStyles.All[0], [0, 1], [0, double.PositiveInfinity]));

    [Fact]
    public void PlotSeries_of_a_single_point_throws() => Assert.Throws<ArgumentException>(() => new PlotSeries("A", LayoutStyles.All[0], [0], [0]));

    [Fact]
    public void PlotSpan_that_ends_before_it_starts_throws() => Assert.Throws<ArgumentOutOfRangeException>(() => new PlotSpan(2, 1, "phase"));

    [Fact]
    public void Tornado_shows_both_values_and_both_bars_where_they_lie_on_one_side()
    {
        var model = new TornadoPanel(null, "Overshoot", "%", 108, [new TornadoBar("rate", 88.1, 97.4)]).Build();

        Assert.Equal("88.1, 97.4", Assert.Single(model.Annotations.OfType<TextAnnotation>()).Text);
        var bars = model.Annotations.OfType<RectangleAnnotation>().ToArray();
        Assert.Equal([88.1, 97.4], bars.Select(bar => bar.MinimumX)); // the shorter one last, in front
    }
}
