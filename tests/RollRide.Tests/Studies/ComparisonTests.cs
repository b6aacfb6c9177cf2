using System.Text.Json.Nodes;
using RollRide.Dynamics;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Tests.Studies;

public class ComparisonTests
{
    [Fact]
    public void Run_gives_a_result_a_layout_in_order_and_reports_each()
    {
        var study = ShortScenario.Pair().Read().Study;
        var progress = new Recorder();

        var result = Comparison.Run(study, progress, TestContext.Current.CancellationToken);

        Assert.Equal(["Outer", "Inner"], result.Layouts.Select(layout => layout.Name));
        Assert.Equal([1, 2], progress.Values.Order());
    }

    [Fact]
    public void Run_side_by_side_gives_what_one_layout_alone_gives()
    {
        var study = ShortScenario.Pair().Read().Study;

        var result = Comparison.Run(study, cancellation: TestContext.Current.CancellationToken);
        var alone = Comparison.RunLayout(study, study.Layouts[1], TestContext.Current.CancellationToken);

        Assert.Equal(alone.Metrics.Whole.BodyAccelerationRms, result.Layouts[1].Metrics.Whole.BodyAccelerationRms);
        Assert.Equal(alone.Metrics.RollResponse, result.Layouts[1].Metrics.RollResponse);
        Assert.Equal(alone.Statistics, result.Layouts[1].Statistics);
    }

    [Fact]
    public void Run_holds_no_history_and_gives_the_figures_that_a_recorded_run_gives()
    {
        var scenario = ShortScenario.Pair().With("manoeuvre.duration_s", 6).With("output.rate_Hz", 250)
            .With("manoeuvre.road.random", JsonNode.Parse("""{ "class": "c", "leadIn_m": 10 }"""));

        var result = scenario.Run();
        var recorded = scenario.Record();

        Assert.Equal(Text(recorded.Result), Text(result));
        Assert.All(recorded.Layouts, layout => Assert.Equal((6 * 250) + 1, layout.History.Count));

        // Not by a layout's kind, and by no member of any of them, is there a place for channels over time.
        Assert.All(result.Layouts, layout => Assert.IsType<LayoutResult>(layout));
        Assert.DoesNotContain(typeof(LayoutResult).GetProperties(), property => property.PropertyType == typeof(TimeHistory));

        static string Text(ComparisonResult result)
        {
            using var summary = new StringWriter();
            Summary.Write(summary, [new ComparisonFindings(result)], []);
            MetricsTable.Write(summary, [new ComparisonFindings(result)]);
            return summary.ToString();
        }
    }

    [Fact]
    public void Run_of_an_hour_holds_no_more_than_one_of_a_minute()
    {
        // Straight ahead on a flat road the solver takes few steps, and an hour at 2500 samples a second would be 9 million rows.
        long Allocated(double seconds)
        {
            var study = ShortScenario.Of(("Only", 0.8)).With("manoeuvre.road", null).With("manoeuvre.cornering", null)
                .With("manoeuvre.duration_s", seconds).With("output.rate_Hz", 2500).Read().Study;
            var before = GC.GetAllocatedBytesForCurrentThread();
            Assert.IsType<LayoutResult>(Comparison.RunLayout(study, study.Layouts[0], TestContext.Current.CancellationToken));
            return GC.GetAllocatedBytesForCurrentThread() - before;
        }

        Allocated(60); // what is made once only
        // One channel alone of the hour's rows would be 72 MB.
        Assert.InRange(Allocated(3600), 0, Allocated(60) + 1_000_000);
    }

    [Fact]
    public void Run_cancelled_after_the_first_layout_stops()
    {
        using var stop = new CancellationTokenSource();
        var study = ShortScenario.Of([.. Enumerable.Range(0, 20).Select(i => ($"L{i}", 0.5))]).Read().Study;
        var progress = new Recorder(_ => stop.Cancel());

        Assert.ThrowsAny<OperationCanceledException>(() => Comparison.Run(study, progress, stop.Token));
        Assert.True(progress.Values.Count < 20);
    }

    [Fact]
    public void Run_in_which_some_layouts_fail_names_these_in_order()
    {
        var cause = new InvalidOperationException("it falls over");

        var failure = new StudyException([new StudyException("A", cause), new StudyException("C", cause)]);

        Assert.Equal("Layout “A”: it falls over\nLayout “C”: it falls over", failure.Message);
        Assert.Equal("A", failure.Layout);
    }

    [Fact]
    public void Failures_of_what_is_no_layout_or_of_many_runs_are_told_as_such()
    {
        var cause = new InvalidOperationException("it falls over");
        var placement = StudyException.At("Placement", cause);
        Assert.Equal(("Placement: it falls over", null), (placement.Message, placement.Layout));

        var many = new StudyException([.. Enumerable.Range(1, 11).Select(seed => StudyException.At($"Layout “A”, seed {seed}", cause, "A"))]);
        Assert.Equal(9, many.Message.Split('\n').Length);
        Assert.EndsWith("\nLayout “A”, seed 8: it falls over\nand 3 more runs", many.Message, StringComparison.Ordinal);
        Assert.Equal("A", many.Layout);
    }

    private sealed class Recorder(Action<int>? act = null) : IProgress<int>
    {
        private readonly Lock _lock = new();

        public List<int> Values { get; } = [];

        public void Report(int value)
        {
            lock (_lock)
                Values.Add(value);
            act?.Invoke(value);
        }
    }
}
