using RollRide.DataFiles;
using RollRide.Metrics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes every metric of every layout and phase as <c>metrics.csv</c>: one row a layout and phase.</summary>
public static class MetricsTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="result">What was found.</param>
    public static void Write(TextWriter output, ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        string[] columns =
        [
            "layout", "phase", "heaveRatio", "rollRatio", "start_s", "end_s",
            .. RollMetric.All.Select(metric => metric.Key),
            .. PhaseMetric.All.Select(metric => metric.Key),
        ];
        using var table = new CsvTableWriter(output, columns);
        foreach (var layout in result.Layouts)
        {
            var fitting = layout.Car.Layout.Fitting;
            foreach (var phase in layout.Metrics.Phases.Prepend(layout.Metrics.Whole))
            {
                // The roll response belongs to the whole run: its row alone carries it.
                var hasResponse = ReferenceEquals(phase, layout.Metrics.Whole) && layout.Metrics.RollResponse is not null;
                double[] values =
                [
                    fitting.HeaveRatio, fitting.RollRatio, phase.Start, phase.End,
                    .. RollMetric.All.Select(metric => hasResponse ? metric.Shown(layout.Metrics) ?? double.NaN : double.NaN),
                    .. PhaseMetric.All.Select(metric => metric.Shown(phase) ?? double.NaN),
                ];
                table.WriteRow([layout.Name, phase.Name], values);
            }
        }
    }
}
