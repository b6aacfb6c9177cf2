using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Studies;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Findings;

public class LoadConclusionsTests
{
    [Fact] // The same dampers and springs under more inertia: a lower damping ratio and more overshoot.
    public void Heavier_body_is_told_to_overshoot_most_with_every_layout()
    {
        var scenario = LoadedShort.Pair().With("loadStates.laden", JsonNode.Parse("""{ "mass_kg": 2400, "rollInertia_kg_m2": 900 }"""));
        var states = Comparison.RunInEachLoad(scenario.Read().Study, cancellation: TestContext.Current.CancellationToken);

        var sentences = Of(states);

        Assert.All(states[0].Layouts.Zip(states[1].Layouts), layout => Assert.True(layout.Second.Metrics.RollResponse!.Overshoot > layout.First.Metrics.RollResponse!.Overshoot));
        Assert.Contains($"Roll overshoot from rest, from load state “as built” to “laden”: {Range(0)} with “Outer”, {Range(1)} with “Inner”.", sentences);
        Assert.Contains("“Outer” has the least roll overshoot in every load state.", sentences);
        string Range(int layout) => $"{Percent(states[0].Layouts[layout])} to {Percent(states[1].Layouts[layout])} %";
        static string Percent(LayoutResult layout) => (100 * layout.Metrics.RollResponse!.Overshoot!.Value).ToString("F0", CultureInfo.InvariantCulture);
    }

    [Fact] // 270 kg change it by less than 2 %, which no test drive tells apart.
    public void Little_load_is_told_to_make_little_difference()
    {
        var sentences = Of(Comparison.RunInEachLoad(LoadedShort.Pair().Read().Study, cancellation: TestContext.Current.CancellationToken));

        Assert.Contains(sentences, sentence => sentence.StartsWith("Roll overshoot from rest is similar in all load states: ", StringComparison.Ordinal));
    }

    [Fact]
    public void One_state_says_nothing_about_several() =>
        Assert.Empty(Of(Comparison.RunInEachLoad(LoadedShort.Pair().Read().Study, cancellation: TestContext.Current.CancellationToken)[..1]));

    [Fact]
    public void Runs_in_each_load_are_those_of_each_load_by_itself()
    {
        var study = LoadedShort.Pair().Read().Study;

        var all = Comparison.RunInEachLoad(study, cancellation: TestContext.Current.CancellationToken);

        Assert.Equal(study.Loads, all.Select(state => state.Study.Load));
        foreach (var state in all)
        {
            var alone = Comparison.Run(state.Study, cancellation: TestContext.Current.CancellationToken);
            Assert.Equal(alone.Layouts.Select(layout => layout.Metrics.Whole.BodyAccelerationRms), state.Layouts.Select(layout => layout.Metrics.Whole.BodyAccelerationRms));
        }
    }

    [Fact]
    public void Figures_name_their_load_state_and_count_tyre_loads_from_its_rest()
    {
        var states = Comparison.RecordInEachLoad(LoadedShort.Pair().Read().Study, cancellation: TestContext.Current.CancellationToken);

        Assert.All(ComparisonFigures.All(states[1], PlotSize.Slide), figure => Assert.Contains("· load state laden ·", figure.Footer, StringComparison.Ordinal));
        Assert.All(ComparisonFigures.All(ShortScenario.Pair().Record(), PlotSize.Slide), figure => Assert.DoesNotContain("load state", figure.Footer, StringComparison.Ordinal));
        Assert.Equal((1200 + 160 + LoadedShort.Added) * 9.80665 / 2, states[1].Layouts[0].History[RollRide.Dynamics.Channel.TyreLoadLeft][0], 1e-6); // of 8 kN
    }

    private static IReadOnlyList<string> Of(IEnumerable<ComparisonResult> states) => LoadConclusions.Of([.. states.Select(state => new ComparisonFindings(state))]);
}
