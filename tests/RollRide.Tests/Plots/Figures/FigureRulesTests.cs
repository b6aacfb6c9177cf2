using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Series;
using RollRide.Damping;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Sweeps;
using RollRide.Tests.Scenarios;
using RollRide.Tests.Studies;
using RollRide.Tests.Sweeps;

namespace RollRide.Tests.Plots.Figures;

/// <summary>What holds for every figure: whose style a series wears, and that a number in a title is marked in the picture.</summary>
public partial class FigureRulesTests
{
    private static readonly Lazy<(LayoutStyles Styles, string[] Layouts, Figure[] Figures)[]> All = new(() => [OfShortScenario(), OfRandomRoad(), OfPlacement(), OfMounts(), OfTuning(), OfSweep(), OfRoadAndDamper(), OfWholeVehicle()]);

    [Fact]
    public void Only_a_layout_wears_its_style()
    {
        var colours = LayoutStyles.All.Select(style => style.Color).ToArray();
        var worn = 0;
        foreach (var (styles, layouts, figures) in All.Value)
        {
            foreach (var (figure, model) in figures.SelectMany(figure => figure.Panels.Select(panel => (figure, panel.Model))))
            {
                foreach (var (name, drawn) in Drawn(model).Where(item => colours.Contains(Opaque(item.Colour))))
                {
                    Assert.True(layouts.Contains(name), $"{figure.FileName}: “{name}” wears a layout's style.");
                    Assert.Equal(styles[name].Color, Opaque(drawn));
                    worn++;
                }

                Assert.DoesNotContain(model.Annotations.SelectMany(Colours), colour => colours.Contains(Opaque(colour)));
            }
        }

        Assert.True(worn > 100, $"{worn} series were looked at.");
    }

    [Fact]
    public void A_number_in_a_title_is_marked_in_the_picture()
    {
        foreach (var figure in All.Value.SelectMany(group => group.Figures))
        {
            var texts = XDocument.Parse(SvgRenderer.Render(figure, SvgText.Letters)).Descendants().Where(element => element.Name.LocalName == "text")
                .Where(text => text.Attribute("font-size") is { } size && double.Parse(size.Value, CultureInfo.InvariantCulture) is <= Theme.PanelTitleSize and > Theme.FooterSize)
                .Select(text => text.Value);
            var marked = Numbers().Matches(string.Join(" ", texts)).Select(match => match.Value).ToHashSet();

            // Names may hold numbers; they are not findings.
            foreach (var number in Numbers().Matches(Names().Replace(figure.Title, "")).Select(match => match.Value))
                Assert.True(marked.Contains(number), $"{figure.FileName} shows no {number}: {figure.Title}");
        }
    }

    [Theory] // Pictures of commands, of the documents, and of the report: half a page, alone in its row, and page one.
    [InlineData(1600, 900, 1)]
    [InlineData(800, 450, 1)]
    [InlineData(1212, 560, 2)]
    [InlineData(1636, 560, 2)]
    [InlineData(1414, 640, 2)]
    [InlineData(1010, 640, 2)]
    public void No_title_and_no_tick_label_of_an_axis_is_cut(int width, int height, double scale)
    {
        // The report gives a figure that needs height its own size.
        PlotSize SizeOf(Figure figure) => figure.NeedsHeight && scale > 1 ? new PlotSize(1212, 800, 2) : new PlotSize(width, height, scale);
        var labels = 0;
        foreach (var figure in All.Value.SelectMany(group => group.Figures))
        {
            if (!Draws(figure with { Size = SizeOf(figure) }))
                continue;
            foreach (var axis in figure.Panels.SelectMany(panel => panel.Model.Axes))
            {
                Assert.DoesNotContain("…", axis.TitleFormatString, StringComparison.Ordinal);
                axis.GetTickValues(out var ticks, out _, out _);
                Assert.All(ticks, tick => Assert.DoesNotContain("…", axis.FormatValue(tick), StringComparison.Ordinal));
                labels += ticks.Count;
            }
        }

        Assert.True(labels > 250, $"{labels} labels were looked at.");
    }

    /// <summary>Whether a figure has room; the report draws one that has none higher.</summary>
    private static bool Draws(Figure figure)
    {
        try
        {
            SvgRenderer.Render(figure, SvgText.Letters);
            return true;
        }
        catch (PictureTooSmallException)
        {
            return false;
        }
    }

    private static IEnumerable<(string Name, OxyColor Colour)> Drawn(PlotModel model) =>
    [
        .. model.Series.OfType<LineSeries>().Select(series => (series.ToolTip ?? "", series.LineStyle == LineStyle.None ? series.MarkerStroke : series.Color)),
        .. model.Annotations.OfType<DirectLabels>().SelectMany(labels => labels.Ends).Select(end => (end.Name, end.Style.Color)),
    ];

    private static IEnumerable<OxyColor> Colours(Annotation annotation) => annotation switch
    {
        LineAnnotation line => [line.Color],
        ShapeAnnotation shape => [shape.Fill, shape.Stroke],
        _ => [],
    };

    [Theory]
    [InlineData("rescue-van-whole.json", true)]
    [InlineData("lorry.json", true)]
    [InlineData("bump-then-corner.json", false)]
    public void Window_of_an_axle_of_a_whole_vehicle_says_that_it_is_of_this_axle_alone(string name, bool isOfWhole)
    {
        var figure = SettingWindowFigure.Build(SettingWindowStudy.Run(Read(name).Study, TestContext.Current.CancellationToken));

        Assert.All([figure.Title, figure.Subtitle], text => Assert.Equal(isOfWhole, text.Contains("on this axle alone", StringComparison.Ordinal)));
    }

    private static OxyColor Opaque(OxyColor colour) => OxyColor.FromRgb(colour.R, colour.G, colour.B);

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) Group(StudyCase study, params IEnumerable<Figure> figures) =>
        (StudyStyles.Of(study), [.. study.Layouts.Select(layout => layout.Name)], [.. figures]);

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) OfShortScenario()
    {
        var targets = new JsonObject { ["rollDampingRatioMinimum"] = 0.15, ["heaveDampingRatioMinimum"] = 0.2, ["heaveDampingRatioMaximum"] = 0.5 };
        var result = ShortScenario.Of(("Outboard", 0.8), ("Inboard", 0.5), ("Centre", 0.05)).With("targets", targets).Record();
        var modes = ModesStudy.Run(result.Study, TestContext.Current.CancellationToken);
        var sweep = PositionSweep.Run(result.Study, result.Study.Layouts[0], 3, cancellation: TestContext.Current.CancellationToken);
        return Group(
            result.Study,
            [
                .. ComparisonFigures.All(result, PlotSize.Slide), MountsFigure.Build(result.Study), ModesOverVelocityFigure.Build(modes),
                SettingWindowFigure.Build(SettingWindowStudy.Run(result.Study, TestContext.Current.CancellationToken)),
                ResponseFigures.ToRoad(modes), ResponseFigures.TravelToRoad(modes), ResponseFigures.ToLateralAcceleration(modes),
                .. sweep.Positions.Select((_, i) => PositionFigure.Build(result.Study, result.Layouts[0], sweep, i)),
            ]);
    }

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) OfRandomRoad()
    {
        var study = Read("broken-country-road.json").Study;
        var result = Comparison.Record(study with { Manoeuvre = study.Manoeuvre with { Duration = 12, Phases = [] } }, cancellation: TestContext.Current.CancellationToken);
        return Group(study, ComparisonFigures.All(result, PlotSize.Slide));
    }

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) OfPlacement()
    {
        var study = Read("placement.json").Study;
        return Group(study, PlacementFigures.All(PlacementStudy.Run(study, TestContext.Current.CancellationToken)));
    }

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) OfMounts()
    {
        var study = Read("bump-then-corner.json").Study;
        return Group(study, MountsFigures.All(MountsStudy.Run(study)));
    }

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) OfTuning()
    {
        var scenario = Read("valving.json");
        var result = TuningStudy.Run(scenario.Study, scenario.Tuning!, withFronts: false, cancellation: TestContext.Current.CancellationToken);
        return Group(scenario.Study, [.. TuningFigures.All(result, PlotSize.Slide), RobustFigure.Build(RobustTuning.Run(result, null, cancellation: TestContext.Current.CancellationToken))]);
    }

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) OfSweep()
    {
        using var trial = new SweepTrial(
            $$"""{ "design": "latinHypercube", "samples": 6, "metrics": ["rollOvershoot_percent"], "parameters": [ { "path": "{{SweepTrial.Rate}}", "uniform": { "from": 40, "to": 60 } }, { "path": "{{SweepTrial.Scale}}", "uniform": { "from": 0.5, "to": 2 } } ], "targets": [ { "metric": "rollOvershoot_percent", "atMost": 5 } ] }""",
            loadStates: """{ "kerb": { "mass_kg": 900 }, "full": { "mass_kg": 1500 } }""");
        var analysis = trial.Analyse();

        // The title of a scatter matrix is of the spread, of which each of its points is a part.
        return Group(analysis.Plan.Study, SweepFigures.All(analysis).Where(figure => !figure.FileName.StartsWith("sweep-scatter", StringComparison.Ordinal)));
    }

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) OfWholeVehicle()
    {
        var study = Read("delivery-van.json").Study;
        return Group(study, ComparisonFigures.All(Comparison.Record(study, cancellation: TestContext.Current.CancellationToken), PlotSize.Slide));
    }

    private static (LayoutStyles Styles, string[] Layouts, Figure[] Figures) OfRoadAndDamper()
    {
        var study = Read("broken-country-road.json").Study;
        var profile = study.Manoeuvre.Road.Unevenness!.ToProfile(3000, 0.05);
        var analysis = RoadAnalysis.Of(profile);
        var reduction = DynoReader.Read([Shipped.PathOf("scenarios", "damper-loops.csv")], new DynoFileOptions(), DynoMethod.PeakVelocity, excludeOutliers: false);
        return Group(
            study,
            [
                RoadFigures.Profile(profile, analysis, "", study.Manoeuvre.Road), RoadFigures.Spectrum(analysis.Spectrum!, ""),
                RoadFigures.Coherence(analysis.Spectrum!, study.Manoeuvre.Road.Unevenness!.Coherence, ""),
                .. DamperFigures.All(reduction, ValvingFit.Of(reduction.Curve.Points, rounded: true), "damper-loops.csv"),
            ]);
    }

    private static Scenario Read(string name) => ScenarioReader.Read(Shipped.Scenario(name));

    [GeneratedRegex(@"\d+(\.\d+)?")]
    private static partial Regex Numbers();

    [GeneratedRegex("“[^”]*”")]
    private static partial Regex Names();
}
