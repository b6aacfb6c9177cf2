using RollRide.Findings;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Sweeps;
using RollRide.Tests.Sweeps;

namespace RollRide.Tests.Plots.Figures;

public class SweepFiguresTests
{
    private const string Rate = SweepTrial.Rate;
    private const string Scale = SweepTrial.Scale;

    public static TheoryData<string, string[]> Cases => new()
    {
        { $$"""{ "parameters": [ { "path": "{{Rate}}", "values": [60, 40, 50] } ] }""", ["sweep-curves.png"] },
        { $$"""{ "parameters": [ { "path": "{{Rate}}", "values": [50] } ] }""", [] },
        {
            $$"""{ "parameters": [ { "path": "{{Rate}}", "linear": { "from": 40, "to": 60, "count": 3 } }, { "path": "{{Scale}}", "logarithmic": { "from": 0.5, "to": 2, "count": 3 } } ], "metrics": ["rollOvershoot_percent"], "targets": [ { "metric": "rollOvershoot_percent", "atMost": 5 } ] }""",
            ["sweep-map-rollOvershoot-percent.png", "sweep-misses-rollOvershoot-percent-at-most.png"]
        },
        {
            $$"""{ "design": "oneAtATime", "metrics": ["rollOvershoot_percent"], "parameters": [ { "path": "{{Rate}}", "normal": { "mean": 50, "deviation": 3 } }, { "path": "{{Scale}}", "values": [0.5, 2] } ] }""",
            ["sweep-tornado-rollOvershoot-percent.png"]
        },
        // Where every variant fails there is nothing to draw but an empty map.
        { $$"""{ "parameters": [ { "path": "{{Rate}}", "values": [-1, -2] } ] }""", [] },
        {
            $$"""{ "metrics": ["rollOvershoot_percent"], "parameters": [ { "path": "{{Rate}}", "values": [-1, 40, 50] }, { "path": "{{Scale}}", "values": [1, 2] } ] }""",
            ["sweep-map-rollOvershoot-percent.png"]
        },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Each_design_has_its_figures_and_they_can_be_drawn(string sweep, string[] names)
    {
        using var trial = new SweepTrial(sweep);
        AssertDrawn(trial, names);
    }

    [Fact]
    public void Each_load_state_has_its_figures()
    {
        using var trial = new SweepTrial(
            $$"""{ "design": "latinHypercube", "samples": 6, "metrics": ["rollOvershoot_percent", "bodyAccelerationRms_m_per_s2"], "parameters": [ { "path": "{{Rate}}", "uniform": { "from": 40, "to": 60 } }, { "path": "{{Scale}}", "uniform": { "from": 0.5, "to": 2 } } ] }""",
            loadStates: """{ "kerb": { "mass_kg": 900 }, "full": { "mass_kg": 1500 } }""");
        AssertDrawn(
            trial,
            [
                "sweep-drivers-bodyAccelerationRms-m-per-s2-1-kerb.png", "sweep-drivers-bodyAccelerationRms-m-per-s2-2-full.png",
                "sweep-drivers-rollOvershoot-percent-1-kerb.png", "sweep-drivers-rollOvershoot-percent-2-full.png",
                "sweep-scatter-1-kerb.png", "sweep-scatter-2-full.png",
            ]);
    }

    private static void AssertDrawn(SweepTrial trial, string[] names)
    {
        var figures = SweepFigures.All(trial.Analyse());

        Assert.Equal(names, figures.Select(figure => figure.FileName).Order(StringComparer.Ordinal));
        Assert.All(figures, figure => Assert.NotEmpty(PngRenderer.Render(figure with { Size = new PlotSize(640, 360) })));
        Assert.All(figures, figure => Assert.True(PlotFont.Covers(figure.Title + figure.Subtitle.Replace("\n", "", StringComparison.Ordinal))));
    }

    [Fact]
    public void Curves_are_drawn_from_the_lowest_level_to_the_highest_and_the_title_tells_their_ends()
    {
        using var trial = new SweepTrial(
            $$"""{ "metrics": ["rollRatio"], "parameters": [ { "path": "layouts[Outer].placement.motionRatios.roll", "values": [0.8, 0.4, 0.6] } ] }""");
        var figure = Assert.Single(SweepFigures.All(trial.Analyse()));

        // The ratio is the parameter itself.
        Assert.StartsWith("Motion ratio, roll goes from 0.400 to 0.800 with “Outer” as ", figure.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Share_that_misses_comes_first_by_layout_and_load_with_the_limit_drawn()
    {
        using var trial = new SweepTrial(
            $$"""{ "design": "latinHypercube", "samples": 6, "metrics": ["rollOvershoot_percent"], "parameters": [ { "path": "{{Rate}}", "uniform": { "from": 40, "to": 60 } } ], "targets": [ { "metric": "rollOvershoot_percent", "atMost": 5 } ] }""",
            loadStates: """{ "kerb": { "mass_kg": 900 }, "full": { "mass_kg": 1500 } }""");
        var analysis = trial.Analyse();
        var figure = SweepFigures.All(analysis)[0];

        Assert.Equal("sweep-misses-rollOvershoot-percent-at-most.png", figure.FileName);
        var picture = SvgRenderer.Render(figure, SvgText.Letters);
        Assert.Contains(">at most 5 %<", picture, StringComparison.Ordinal);
        Assert.Contains(">kerb<", picture, StringComparison.Ordinal);
        for (var state = 0; state < 2; state++)
        {
            var missed = analysis.ValuesOf(0, state, 0).Count(value => !(value <= 5));
            Assert.Contains(FormattableString.Invariant($">{100.0 * missed / 6:F0}<"), picture, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("vehicle.springs.rate_N_per_mm", "Springs, rate", "N/mm")]
    [InlineData("dampers.valley.forceScale", "Valley, force scale", "")]
    [InlineData("layouts[Outer v1.2].placement.motionRatios.roll", "Motion ratios, roll", "")]
    [InlineData("layouts[Outer].placement.mounts.bodyEnd_mm[1]", "Mounts, body end 1", "mm")]
    [InlineData("manoeuvre.cornering.lateralAcceleration.events[0].amplitude_m_per_s2", "Events 0, amplitude", "m/s²")]
    public void Parameters_are_named_in_words(string path, string quantity, string unit)
    {
        var parameter = new SweepParameter(path, path, 1, new ListedValues([1, 2]));
        Assert.Equal((quantity, unit), new ParameterNames([parameter])[parameter]);
    }

    [Fact]
    public void Parameters_of_one_name_get_as_many_words_as_tell_them_apart()
    {
        static SweepParameter Of(string name) => new($"layouts[{name}].motionRatios.roll", "", 1, new ListedValues([1, 2]));
        SweepParameter[] two = [Of("A"), Of("B")];
        var names = new ParameterNames(two);

        Assert.Equal(["Layouts A, motion ratios, roll", "Layouts B, motion ratios, roll"], two.Select(parameter => names[parameter].Quantity));
    }

    [Fact]
    public void Scatter_names_each_row_of_metrics_in_full_even_where_the_name_is_wider_than_a_panel()
    {
        using var trial = new SweepTrial(
            $$"""{ "design": "latinHypercube", "samples": 6, "metrics": ["seatVibrationDose_m_per_s1_75", "damperCompressionVelocityPeak_m_per_s", "dynamicLoadCoefficient"], "parameters": [ { "path": "{{Rate}}", "uniform": { "from": 40, "to": 60 } }, { "path": "{{Scale}}", "uniform": { "from": 0.5, "to": 2 } } ] }""");
        var figure = SweepFigures.All(trial.Analyse()).Single(each => each.FileName == "sweep-scatter.png");
        var picture = SvgRenderer.Render(figure with { Size = new PlotSize(640, 360) }, SvgText.Letters);

        string[] rows = ["Seat, vibration dose [m/s^1.75]", "Damper velocity, compression [m/s]", "Tyre load change, RMS over static"];
        Assert.All(rows, row => Assert.Contains($">{row}<", picture, StringComparison.Ordinal));
        Assert.StartsWith("Seat, vibration dose [m/s^1.75], 90 % of the variants: ", figure.Title, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 9, 0, 10)]
    [InlineData(0.411, 0.489, 0.42, 7)]
    [InlineData(-30, 60, -30, 10)]
    public void RoundLevels_are_round_and_few(double low, double high, double first, int count)
    {
        var levels = ContourPanel.RoundLevels(low, high);
        Assert.Equal(first, levels[0], 1e-12);
        Assert.Equal(count, levels.Count);
        Assert.Empty(ContourPanel.RoundLevels(3, 3));
    }

    [Fact] // Between dampers that let the body rock and dampers that lock it lies the least shaking.
    public void Title_of_curves_does_not_hide_a_least_value_between_the_ends()
    {
        using var trial = new SweepTrial(
            $$"""{ "metrics": ["bodyAccelerationRms_m_per_s2"], "parameters": [ { "path": "{{Scale}}", "values": [0.01, 0.5, 50] } ] }""");
        var analysis = trial.Analyse();
        var values = analysis.ValuesOf(0, 0, 0).ToArray();
        Assert.True(values[1] < values[0] && values[1] < values[2]);

        Assert.Contains(" at 0.5; ", Assert.Single(SweepFigures.All(analysis)).Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Swing_turns_round_where_both_levels_lie_on_one_side_of_the_base()
    {
        using var trial = SweepTrial.Twelve();
        var parameter = trial.Plan.Parameters[0];
        Assert.True(new Swing(parameter, 108, 88, 97).TurnsRound);
        Assert.True(new Swing(parameter, 80, 88, 97).TurnsRound);
        Assert.False(new Swing(parameter, 90, 97, 88).TurnsRound);
    }
}
