using System.Text.Json.Nodes;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes what a tuning found as <c>tuning.json</c>.</summary>
public static class TuningSummary
{
    /// <summary>Writes the summary.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="result">What tuning found.</param>
    public static void Write(TextWriter output, TuningResult result)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(result);
        var summary = Summary.Traced(result.Study);
        summary["conclusions"] = new JsonArray([.. TuningConclusions.Of(result).Select(text => JsonValue.Create(text.Trim()))]);
        summary["dampingFloors"] = new JsonObject(Enum.GetValues<ModeName>().Select(mode => KeyValuePair.Create(ModeNames.Key(mode), (JsonNode?)result.Task.Floors[mode])));
        summary["layouts"] = new JsonArray([.. result.Layouts.Select(layout => (JsonNode)OfLayout(layout, result))]);
        output.Write(JsonText.Of(summary));
    }

    private static JsonObject OfLayout(LayoutTuning layout, TuningResult result)
    {
        var json = new JsonObject
        {
            ["name"] = layout.Name,
            ["heave"] = OfTarget(layout.Tuned.Heave),
            ["roll"] = OfTarget(layout.Tuned.Roll),
            ["reboundToCompression"] = layout.Tuned.ReboundToCompression,
            ["compression"] = OfValve(layout.Tuned.Valving.Compression),
            ["rebound"] = OfValve(layout.Tuned.Valving.Rebound),
            ["before"] = OfRun(layout.Before, result),
            ["after"] = OfRun(layout.After, result),
        };
        json["bindingLimits"] = new JsonArray([.. layout.Tuned.BindingLimits.Select(limit => (JsonNode)new JsonObject
        {
            ["limit"] = limit.Key,
            ["end"] = limit.IsHighest ? "highest" : "lowest",
            ["value"] = limit.Value,
            ["tried"] = limit.Relaxed,
            ["heaveRatio"] = limit.Heave,
            ["rollRatio"] = limit.Roll,
        })]);
        if (layout.RollFirst is { } rollFirst)
            json["rollFirst"] = new JsonObject { ["heaveRatio"] = rollFirst.Heave.Reached, ["rollRatio"] = rollFirst.Roll.Reached };
        if (layout.Front is { } front)
        {
            json["tradeOff"] = new JsonObject
            {
                ["points"] = front.Points.Length,
                ["kneeWeightedAcceleration_m_per_s2"] = front.Knee.WeightedAcceleration,
                ["kneeOvershoot_percent"] = 100 * front.Knee.Overshoot,
                ["simulations"] = front.Simulations,
                ["failures"] = front.Failures,
                ["kneeVerification"] = front.KneeVerification,
                ["kneeHeave"] = OfTarget(front.KneeHeave),
                ["kneeRoll"] = OfTarget(front.KneeRoll),
                ["kneeCompression"] = OfValve(front.Knee.Valving.Compression),
                ["kneeRebound"] = OfValve(front.Knee.Valving.Rebound),
            };
        }

        if (layout.NoFront is { } reason)
            json["noTradeOff"] = reason;
        return json;
    }

    private static JsonObject OfTarget(TargetOutcome outcome) => new()
    {
        ["ratioWanted"] = outcome.Target.Ratio,
        ["tolerance"] = outcome.Target.Tolerance,
        ["damperVelocity_m_per_s"] = outcome.Target.DamperVelocity,
        ["ratioBefore"] = outcome.Before,
        ["ratioReached"] = outcome.Reached,
        ["met"] = outcome.IsMet,
        ["coefficient_N_s_per_m"] = outcome.Coefficient,
        ["coefficientWanted_N_s_per_m"] = outcome.CoefficientWanted,
    };

    private static JsonObject OfValve(ValveCharacteristic valve) => new()
    {
        ["bleedSlope_N_s_per_m"] = valve.BleedSlope,
        ["kneeVelocity_m_per_s"] = valve.KneeVelocity,
        ["kneeForce_N"] = valve.KneeForce,
        ["highSpeedSlope_N_s_per_m"] = valve.HighSpeedSlope,
    };

    private static JsonObject OfRun(LayoutResult run, TuningResult result) => new()
    {
        ["weightedAcceleration_m_per_s2"] = result.Ride(run)?.BodyWeightedRms,
        ["overshoot_percent"] = 100 * run.Metrics.RollResponse?.Overshoot,
    };
}
