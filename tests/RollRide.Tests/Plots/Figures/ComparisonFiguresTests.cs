using System.Globalization;
using System.Text.Json.Nodes;
using System.Xml.Linq;
using RollRide.Findings;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Plots.Figures;

public class ComparisonFiguresTests
{
    // A small picture shows what a slide shows, and is drawn sooner.
    private static readonly PlotSize Size = new(640, 360);

    // Behind numbers at curves.
    private static readonly string[] OtherUnits = [" deg", " m/s", " kN", " mm", " N", " %"];

    private static readonly string[] OtherTexts = ["inside", "too soft", "too hard", "no setting serves", "bump", "corner"];

    public static TheoryData<string> Cases => [.. Scenarios.Keys];

    private static Dictionary<string, Func<JsonObject>> Scenarios { get; } = new()
    {
        ["one layout"] = () => ShortScenario.Of(("Only", 0.8)),
        ["three layouts"] = () => ShortScenario.Of(("Outboard", 0.8), ("Inboard", 0.5), ("Centre", 0.05)),
        ["eight layouts with long names"] = () => ShortScenario.Of([.. Enumerable.Range(1, 8).Select(i =>
            ($"Layout {i}: outboard of the frame rail, leaning forwards, with the softer of two settings", 0.1 * i))]),
        ["no cornering"] = () => ShortScenario.Pair().With("manoeuvre.cornering", null),
        ["no road"] = () => ShortScenario.Pair().With("manoeuvre.road", null),
        ["nothing at all"] = () => ShortScenario.Pair().With("manoeuvre.road", null).With("manoeuvre.cornering", null),
        ["no phases"] = () => ShortScenario.Pair().With("manoeuvre.phases", new JsonArray()),
        ["a phase shorter than a sample"] = () => ShortScenario.Pair().With("manoeuvre.phases", JsonNode.Parse("""[ { "name": "blink", "start_s": 0.5002, "end_s": 0.5004 } ]""")),
        ["five phases"] = () => ShortScenario.Pair().With("manoeuvre.phases", new JsonArray([.. Enumerable.Range(0, 5).Select(i =>
            JsonNode.Parse(FormattableString.Invariant($$"""{ "name": "part {{i}}", "start_s": {{0.4 * i}}, "end_s": {{0.4 * (i + 1)}} }""")))])),
        ["wheel lift"] = () => ShortScenario.Of(("Outer", 0.8), ("Centre", 0)).With("manoeuvre.cornering.lateralAcceleration.events",
            new JsonArray(JsonNode.Parse("""{ "start_s": 0.2, "amplitude_m_per_s2": 8.5, "sine": { "frequency_Hz": 1, "cycles": 1 } }"""))),
        ["coarse history"] = () => ShortScenario.Pair().With("output.rate_Hz", 10),
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Every_figure_renders_and_says_something(string scenario)
    {
        var figures = ComparisonFigures.All(Scenarios[scenario]().Record(), Size);

        Assert.Equal(7, figures.Count);
        Assert.Equal(7, figures.Select(figure => figure.FileName).Distinct().Count());
        Assert.All(figures, figure =>
        {
            Assert.NotEmpty(PngRenderer.Render(figure));
            Assert.NotEmpty(figure.Title);
            Assert.DoesNotContain("NaN", figure.Title, StringComparison.Ordinal);
            Assert.EndsWith(".", figure.Subtitle, StringComparison.Ordinal);
            Assert.Contains("short.json", figure.Footer, StringComparison.Ordinal);
            Assert.Contains(Provenance.ProgramVersion, figure.Footer, StringComparison.Ordinal);
            Assert.Contains(Cautions.OneLine, figure.Footer, StringComparison.Ordinal);
        });
    }

    [Theory]
    [InlineData("Outboard of the frame rail, on the long welded bracket with rubber bushes, setting {0}")]
    [InlineData("Twin-tube damper outboard of the rail, valving number {0}, with the hard rubber bushes of the spring plant")]
    public void Long_names_that_differ_late_stay_different_in_every_figure(string name)
    {
        string[] names = [.. Enumerable.Range(1, 8).Select(i => string.Format(CultureInfo.InvariantCulture, name, i))];
        var targets = new JsonObject { ["rollDampingRatioMinimum"] = 0.15, ["heaveDampingRatioMinimum"] = 0.2, ["heaveDampingRatioMaximum"] = 0.5 };
        var result = ShortScenario.Of([.. names.Select((layout, i) => (layout, 0.95 - (0.1 * i)))]).With("targets", targets).Record();
        var windows = SettingWindowStudy.Run(result.Study, TestContext.Current.CancellationToken);
        var keyed = 0;

        foreach (var figure in (Figure[])[.. ComparisonFigures.All(result, PlotSize.Slide), MountsFigure.Build(result.Study), SettingWindowFigure.Build(windows)])
        {
            var groups = XDocument.Parse(SvgRenderer.Render(figure, SvgText.Letters)).Descendants().Where(element => element.Attribute("data-layout") is not null);
            var shown = groups.Select(group => (
                Layout: group.Attribute("data-layout")!.Value,
                Text: string.Join(' ', group.Elements().Where(element => element.Name.LocalName == "text").Select(text => text.Value).Where(text => text.Any(char.IsLetter) && !OtherUnits.Any(unit => text.Contains(unit, StringComparison.Ordinal)) && !OtherTexts.Contains(text)))))
                .Where(pair => pair.Text.Length > 0).ToArray();

            Assert.Equal(shown.Select(pair => pair.Layout).Distinct().Count(), shown.Select(pair => pair.Text).Distinct().Count());
            keyed += shown.Length == names.Length ? 1 : 0;
        }

        // All but the test's inputs and the force–velocity curves, whose panels carry the names as titles.
        Assert.Equal(7, keyed);
    }

    [Fact]
    public void Titles_state_the_finding()
    {
        var result = ShortScenario.Pair().Record();
        var (outer, inner) = (result.Layouts[0].Metrics, result.Layouts[1].Metrics);

        var titles = ComparisonFigures.All(result, Size).ToDictionary(figure => figure.FileName, figure => figure.Title);

        Assert.Equal("The run: a 30 mm bump under the left wheel and a left turn of up to 3.0 m/s² at 36 km/h", titles["inputs.png"]);
        Assert.Equal(
            FormattableString.Invariant($"From rest, roll overshoots by {100 * outer.RollResponse!.Overshoot:F0} % with “Outer”, by {100 * inner.RollResponse!.Overshoot:F0} % with “Inner”"),
            titles["roll-angle.png"]);
        Assert.Equal(
            FormattableString.Invariant($"All tyres stay on the road; the least load is {Math.Min(outer.Whole.TyreLoadMinimum, inner.Whole.TyreLoadMinimum):F0} N, with “Inner”"),
            titles["tyre-loads.png"]);
    }

    [Fact]
    public void Damper_curve_is_drawn_as_interpolated_with_its_points_marked_and_all_panels_share_one_scale()
    {
        var scenario = ShortScenario.Pair();
        scenario["dampers"]!["cubic"] = JsonNode.Parse("""{ "curve": { "velocity_m_per_s": [-0.2, -0.1, 0, 0.1, 0.2], "force_N": [-900, -600, 0, 300, 400] }, "interpolation": "monotoneCubic" }""");
        scenario["layouts"]![1]!["damper"] = "cubic";
        var result = scenario.Record();
        var curve = result.Layouts[1].Car.Layout.Damper.Curve;

        var figure = DamperCurvesFigure.Build(result);

        var lines = figure.Panels[1].Model.Series.OfType<OxyPlot.Series.LineSeries>().ToArray();
        var marks = Assert.Single(lines, line => line.MarkerType != OxyPlot.MarkerType.None);
        Assert.Equal(curve.Points.Select(point => (point.Velocity, point.Force / 1e3)), marks.Points.Select(point => (point.X, point.Y)));
        var drawn = lines.Single(line => line.Points.Count == 161);
        Assert.All(drawn.Points, point => Assert.Equal(curve.Force(point.X) / 1e3, point.Y, 1e-12));
        Assert.Contains("Dotted: beyond the points.", figure.Subtitle, StringComparison.Ordinal);
        Assert.Equal(
            figure.Panels[0].Model.Axes.Select(axis => (axis.Minimum, axis.Maximum)),
            figure.Panels[1].Model.Axes.Select(axis => (axis.Minimum, axis.Maximum)));
    }

    [Fact]
    public void Damper_path_of_a_long_run_is_drawn_over_its_start_and_says_so()
    {
        // 25 001 samples; the first 20 000 are drawn. The axes still reach as far as all of them.
        var result = ShortScenario.Pair().With("manoeuvre.duration_s", 2.5).With("output.rate_Hz", 10_000).Record();
        var figure = DamperCurvesFigure.Build(result);
        Assert.Contains("Pale: what the dampers of each layout went through over the first 2 s,", figure.Subtitle, StringComparison.Ordinal);
        Assert.Equal(20_000, figure.Panels[0].Model.Series.OfType<OxyPlot.Series.LineSeries>().Max(line => line.Points.Count));
        var velocities = figure.Panels[0].Model.Axes.Single(axis => axis.Position == OxyPlot.Axes.AxisPosition.Bottom);
        Assert.All(result.Layouts, layout => Assert.InRange(-layout.Metrics.Whole.DamperReboundVelocityPeak, velocities.Minimum, 0));
        Assert.DoesNotContain("over the first", DamperCurvesFigure.Build(ShortScenario.Pair().Record()).Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void Damping_ratios_show_the_targets_only_where_these_hold_at_the_velocity_of_the_bars()
    {
        JsonNode Targets(double velocity) => JsonNode.Parse(FormattableString.Invariant(
            $$"""{ "rollDampingRatioMinimum": 0.2, "heaveDampingRatioMinimum": 0.2, "heaveDampingRatioMaximum": 0.35, "damperVelocity_m_per_s": {{velocity}} }"""))!;
        int Lines(double velocity) => DampingRatioFigure.Build(ShortScenario.Pair().With("targets", Targets(velocity)).Run())
            .Panels[0].Model.Annotations.OfType<Bars>().Single().Limits.Count;

        Assert.Equal(3, Lines(0.13));
        Assert.Equal(0, Lines(0.26));
    }

    [Fact]
    public void Damper_velocity_ranks_the_layouts_that_can_be_built_and_says_so()
    {
        var scenario = ShortScenario.Of(("Outer", 0.8), ("Inner", 0.3), ("Not to be built", 0.95));
        scenario["layouts"]![2]!["candidate"] = false;

        Assert.StartsWith("Damper velocity is highest with “Outer” of the layouts that can be built: ", DamperVelocityFigure.Build(scenario.Record()).Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Damper_velocity_says_when_it_shows_a_part_of_a_phase()
    {
        var figure = DamperVelocityFigure.Build(ShortScenario.Pair().With("manoeuvre.duration_s", 5).Record());

        var titles = figure.Panels.Select(panel => panel.Model.Annotations.OfType<PanelTitle>().Single().Text).ToArray();
        Assert.Equal(["bump", "corner"], titles);
        Assert.EndsWith(" At most 2 s of a phase.", figure.Subtitle, StringComparison.Ordinal);
        Assert.DoesNotContain("At most", DamperVelocityFigure.Build(ShortScenario.Pair().Record()).Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void Tyre_loads_have_one_scale_and_mark_where_a_side_is_in_the_air()
    {
        var result = Scenarios["wheel lift"]().Record();

        var panels = TyreLoadFigure.Build(result).Panels;

        Assert.Equal(panels[0].Model.Axes[1].Minimum, panels[1].Model.Axes[1].Minimum);
        Assert.Equal(panels[0].Model.Axes[1].Maximum, panels[1].Model.Axes[1].Maximum);
        var marked = panels.Sum(panel => panel.Model.Annotations.OfType<OxyPlot.Annotations.RectangleAnnotation>().Count(area => area.Fill == Theme.Marked));
        Assert.Equal(result.Layouts.Sum(layout => layout.Metrics.WheelLifts.Length), marked);
    }

    [Fact]
    public void Turns_to_both_sides_are_called_so()
    {
        var figure = InputsFigure.Build(Scenarios["wheel lift"]().Record());

        Assert.Contains("turns both ways of up to 8.5 m/s²", figure.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_size_in_the_title_of_the_run_is_marked_on_the_road()
    {
        var two = ShortScenario.Pair().With("manoeuvre.road.events", JsonNode.Parse(
            """
            [
              { "start_m": 1, "side": "left", "bump": { "length_m": 2, "height_mm": 30 } },
              { "start_m": 8, "side": "right", "bump": { "length_m": 2, "height_mm": 20 } }
            ]
            """));

        var figure = InputsFigure.Build(two.Record());

        Assert.Contains("a 30 mm bump under the left wheel and a 20 mm bump under the right wheel", figure.Title, StringComparison.Ordinal);
        var picture = SvgRenderer.Render(figure, SvgText.Letters);
        Assert.Contains(">30 mm<", picture, StringComparison.Ordinal);
        Assert.Contains(">20 mm<", picture, StringComparison.Ordinal);
    }

    [Fact]
    public void Wheel_lift_is_the_title_of_the_tyre_loads() =>
        Assert.StartsWith("WHEEL LIFT, rollover risk", TyreLoadFigure.Build(Scenarios["wheel lift"]().Record()).Title, StringComparison.Ordinal);
}
