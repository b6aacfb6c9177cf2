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
            solver's continuous solution, not from the samples of the time history. Where a metric is not defined, the JSON file holds
            `null` and the CSV file an empty field. This page is written from the program's own catalogue.

            Every result file names its `formatVersion`, which changes when a key changes its meaning. Files without one are of version 1. In
            version 2:

            - the roll response is that of the corner by itself, from rest on a level smooth road. In version 1 it was taken from the manoeuvre, with
              whatever motion and road the body was still on when the corner began;
            - `rollOvershootToStep_percent`, `rollAngleLargestInManoeuvre_deg` and `rollAngleLargestTime_s` are new, and of each phase
              `relativeHeaveRms_mm`, `relativeRollRms_deg`, `tyreLoadMinimumLeft_N`, `tyreLoadMinimumRight_N`, `liftOffFirstTime_s` and, of a vehicle
              with two axles, `pitchPeak_deg`, `frameTwistPeak_deg` and `otherAxleTyreLoadMinimum_N`;
            - where the scenario has load states, what was found in each stands under `loadStates`, and tables begin with the column `loadState`;
            - `decision` is new: which layout the comparison decides for, with its price; left out where there is nothing to decide.

            ## Motion ratios

            Columns of `metrics.csv` and of a sweep's table. Those of the right damper are there only where the dampers of a layout do not mirror each other.


            """);
        WriteTable(output, RatioMetric.OfEachSide);
        output.Write(
            """

            ## Roll response

            Once a run, where there is cornering: how the body answers that corner from rest on a level smooth road. Terms and time origin after
            ISO 7401. Where the sides differ, or the body leans, the corner is driven both ways, and each figure is that of the turn that is worse for it: the larger
            overshoot, the later settling; angles and the other times are of the turn in which the body rolls further. `cornerFromRest` in `summary.json` has all
            figures of both turns.


            """);
        WriteTable(output, RollMetric.All);
        output.Write(
            """

            ## Each phase and the whole run

            In `summary.json` under `metrics` for the whole run and under `phases` by the phase's name; in `metrics.csv` a row each, that
            of the whole run called `run`. Of both sides, the worse one counts unless the text says otherwise.


            """);
        WriteTable(output, PhaseMetric.All);
        output.Write(
            """

            ## The ride over a random road

            In `summary.json` under `ride`; in `seeds.csv` rows of the phase `ride`. Measured from 640 samples a second, from 3 s after the
            lead-in of the random road (a quarter of a run shorter than 12 s) to the corner, if one follows. A corner that begins before that
            leaves no ride, and a warning says so.


            """);
        WriteTable(output, RideMetric.All);
    }

    private static void WriteTable<T>(TextWriter output, IEnumerable<MetricDefinition<T>> metrics)
    {
        output.Write("| key | in tables | unit | meaning |\n|---|---|---|---|\n");
        foreach (var metric in metrics)
            output.Write($"| `{metric.Key}` | {metric.Label} | {metric.Unit.Symbol} | {metric.Description} |\n");
    }
}
