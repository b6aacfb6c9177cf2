using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Sweeps;

namespace RollRide.Results;

/// <summary>Writes what a sweep found in short as <c>sweep-summary.json</c>.</summary>
public static class SweepSummary
{
    /// <summary>Writes the summary.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="analysis">What the sweep found.</param>
    public static void Write(TextWriter output, SweepAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(analysis);
        var summary = Summary.Traced(analysis.Plan.Study);
        summary["variants"] = analysis.Plan.VariantCount;
        summary["conclusions"] = new JsonArray([.. SweepConclusions.Of(analysis).Select(text => JsonValue.Create(text))]);
        summary["groups"] = new JsonArray([.. analysis.Groups.Select(group => (JsonNode)new JsonObject
        {
            ["layout"] = group.Layout,
            ["loadState"] = group.LoadState,
            ["variants"] = group.Variants,
            ["failed"] = group.Failed,
            ["targets"] = new JsonArray([.. group.Metrics.SelectMany(finding => finding.Misses).Select(miss => (JsonNode)new JsonObject
            {
                ["metric"] = miss.Target.Metric,
                [miss.Target.IsUpper ? "atMost" : "atLeast"] = miss.Target.Limit,
                ["misses"] = miss.Misses,
                ["of"] = miss.Of,
                ["shareThatMisses"] = miss.Share,
                ["shareInterval95"] = analysis.Plan.Design.IsSampled && ShareInterval.Of(miss.Misses, miss.Of) is var interval ? new JsonArray(interval.Low, interval.High) : null,
            })]),
        })]);
        Summary.WriteJson(output, summary);
    }
}
