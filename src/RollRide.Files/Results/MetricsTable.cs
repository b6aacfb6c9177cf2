using RollRide.DataFiles;
using RollRide.Metrics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes every metric of every layout and phase as <c>metrics.csv</c>: one row per layout and phase, of each load state.</summary>
public static class MetricsTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">What was found in each load state, or in the only one.</param>
    public static void Write(TextWriter output, IReadOnlyList<ComparisonFindings> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        string[] columns =
        [
            .. LoadStates.Columns(states[0].Study), "layout", "phase", "heaveRatio", "rollRatio", "start_s", "end_s",
            .. RollMetric.All.Select(metric => metric.Key),
            .. PhaseMetric.All.Select(metric => metric.Key),
        ];
        using var table = new CsvTableWriter(output, columns);
        foreach (var state in states)
        {
            foreach (var layout in state.Result.Layouts)
                WriteLayout(table, state.Study, layout);
        }
    }

    private static void WriteLayout(CsvTableWriter table, StudyCase study, LayoutResult layout)
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
            table.WriteRow([.. LoadStates.Fields(study), layout.Name, phase.Name], values);
        }
    }
}
