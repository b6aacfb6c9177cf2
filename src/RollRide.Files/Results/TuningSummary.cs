using System.Text.Json.Nodes;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Studies;
using RollRide.Sweeps;

namespace RollRide.Results;

/// <summary>Writes what a tuning found as <c>tuning.json</c>.</summary>
public static class TuningSummary
{
    /// <summary>Writes the summary.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="result">What tuning found.</param>
    /// <param name="robust">How it holds over states and tolerances.</param>
    /// <param name="warnings">The warnings of the scenario; they are written where there are load states.</param>
    public static void Write(TextWriter output, TuningResult result, RobustResult robust, IEnumerable<string> warnings)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(robust);
        var together = new JsonObject
        {
            ["conclusions"] = new JsonArray([.. TuningConclusions.Of(result).Select(text => JsonValue.Create(text.Trim()))]),
            ["dampingFloors"] = new JsonObject(Enum.GetValues<ModeName>().Select(mode => KeyValuePair.Create(ModeNames.Key(mode), (JsonNode?)result.Task.Floors[mode]))),
        };
        together["robustness"] = RobustSummary.Of(robust);
        JsonObject summary;
        if (result.Study.Loads.IsEmpty)
        {
            summary = Summary.Traced(result.Study);
            together["layouts"] = Layouts(layout => OfLayout(layout, layout.InLoads[0], result));
            LoadStates.Move(together, summary);
        }
        else
        {
            together["worstOverLoadStates"] = Layouts(OfWorst);
            summary = LoadStates.Joined(
                warnings,
                [.. result.Study.InEachLoad.Select((study, k) => (study, new JsonObject { ["layouts"] = Layouts(layout => OfLayout(layout, layout.InLoads[k], result)) }))],
                together);
        }

        output.Write(JsonText.Of(summary));

        JsonArray Layouts(Func<LayoutTuning, JsonObject> of) => new([.. result.Layouts.Select(layout => (JsonNode)of(layout))]);
    }

    /// <summary>What one layout comes to over all load states: each target and objective in its worst one.</summary>
    private static JsonObject OfWorst(LayoutTuning layout)
    {
        var json = new JsonObject
        {
            ["name"] = layout.Name,
            ["heave"] = OfTarget(layout.Tuned.Heave),
            ["roll"] = OfTarget(layout.Tuned.Roll),
        };
        AddShared(json, layout);
        return json;
    }

    private static JsonObject OfLayout(LayoutTuning layout, TuningInLoad state, TuningResult result)
    {
        var json = new JsonObject
        {
            ["name"] = layout.Name,
            ["heave"] = OfTarget(state.Heave),
            ["roll"] = OfTarget(state.Roll),
            ["reboundToCompression"] = layout.Tuned.ReboundToCompression,
            ["compression"] = OfValve(layout.Tuned.Valving.Compression),
            ["rebound"] = OfValve(layout.Tuned.Valving.Rebound),
            ["before"] = OfRun(state.Before, result),
            ["after"] = OfRun(state.After, result),
        };
        if (state.Load is null)
            AddShared(json, layout);
        return json;
    }

    /// <summary>Adds what was found for all load states at once.</summary>
    private static void AddShared(JsonObject json, LayoutTuning layout)
    {
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
            var tradeOff = new JsonObject
            {
                ["points"] = front.Points.Length,
                ["compromiseWeightedAcceleration_m_per_s2"] = front.Compromise.WeightedAcceleration,
                ["compromiseOvershoot_percent"] = 100 * front.Compromise.Overshoot,
                ["simulations"] = front.Simulations,
                ["failures"] = front.Failures,
                ["compromiseVerification"] = front.CompromiseVerification,
                ["compromiseHeave"] = OfTarget(front.CompromiseHeave),
                ["compromiseRoll"] = OfTarget(front.CompromiseRoll),
                ["compromiseCompression"] = OfValve(front.Compromise.Valving.Compression),
                ["compromiseRebound"] = OfValve(front.Compromise.Valving.Rebound),
            };
            if (front.Compromise is { RideLoad: { } ride, RollLoad: { } roll })
            {
                tradeOff["compromiseRideLoadState"] = ride;
                tradeOff["compromiseOvershootLoadState"] = roll;
            }

            json["tradeOff"] = tradeOff;
        }

        if (layout.NoFront is { } missed)
            json["noTradeOff"] = TuningConclusions.WhyNoFront(missed);
    }

    private static JsonObject OfTarget(TargetOutcome outcome)
    {
        var json = new JsonObject
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
        if (outcome.Load is { } load)
            json["loadState"] = load;
        return json;
    }

    internal static JsonObject OfValve(ValveCharacteristic valve) => new()
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
