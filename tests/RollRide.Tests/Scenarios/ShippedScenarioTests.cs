using RollRide.Findings;
using RollRide.Modes;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Tests.Scenarios;

/// <summary>The scenarios that come with the program: read without a warning, run, and describe plausible vehicles.</summary>
public class ShippedScenarioTests
{
    public static TheoryData<string> Scenarios => [.. Shipped.Scenarios];

    [Fact]
    public void All_that_the_documentation_names_are_there() =>
        Assert.Superset(
            new HashSet<string> { "bump-then-corner.json", "independent-front.json", "dual-tyre.json", "smooth-motorway.json", "broken-country-road.json", "washboard.json", "railway-crossing.json" },
            Shipped.Scenarios.ToHashSet());

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void Scenario_reads_without_a_warning_and_runs_like_a_road_vehicle(string name)
    {
        var scenario = ScenarioReader.Read(Shipped.Scenario(name));
        Assert.Empty(scenario.Warnings);
        var results = Comparison.Run(scenario.Study, cancellation: TestContext.Current.CancellationToken).Layouts;
        Assert.Equal(scenario.Study.Layouts.Length, results.Length);
        foreach (var result in results)
        {
            // Plausible vehicles; common practice, no source.
            Assert.InRange(result.ReferenceModes[ModeName.Heave].NaturalFrequency, 1.0, 2.0);
            Assert.InRange(result.ReferenceModes[ModeName.Heave].DampingRatio, 0.15, 0.35);
            Assert.InRange(result.ReferenceModes[ModeName.Hop].NaturalFrequency, 8, 15);
            if (result.Metrics.RollResponse is { } response)
                Assert.InRange(response.Gradient!.Value * 180 / Math.PI * RollRide.Vehicle.HalfCar.StandardGravity, 3, 8);
            Assert.Equal(0, result.Metrics.Whole.LiftOffTime);

            // The curves cover what the dampers do, and the dampers fit.
            Assert.DoesNotContain(RunWarnings.Of(scenario.Study, result), warning => warning.Contains("damper", StringComparison.OrdinalIgnoreCase));
        }
    }

    [Fact]
    public void Bump_then_corner_has_the_roll_ratios_of_its_story()
    {
        // Upright at 639 mm of a half-track of 830 mm; inboard about half, at the middle about nothing.
        var layouts = ScenarioReader.Read(Shipped.Scenario("bump-then-corner.json")).Study.Layouts;
        Assert.Equal(639 / 830.0, layouts[0].Fitting.RollRatio, 1e-12);
        Assert.InRange(layouts[1].Fitting.RollRatio, 0.48, 0.56);
        Assert.InRange(layouts[2].Fitting.RollRatio, 0, 0.1);
        Assert.All(layouts, layout => Assert.InRange(layout.Fitting.HeaveRatio, 0.98, 1));
    }

    [Fact]
    public void Independent_front_has_a_damper_at_0_56_of_the_wheel()
    {
        var fitting = ScenarioReader.Read(Shipped.Scenario("independent-front.json")).Study.Layouts[0].Fitting;
        Assert.InRange(fitting.HeaveRatio, 0.55, 0.57);
        Assert.Equal(fitting.HeaveRatio, fitting.RollRatio);
    }

    [Fact]
    public void Dual_tyre_comes_near_wheel_lift()
    {
        // Inboard a single tyre of the pair lifts, at the rail none does, and no side in either: what the story says.
        var study = ScenarioReader.Read(Shipped.Scenario("dual-tyre.json")).Study;
        double LongestLift(int layout) => Comparison.RunLayout(study, study.Layouts[layout], TestContext.Current.CancellationToken)
            .Metrics.Whole.TyreLiftOffTimes.Max();
        Assert.Equal(0, LongestLift(0));
        Assert.InRange(LongestLift(1), 0.05, 0.5);

        // Figure and conclusions say so.
        var recorded = Comparison.Record(study, cancellation: TestContext.Current.CancellationToken);
        var inboard = study.Layouts[1].Name;
        Assert.StartsWith("No side lifts, but one tyre of a pair is in the air", RollRide.Plots.Figures.TyreLoadFigure.Build(recorded).Title, StringComparison.Ordinal);
        Assert.StartsWith($"One tyre of a pair is in the air with “{inboard}”", Conclusions.Of(recorded.Result)[0], StringComparison.Ordinal);
    }
}
