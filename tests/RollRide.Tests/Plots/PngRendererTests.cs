using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;
using RollRide.Plots;
using SkiaSharp;

namespace RollRide.Tests.Plots;

public class PngRendererTests
{
    public static TheoryData<string> Samples => ["one", "three", "eight", "stack", "curves", "bars"];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Render_sample_figure_has_its_size_and_the_same_bytes_every_time(string name)
    {
        var figure = Sample(name);

        var first = PngRenderer.Render(figure);

        using var bitmap = SKBitmap.Decode(first);
        Assert.Equal((1600, 900), (bitmap.Width, bitmap.Height));
        Assert.Equal(first, PngRenderer.Render(figure));
        Assert.Equal(first, PngRenderer.Render(Sample(name)));
    }

    [Fact] // Three columns leave each less than its title needs in one line: the unit stands in the next, and all lines above the footer.
    public void Render_titles_of_narrow_panels_are_broken_and_keep_their_units()
    {
        PlotSeries curve = new("A", LayoutStyles.All[0], [-1, 1], [-1, 1]);
        Panel Column(int i) => new(new CurvePanel($"Layout {i}", "Damper velocity, compression positive", "m/s", "Force", "N", [curve]).Build(), 0, i);
        var figure = new Figure("narrow.png", "Three columns", "", "Scenario", [Column(0), Column(1), Column(2)]) { Size = new PlotSize(960, 540) };

        PngRenderer.Render(figure);

        foreach (var model in figure.Panels.Select(panel => panel.Model))
        {
            var axis = model.Axes.Single(axis => axis.Position == AxisPosition.Bottom);
            var lines = axis.TitleFormatString.Split('\n');
            Assert.True(lines.Length > 1);
            Assert.EndsWith("[m/s]", lines[^1], StringComparison.Ordinal);
            Assert.All(lines, line => Assert.True(PlotFont.Width(line, axis.TitleFontSize) <= model.PlotArea.Width));
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Render_sample_figure_leaves_the_edge_of_the_page_white(string name)
    {
        using var bitmap = SKBitmap.Decode(PngRenderer.Render(Sample(name)));

        // Text that does not fit would be cut at the edge.
        for (var x = 0; x < bitmap.Width; x++)
            Assert.Equal((SKColors.White, SKColors.White), (bitmap.GetPixel(x, 0), bitmap.GetPixel(x, bitmap.Height - 1)));
        for (var y = 0; y < bitmap.Height; y++)
            Assert.Equal((SKColors.White, SKColors.White), (bitmap.GetPixel(0, y), bitmap.GetPixel(bitmap.Width - 1, y)));
    }

    [Fact]
    public void Render_figure_with_another_title_has_other_bytes() =>
        Assert.NotEqual(PngRenderer.Render(SampleFigures.Roll(1)), PngRenderer.Render(SampleFigures.Roll(1, "Roll never settles")));

    [Fact]
    public void Render_figure_with_another_panel_title_has_other_bytes() =>
        Assert.NotEqual(PngRenderer.Render(Theme.Panel("Roll"), PlotSize.Slide), PngRenderer.Render(Theme.Panel("Pitch"), PlotSize.Slide));

    [Fact]
    public void Render_plot_model_has_the_size_asked_for()
    {
        using var bitmap = SKBitmap.Decode(PngRenderer.Render(SampleFigures.TimePanel(1).Build(), new PlotSize(800, 600, 1)));

        Assert.Equal((800, 600), (bitmap.Width, bitmap.Height));
    }

    [Fact]
    public void Render_model_that_cannot_be_updated_throws_instead_of_painting_the_error()
    {
        var model = Theme.Panel();
        model.Series.Add(new LineSeries { YAxisKey = "no such axis" });

        Assert.Throws<InvalidOperationException>(() => PngRenderer.Render(model, PlotSize.Slide));
    }

    [Fact]
    public void Render_model_that_cannot_be_drawn_throws_instead_of_painting_the_error()
    {
        var model = Theme.Panel();
        model.Annotations.Add(new FailingAnnotation());

        Assert.Throws<InvalidOperationException>(() => PngRenderer.Render(model, PlotSize.Slide));
    }

    [Fact]
    public void Render_picture_too_small_for_its_panels_throws() =>
        Assert.Throws<PictureTooSmallException>(() => PngRenderer.Render(SampleFigures.Stack() with { Size = new PlotSize(1600, 300, 2) }));

    [Fact]
    public void Render_gives_the_models_their_own_margins_back()
    {
        var model = SampleFigures.TimePanel(1).Build();
        model.PlotMargins = new OxyThickness(1, 2, 3, 4);

        PngRenderer.Render(model, PlotSize.Slide);

        Assert.Equal(new OxyThickness(1, 2, 3, 4), model.PlotMargins);
    }

    private static Figure Sample(string name) => name switch
    {
        "one" => SampleFigures.Roll(1),
        "three" => SampleFigures.Roll(3),
        "eight" => SampleFigures.Roll(8),
        "stack" => SampleFigures.Stack(),
        "curves" => SampleFigures.Curves(),
        _ => SampleFigures.Bars(),
    };

    private sealed class FailingAnnotation : Annotation
    {
        public override void Render(IRenderContext rc) => throw new NotSupportedException("It fails when drawn.");
    }
}
