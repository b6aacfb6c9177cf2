using System.Text.Json;
using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Sweeps;

namespace RollRide.Results;

/// <summary>What a sweep was asked to do, as it stands beside its rows: <c>sweep-plan.json</c>.</summary>
/// <remarks>
/// Two sweeps whose records are the same text make the same rows: resuming and merging rely on it. The version alone does not tell two
/// states of the source apart; the identity of the build does, which the compiler makes from all that goes into it.
/// </remarks>
public static class SweepRecord
{
    /// <summary>The record of a share.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="share">The share.</param>
    public static string Write(SweepPlan plan, SweepShare share)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(share);
        var record = Summary.Traced(plan.Study);
        record["build"] = $"{typeof(SweepPlan).Module.ModuleVersionId} {typeof(SweepRecord).Module.ModuleVersionId}";
        record["sweep"] = new JsonObject
        {
            ["design"] = NamedContract.WrittenName(plan.Request.Design.ToString()),
            ["samples"] = plan.Design.IsSampled ? plan.Request.Samples : null,
            ["seed"] = plan.Design.IsSampled ? plan.Request.Seed : null,
            ["variants"] = plan.VariantCount,
            ["layouts"] = new JsonArray([.. plan.LayoutNames.Select(name => JsonValue.Create(name))]),
            ["parameters"] = new JsonArray([.. plan.Parameters.Select(parameter => (JsonNode)new JsonObject
            {
                ["path"] = parameter.Name,
                ["inTheScenario"] = parameter.BaseValue,
                ["values"] = parameter.Values.Words,
            })]),
            ["loadStates"] = new JsonObject(plan.LoadStates.Select(state => KeyValuePair.Create(
                state.Name, (JsonNode?)new JsonObject { ["mass_kg"] = state.BodyMass, ["cgHeight_mm"] = Unit.Millimetre.Of(state.CgHeight), ["rollInertia_kg_m2"] = state.RollInertia }))),
            ["preload"] = NamedContract.WrittenName(plan.Request.Preload.ToString()),
        };
        record["share"] = share.ToString();
        return JsonText.Of(record);
    }

    /// <summary>Why an older record is not that of a plan, in words.</summary>
    /// <param name="older">Text of the older record.</param>
    /// <param name="newer">Text of the plan's own record.</param>
    internal static string Difference(string older, string newer)
    {
        if (Parse(older) is not { } was || Parse(newer) is not { } now)
            return "its record cannot be read";
        if (was["scenario"]?["sha256"]?.ToJsonString() != now["scenario"]?["sha256"]?.ToJsonString())
            return "the scenario, or a file that it names, was changed since";
        if (was["version"]?.ToJsonString() != now["version"]?.ToJsonString())
            return "another version of RollRide made it";
        if (was["build"]?.ToJsonString() != now["build"]?.ToJsonString())
            return "another build of RollRide made it";
        return "it was another sweep: parameters, design, samples, seed, layouts, load states or preload are not the same";
    }

    private static JsonNode? Parse(string text)
    {
        try
        {
            return JsonNode.Parse(text);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
