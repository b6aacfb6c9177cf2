using RollRide.Metrics;

namespace RollRide.Results;

/// <summary>Writes the reference of all metrics, in Markdown, from the catalogue.</summary>
public static class MetricReference
{
    /// <summary>Writes the page.</summary>
    /// <param name="output">Where it goes.</param>
    public static void Write(TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(
            """
            # Metrics

            The keys of `summary.json` and the columns of `metrics.csv`. A key ends in its unit. Peaks, extremes and times come from the
            solver's continuous solution, not from the samples of the time history. A metric that is not defined is `null` in JSON and an
            empty field in CSV. This page is generated from the program.

            ## Motion ratios

            Columns of `metrics.csv` and of a sweep's table. The right damper has its own only where the dampers of a layout do not mirror each other.


            """);
        WriteTable(output, RatioMetric.OfEachSide);
        output.Write(
            """

            ## Roll response

            Once per run with cornering: the response of the body to that corner alone, from rest on a level smooth road. Terms and time origin are those of
            ISO 7401. Where the sides differ, or the body leans, the corner is driven both ways: overshoots and settling time are those of the worse turn,
            angles and the other times those of the turn in which the body rolls further. `cornerFromRest` in `summary.json` has both turns.


            """);
        WriteTable(output, RollMetric.All);
        output.Write(
            """

            ## Each phase and the whole run

            In `summary.json` under `metrics` for the whole run and under `phases` by the phase's name; in `metrics.csv` one row each; the
            row of the whole run is named `run`. A metric that exists on both sides is given for the worse side unless its meaning says otherwise.


            """);
        WriteTable(output, PhaseMetric.All);
        output.Write(
            """

            ## The ride over a random road

            In `summary.json` under `ride`; in `seeds.csv` the rows of the phase `ride`. Sampled 640 times per second. The ride begins 3 s after the
            lead-in of the random road (in a run shorter than 12 s, a quarter of the run after it) and ends at the corner, if one follows. If the corner
            begins earlier, there is no ride to measure, and a warning says so.


            """);
        WriteTable(output, RideMetric.All);
        output.Write(
            """

            ## Versions

            Every result file names its `formatVersion`, which changes when a key changes its meaning; a file without one has version 1. In version 2:

            - the roll response is that of the corner alone. In version 1 it was taken from the manoeuvre, including the motion left from before the corner;
            - `rollOvershootToStep_percent`, `rollAngleLargestInManoeuvre_deg` and `rollAngleLargestTime_s` are new, and for each phase
              `relativeHeaveRms_mm`, `relativeRollRms_deg`, `tyreLoadMinimumLeft_N`, `tyreLoadMinimumRight_N`, `liftOffFirstTime_s` and, for a vehicle
              with two axles, `pitchPeak_deg`, `frameTwistPeak_deg` and `otherAxleTyreLoadMinimum_N`;
            - with load states, the results of each stand under `loadStates`, and tables begin with the column `loadState`;
            - `decision` is new: the layout to choose and its price; left out where there is nothing to decide.

            """);
    }

    private static void WriteTable<T>(TextWriter output, IEnumerable<MetricDefinition<T>> metrics)
    {
        output.Write("| key | in tables | unit | meaning |\n|---|---|---|---|\n");
        foreach (var metric in metrics)
            output.Write($"| `{metric.Key}` | {metric.Label} | {metric.Unit.Symbol} | {metric.Description} |\n");
    }
}
