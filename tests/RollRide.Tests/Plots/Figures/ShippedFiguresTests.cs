using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Series;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Report;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Plots.Figures;

/// <summary>What holds for every figure of every shipped scenario: nothing is cut, a value stands on no curve, a pale ground means one thing.</summary>
public partial class ShippedFiguresTests
{
    /// <summary>The figures of every scenario, each with its picture as a slide.</summary>
    private static readonly Lazy<Dictionary<string, (Figure Figure, string Slide)[]>> Figures = new(() => Shipped.Scenarios.AsParallel().ToDictionary(name => name, Of));

    /// <summary>The grounds, and the word of the picture that says what each means.</summary>
    private static readonly (OxyColor Fill, string Word)[] Grounds = [(Theme.Target, "target"), (Theme.Fits, "fits"), (Theme.Marked, "obstacles|in the air")];

    public static TheoryData<string> Scenarios => [.. Shipped.Scenarios];

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void No_text_of_a_figure_is_cut_on_a_slide_or_on_the_page(string scenario)
    {
        foreach (var (figure, slide) in Figures.Value[scenario])
        {
            foreach (var drawn in new[] { slide, OnPage(figure) })
                Assert.DoesNotContain(Texts(drawn), text => text.Contains('…', StringComparison.Ordinal));
        }
    }

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void A_value_stands_on_no_damper_curve(string scenario)
    {
        foreach (var (figure, _) in Figures.Value[scenario].Where(drawn => drawn.Figure.FileName == "damper-curves.png"))
        {
            foreach (var width in new[] { 800, 606 })
            {
                SvgRenderer.Render(figure with { Footer = "", TitleSize = 15, Size = new PlotSize(2 * width, width == 800 ? 900 : 560, 2) }, SvgText.Letters);
                foreach (var model in figure.Panels.Select(panel => panel.Model))
                {
                    var values = model.Annotations.OfType<PeakLabels>().Single();
                    Assert.NotEmpty(values.Drawn);

                    // The curve as the eye sees it: a point in every half unit.
                    foreach (var point in model.Series.OfType<LineSeries>().Where(line => line.Color.A == byte.MaxValue).SelectMany(line => Between([.. line.Points.Select(values.Transform)])))
                        Assert.All(values.Drawn, box => Assert.False(box.Contains(point), $"{scenario}: a value stands on a curve."));
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void A_pale_ground_has_one_meaning_and_the_picture_says_it(string scenario)
    {
        foreach (var (figure, slide) in Figures.Value[scenario])
        {
            var texts = string.Join(" ", Texts(slide));
            foreach (var model in figure.Panels.Select(panel => panel.Model))
            {
                var fills = model.Annotations.OfType<ShapeAnnotation>().Select(shape => shape.Fill).Concat(model.Series.OfType<AreaSeries>().Select(area => area.Fill)).Concat(model.Series.OfType<LineSeries>().Select(line => line.Color)).ToHashSet();
                foreach (var (fill, word) in Grounds.Where(ground => fills.Contains(ground.Fill)))
                    Assert.Matches($"(?i){word}", texts);
                if (fills.Contains(Theme.Shade))
                    Assert.Contains(model.Annotations, annotation => annotation is SpanLabels);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void A_number_in_a_title_is_marked_in_the_picture(string scenario)
    {
        foreach (var (figure, slide) in Figures.Value[scenario])
        {
            var picture = XDocument.Parse(slide).Descendants().Where(element => element.Name.LocalName == "text")
                .Where(text => double.Parse(text.Attribute("font-size")!.Value, CultureInfo.InvariantCulture) is <= Theme.PanelTitleSize and > Theme.FooterSize).Select(text => text.Value);
            var marked = Number().Matches(string.Join(" ", picture)).Select(match => match.Value).ToHashSet();
            foreach (var number in Number().Matches(Name().Replace(figure.Title, "")).Select(match => match.Value))
                Assert.True(marked.Contains(number), $"{figure.FileName} of {scenario} shows no {number}: {figure.Title}");
        }
    }

    private static string OnPage(Figure figure) => FigurePlace.Of([figure, figure]).First().Place.Picture(figure with { TitleSize = 15 }, "figure").Markup;

    private static IEnumerable<string> Texts(string picture) => Text().Matches(picture).Select(match => match.Groups[1].Value);

    private static IEnumerable<ScreenPoint> Between(ScreenPoint[] points) =>
        from pair in points.Zip(points.Skip(1))
        let steps = Math.Max(1, (int)(2 * pair.First.DistanceTo(pair.Second)))
        from step in Enumerable.Range(0, steps)
        select new ScreenPoint(pair.First.X + ((pair.Second.X - pair.First.X) * step / steps), pair.First.Y + ((pair.Second.Y - pair.First.Y) * step / steps));

    /// <summary>The figures of the heaviest load state, and those of all of them.</summary>
    private static (Figure Figure, string Slide)[] Of(string name)
    {
        var scenario = ScenarioReader.Read(Shipped.Scenario(name));
        var states = scenario.Study.InEachLoad;
        var result = Comparison.Record(states[^1]);
        var windows = scenario.Study.Targets is null ? [] : states.Select(state => SettingWindowStudy.Run(state)).ToArray();
        Figure[] figures =
        [
            .. ComparisonFigures.All(result, PlotSize.Slide),
            MountsFigure.Build(result.Study),
            ModesOverVelocityFigure.Build(ModesStudy.Run(result.Study)),
            .. windows.Take(1).Select(SettingWindowFigure.Build),
            .. windows.Length > 1 ? [LoadWindowsFigure.Build(windows)] : Array.Empty<Figure>(),
            .. result.Study.Placement is null ? [] : PlacementFigures.All(PlacementStudy.Run(result.Study)),
        ];
        return [.. figures.Select(figure => (figure, SvgRenderer.Render(figure, SvgText.Letters)))];
    }

    [GeneratedRegex("<text[^>]*>([^<]*)</text>")]
    private static partial Regex Text();

    [GeneratedRegex(@"\d+(\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex("“[^”]*”")]
    private static partial Regex Name();
}
