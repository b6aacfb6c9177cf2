using System.Globalization;
using System.Xml.Linq;
using OxyPlot;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class SvgRendererTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static TheoryData<string> Samples => ["one", "eight", "stack", "curves", "bars"];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Render_sample_figure_is_well_formed_refers_to_nothing_outside_and_is_the_same_every_time(string name)
    {
        var text = SvgRenderer.Render(Sample(name), SvgText.Outlines);

        var root = XDocument.Parse(text).Root!;
        Assert.Equal("0 0 800 450", root.Attribute("viewBox")!.Value);
        Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName is "image" or "use" or "script" or "text");
        var ids = root.Descendants().Attributes("id").Select(id => id.Value).ToArray();
        Assert.Equal(ids.Distinct(), ids);
        Assert.All(root.Descendants().Attributes("clip-path"), clip => Assert.Contains(clip.Value["url(#".Length..^1], ids));
        Assert.Equal(text, SvgRenderer.Render(Sample(name), SvgText.Outlines));
    }

    [Fact]
    public void Render_letters_writes_every_text_of_the_page()
    {
        var texts = Parse(SampleFigures.Roll(3)).Descendants(Svg + "text").Select(text => text.Value).ToArray();

        Assert.Contains("Roll settles within two seconds", texts);
        Assert.Contains("How fast does roll settle?", texts);
        Assert.Contains("Time [s]", texts);
        Assert.Contains("−6.6 deg", texts);
        Assert.Contains("Baseline", texts);
    }

    [Fact]
    public void Render_name_with_markup_stays_text()
    {
        var figure = new Figure("x.png", "</svg><script>alert(1)</script>\u0001", "", "",
            [new Panel(new TimePanel(null, "a\"b", "<i>", [new PlotSeries("\"><script>&", LayoutStyles.All[0], [0, 1], [0, 1])]).Build())]);

        foreach (var text in new[] { SvgText.Letters, SvgText.Outlines })
        {
            var root = XDocument.Parse(SvgRenderer.Render(figure, text)).Root!;
            Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName == "script");
            Assert.Contains(root.Descendants().Attributes("data-layout"), layout => layout.Value == "\"><script>&");
        }
    }

    [Fact]
    public void Render_time_panel_tells_where_its_curves_are()
    {
        // A straight line from (0 s, 0) to (2 s, 10): its polyline must run through the place that the attributes give to each.
        var figure = new Figure("x.png", "Two panels", "whose page is laid out in several passes", "", [
            new Panel(new TimePanel(null, "Roll angle", "deg", [new PlotSeries("line", LayoutStyles.All[0], [0, 2], [0, 10])]).Build()),
            new Panel(new CurvePanel(null, "Frequency", "Hz", "A quantity whose name is long", "m/s²", [new PlotSeries("another layout", LayoutStyles.All[1], [0, 1], [0, 1e5])]).Build(), 0, 1)]);

        var panel = Assert.Single(Parse(figure).Descendants(Svg + "g"), group => (string?)group.Attribute("class") == "time-panel");

        var area = Numbers(panel, "data-area");
        var (time, range) = (Numbers(panel, "data-time"), Numbers(panel, "data-range"));
        Assert.Equal(("Roll angle", "deg"), (panel.Attribute("data-quantity")!.Value, panel.Attribute("data-unit")!.Value));
        var curve = panel.Descendants(Svg + "g").Where(group => (string?)group.Attribute("data-layout") == "line")
            .Elements(Svg + "polyline").MaxBy(line => line.Attribute("stroke-width")!.Value)!;
        foreach (var ((x, y), point) in new[] { (0.0, 0.0), (2.0, 10.0) }.Zip(curve.Attribute("points")!.Value.Split(' ')))
        {
            var at = point.Split(',').Select(number => double.Parse(number, CultureInfo.InvariantCulture)).ToArray();
            // Coordinates are written with two decimals.
            Assert.Equal(area[0] + ((x - time[0]) / (time[1] - time[0]) * area[2]), at[0], 0.02);
            Assert.Equal(area[1] + ((range[1] - y) / (range[1] - range[0]) * area[3]), at[1], 0.02);
        }
    }

    [Fact]
    public void Render_groups_what_belongs_to_a_layout_bars_names_and_peaks_too()
    {
        var curves = Parse(SampleFigures.Roll(2));
        var bars = Parse(SampleFigures.Bars());

        Assert.Contains(OfLayout(curves, "Baseline"), element => element.Name == Svg + "text" && element.Value == "−6.6 deg");
        Assert.Contains(OfLayout(curves, "Inboard"), element => element.Name == Svg + "text" && element.Value == "Inboard");
        Assert.Contains(OfLayout(bars, "Inboard"), element => element.Name == Svg + "rect");
        Assert.DoesNotContain(curves.Descendants(Svg + "text"), text => text.Value == "steady" && text.Ancestors().Attributes("data-layout").Any());
    }

    [Fact]
    public void Render_text_stands_where_the_picture_of_pixels_has_it()
    {
        // Both write through the same line placement: a text anchored right, bottom ends at its anchor.
        var context = new RollRide.Plots.SvgRenderContext(SvgText.Letters, "x");
        context.DrawText(new ScreenPoint(100, 50), "Roll", OxyColors.Black, null, 20, 400, 0, HorizontalAlignment.Right, VerticalAlignment.Bottom);

        var text = XElement.Parse(context.Finish());
        Assert.Equal(100 - PlotFont.Width("Roll", 20), double.Parse(text.Attribute("x")!.Value, CultureInfo.InvariantCulture), 0.01);
    }

    private static IEnumerable<XElement> OfLayout(XElement root, string layout) =>
        root.Descendants(Svg + "g").Where(group => (string?)group.Attribute("data-layout") == layout).Descendants();

    private static XElement Parse(Figure figure) => XDocument.Parse(SvgRenderer.Render(figure, SvgText.Letters)).Root!;

    private static double[] Numbers(XElement element, string name) =>
        [.. element.Attribute(name)!.Value.Split(' ').Select(number => double.Parse(number, CultureInfo.InvariantCulture))];

    private static Figure Sample(string name) => name switch
    {
        "one" => SampleFigures.Roll(1),
        "eight" => SampleFigures.Roll(8),
        "stack" => SampleFigures.Stack(),
        "curves" => SampleFigures.Curves(),
        _ => SampleFigures.Bars(),
    };
}
