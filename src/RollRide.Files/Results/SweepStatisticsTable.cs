using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Results;

/// <summary>Writes <c>sweep-statistics.csv</c>: one row per layout, load state and metric.</summary>
public static class SweepStatisticsTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="analysis">What the sweep found.</param>
    public static void Write(TextWriter output, SweepAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        using var table = new CsvTableWriter(
            output, ["loadState", "layout", "metric", "unit", "count", "mean", "deviation", "minimum", "percentile5", "median", "percentile95", "maximum", "targetAtMost", "missesAtMost", "targetAtLeast", "missesAtLeast"]);
        foreach (var group in analysis.Groups)
        {
            foreach (var (metric, s, _, misses) in group.Metrics)
            {
                // Of several limits of one kind the strictest counts.
                var most = misses.Where(miss => miss.Target.IsUpper).MinBy(miss => miss.Target.Limit);
                var least = misses.Where(miss => !miss.Target.IsUpper).MaxBy(miss => miss.Target.Limit);
                table.WriteRow(
                    [group.LoadState ?? "", group.Layout, metric.Key, metric.Unit],
                    [s.Count, s.Mean, s.Deviation, s.Minimum, s.Percentile5, s.Median, s.Percentile95, s.Maximum,
                        most?.Target.Limit ?? double.NaN, most?.Share ?? double.NaN, least?.Target.Limit ?? double.NaN, least?.Share ?? double.NaN]);
            }
        }
    }
}
