using RollRide.DataFiles;
using RollRide.Metrics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes mean and interval of every figure over the seeds as <c>seeds.csv</c>: one row a layout, phase and figure.</summary>
public static class SeedsTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="layouts">The runs of each layout.</param>
    public static void Write(TextWriter output, IReadOnlyList<SeededRuns> layouts)
    {
        ArgumentNullException.ThrowIfNull(layouts);
        using var table = new CsvTableWriter(output, ["layout", "phase", "metric", "seeds", "mean", "halfWidth95"]);
        foreach (var layout in layouts)
        {
            void Row(string phase, string key, Func<SeededRun, double?> figure)
            {
                var interval = layout.Of(figure);
                table.WriteRow([layout.Layout, phase, key], [layout.Runs.Length, interval?.Mean ?? double.NaN, interval?.HalfWidth ?? double.NaN]);
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
}
