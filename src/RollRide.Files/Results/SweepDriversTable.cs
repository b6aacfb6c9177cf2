using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Results;

/// <summary>Writes <c>sweep-drivers.csv</c>: one row per layout, load state, metric and parameter.</summary>
public static class SweepDriversTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="analysis">What the sweep found.</param>
    public static void Write(TextWriter output, SweepAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        using var table = new CsvTableWriter(output, ["loadState", "layout", "metric", "parameter", "rankCorrelation", "points", "firstOrderIndex", "totalIndex", "samples"]);
        foreach (var group in analysis.Groups)
        {
            foreach (var finding in group.Metrics)
            {
                foreach (var influence in finding.Influences)
                {
                    table.WriteRow(
                        [group.LoadState ?? "", group.Layout, finding.Metric.Key, influence.Parameter.Name],
                        [influence.RankCorrelation, influence.Points, influence.FirstOrder ?? double.NaN, influence.Total ?? double.NaN, influence.Samples ?? double.NaN]);
                }
            }
        }
    }
}
