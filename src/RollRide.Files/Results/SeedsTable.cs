using RollRide.DataFiles;
using RollRide.Metrics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes mean and interval of every figure over the seeds as <c>seeds.csv</c>: one row per layout, phase and figure; of sides that differ the mirrored roads too, each phase with “, mirrored”.</summary>
public static class SeedsTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">What was found in each load state, or in the only one.</param>
    public static void Write(TextWriter output, IReadOnlyList<ComparisonFindings> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        using var table = new CsvTableWriter(output, [.. LoadStates.Columns(states[0].Study), "layout", "phase", "metric", "seeds", "mean", "halfWidth95"]);
        foreach (var state in states)
        {
            foreach (var layout in state.Seeds)
                WriteLayout(table, state.Study, layout);
        }
    }

    private static void WriteLayout(CsvTableWriter table, StudyCase study, SeededRuns layout)
    {
        WriteRuns(table, study, layout, "");
        if (layout.Runs[0].Mirrored is not null)
            WriteRuns(table, study, layout with { Runs = [.. layout.Runs.Select(run => run.Mirrored!)] }, ", mirrored");
    }

    private static void WriteRuns(CsvTableWriter table, StudyCase study, SeededRuns layout, string way)
    {
        void Row(string phase, string key, Func<SeededRun, double?> figure)
        {
            var interval = layout.Of(figure);
            table.WriteRow(
                [.. LoadStates.Fields(study), layout.Layout, phase + way, key],
                [layout.Runs.Length, interval?.Mean ?? double.NaN, interval?.HalfWidth ?? double.NaN]);
        }

        foreach (var metric in RideMetric.All)
            Row("ride", metric.Key, run => metric.Shown(run.Ride));
        foreach (var metric in PhaseMetric.All)
            Row("run", metric.Key, run => metric.Shown(run.Metrics.Whole));
        for (var i = 0; i < layout.Runs[0].Metrics.Phases.Length; i++)
        {
            foreach (var metric in PhaseMetric.All)
                Row(layout.Runs[0].Metrics.Phases[i].Name, metric.Key, run => metric.Shown(run.Metrics.Phases[i]));
        }
    }
}
