using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Live.Answers;

/// <summary>The figures of a layout that the page shows: those of the commands, by the same declarations.</summary>
internal static class LayoutRows
{
    private static readonly PhaseMetric[] OfRun =
    [
        PhaseMetric.BodyAccelerationPeak, PhaseMetric.TyreLoadMinimum, PhaseMetric.LiftOffTime, PhaseMetric.SeatWeightedRms,
    ];

    /// <summary>The rows of a layout, the same for all layouts of a case.</summary>
    /// <param name="study">The case, as it stands.</param>
    /// <param name="layout">What the layout does.</param>
    public static JsonArray Of(StudyCase study, LayoutResult layout)
    {
        var modes = Enum.GetValues<ModeName>();
        IEnumerable<JsonNode?> rows =
        [
            .. LayoutMetric.Ratios(study.Layouts).Select(metric => Row(metric, layout)),
            .. modes.SelectMany(mode => new[] { Row(LayoutMetric.NaturalFrequency(mode), layout), Row(LayoutMetric.DampingRatio(mode, study.Analysis), layout) }),
            .. study.Targets is { } targets ? modes.Select(mode => AtTargets(mode, targets, layout)).OfType<JsonNode>() : [],
            .. layout.OnVehicle is null ? Array.Empty<JsonNode>() : [Row(LayoutMetric.RollDampingRatioOnVehicle, layout)],
            .. layout.Metrics.RollResponse is null ? [] : RollMetric.OfCorner.Select(metric => OfCorner(metric, study, layout.Metrics)),
            .. OverUnevenRoad(study, layout),
            .. OfRun.Select(metric => Row(metric, layout.Metrics.Whole)),
            Row(LayoutMetric.CompressionStrokeLeft, layout),
            Row(LayoutMetric.ReboundStrokeLeft, layout),
            .. layout.Ride is { } ride ? [Row(RideMetric.RideSeatTotal, ride)] : Array.Empty<JsonNode>(),
        ];
        return [.. rows];
    }

    /// <summary>As in a comparison: over each phase with a bump or a rough road. Over a whole run the figure depends on how long it goes on.</summary>
    private static IEnumerable<JsonNode> OverUnevenRoad(StudyCase study, LayoutResult layout) =>
        study.Manoeuvre.Phases.Zip(layout.Metrics.Phases).Where(phase => study.Manoeuvre.Road.IsUneven(phase.First.Start, phase.First.End)).Select(phase =>
        {
            var row = Row(PhaseMetric.BodyAccelerationRms, phase.Second);
            row["key"] = $"{phase.First.Name}.{PhaseMetric.BodyAccelerationRms.Key}";
            row["label"] = $"Phase “{phase.First.Name}”: {PhaseMetric.BodyAccelerationRms.Label}";
            return row;
        });

    private static JsonObject Row<T>(MetricDefinition<T> metric, T result) => new()
    {
        ["key"] = metric.Key,
        ["label"] = metric.Label,
        ["unit"] = metric.Unit.Symbol,
        ["value"] = metric.Shown(result) is { } value && double.IsFinite(value) ? value : null,
        ["text"] = metric.Text(result),
        ["explanation"] = metric.Description,
    };

    private static JsonObject OfCorner(RollMetric metric, StudyCase study, RunMetrics run)
    {
        var row = Row(metric, run);
        if (SettlingWords.InPlaceOf(metric, study, run) is { } text)
            row["text"] = text;
        return row;
    }

    /// <summary>The damping ratio of a mode beside what is asked of it; null where nothing is.</summary>
    private static JsonObject? AtTargets(ModeName mode, DampingTargets targets, LayoutResult layout)
    {
        DampingTarget[] asked = [.. targets.All.Where(target => DampingTargets.ModeOf(target) == mode)];
        if (asked.Length == 0 || layout.Window is not { } window)
            return null;
        var row = Row(LayoutMetric.DampingRatioAtTargets(mode, targets), layout);
        double? Limit(bool isMost) => asked.Where(target => target == DampingTarget.HeaveMaximum == isMost).Select(targets.Limit).FirstOrDefault();
        row["target"] = new JsonObject { ["atLeast"] = Limit(isMost: false), ["atMost"] = Limit(isMost: true) };
        row["isMet"] = Array.TrueForAll(asked, target => targets.Margin(target, window.Modes) >= 0);
        return row;
    }
}
