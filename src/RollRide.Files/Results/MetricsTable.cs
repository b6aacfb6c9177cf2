using System.Collections.Immutable;
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
        var ratios = RatioMetric.Of(states.SelectMany(state => state.Result.Layouts.Select(layout => layout.Car.Layout)));
        string[] columns =
        [
            .. LoadStates.Columns(states[0].Study), "layout", "phase", .. ratios.Select(metric => metric.Key), "start_s", "end_s",
            .. RollMetric.All.Select(metric => metric.Key),
            .. PhaseMetric.All.Select(metric => metric.Key),
        ];
        using var table = new CsvTableWriter(output, columns);
        foreach (var state in states)
        {
            foreach (var layout in state.Result.Layouts)
                WriteLayout(table, state.Study, layout, ratios);
        }
    }

    private static void WriteLayout(CsvTableWriter table, StudyCase study, LayoutResult layout, ImmutableArray<RatioMetric> ratios)
    {
        foreach (var phase in layout.Metrics.Phases.Prepend(layout.Metrics.Whole))
        {
            // The roll response belongs to the whole run: its row alone carries it.
            var hasResponse = ReferenceEquals(phase, layout.Metrics.Whole) && layout.Metrics.RollResponse is not null;
            double[] values =
            [
                .. ratios.Select(metric => metric.Shown(layout.Car.Layout)!.Value), phase.Start, phase.End,
                .. RollMetric.All.Select(metric => hasResponse ? metric.Shown(layout.Metrics) ?? double.NaN : double.NaN),
                .. PhaseMetric.All.Select(metric => metric.Shown(phase) ?? double.NaN),
            ];
            table.WriteRow([.. LoadStates.Fields(study), layout.Name, phase.Name], values);
        }
    }
}
