using System.Collections.Immutable;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Sweeps;

/// <summary>One output column of a sweep.</summary>
/// <param name="Key">Its name, with the unit.</param>
/// <param name="Label">Its name in figures and conclusions.</param>
/// <param name="Unit">Its unit; empty for none.</param>
/// <param name="Decimals">Decimals shown.</param>
/// <param name="Value">Takes it from a run; null where it is not defined.</param>
public sealed record SweepMetric(string Key, string Label, string Unit, int Decimals, Func<LayoutFigures, double?> Value)
{
    /// <summary>Key of the time of wheel lift that is rollover risk, and no hop driving straight.</summary>
    public const string CornerLiftOffTime = "cornerLiftOffTime_s";

    /// <summary>
    /// All columns of a study: motion ratios, modes, roll response, the whole run, the ride on a random road, then each phase with its name before the key.
    /// </summary>
    /// <param name="study">The study.</param>
    public static ImmutableArray<SweepMetric> Of(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        return
        [
            .. RatioMetric.Of(study.Layouts).Select(metric => new SweepMetric(metric.Key, metric.Label, metric.Unit.Symbol, metric.Decimals, run => metric.Shown(run.Car.Layout))),
            .. Enum.GetValues<ModeName>().SelectMany(OfMode),
            .. RollMetric.All.Select(metric => new SweepMetric(
                metric.Key, metric.Label, metric.Unit.Symbol, metric.Decimals, run => run.Metrics.RollResponse is null ? null : metric.Shown(run.Metrics))),
            .. PhaseMetric.All.Select(metric => new SweepMetric(
                metric.Key, metric.Label, metric.Unit.Symbol, metric.Decimals, run => metric.Shown(run.Metrics.Whole))),
            new(CornerLiftOffTime, "Wheel lift while cornering", "s", 3, run => run.Metrics.CornerLiftOffTime),
            .. (Metrics.RideRecorder.MeasuredSpan(study.Manoeuvre) is null ? [] : RideMetric.All).Select(metric => new SweepMetric(
                metric.Key, metric.Label, metric.Unit.Symbol, metric.Decimals, run => run.Ride is { } ride ? metric.Shown(ride) : null)),
            .. study.Manoeuvre.Phases.SelectMany(phase => PhaseMetric.All.Select(metric => new SweepMetric(
                $"{phase.Name}.{metric.Key}",
                $"{metric.Label} ({phase.Name})",
                metric.Unit.Symbol,
                metric.Decimals,
                run => run.Metrics.Phases.FirstOrDefault(found => found.Name == phase.Name) is { } found ? metric.Shown(found) : null))),
        ];
    }

    private static IEnumerable<SweepMetric> OfMode(ModeName mode) =>
    [
        new($"{ModeNames.Key(mode)}NaturalFrequency_Hz", $"{mode}, natural frequency", "Hz", 2, run => run.ReferenceModes[mode].NaturalFrequency),
        new($"{ModeNames.Key(mode)}DampingRatio", $"{mode}, damping ratio", "", 3, run => run.ReferenceModes[mode].DampingRatio),
    ];
}
