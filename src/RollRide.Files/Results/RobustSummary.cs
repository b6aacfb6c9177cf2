using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Sweeps;

namespace RollRide.Results;

/// <summary>How valvings hold over all states and tolerances, as a part of <c>tuning.json</c>.</summary>
internal static class RobustSummary
{
    public static JsonObject Of(RobustResult result)
    {
        var json = new JsonObject();
        if (result.Task is { Plan: var plan, Goal: var goal })
        {
            json["minimise"] = goal == RobustGoal.MissShare ? "missShare" : "worstCase";
            json["samples"] = plan.Request.Samples;
            json["seed"] = plan.Request.Seed;
            json["parameters"] = new JsonArray([.. plan.Parameters.Select(parameter => (JsonNode)new JsonObject { ["path"] = parameter.Name, ["values"] = parameter.Values.Words })]);
        }

        json["layouts"] = new JsonArray([.. result.Layouts.Select(layout => (JsonNode)new JsonObject
        {
            ["name"] = layout.Name,
            ["perfectParts"] = OfValving(layout.Nominal),
            ["robust"] = OfValving(layout.Robust),
        })]);
        json["conclusions"] = Summary.Texts(RobustConclusions.Of(result).Select(text => text.Trim()));
        return json;
    }

    private static JsonObject OfValving(RobustValving valving)
    {
        var json = new JsonObject
        {
            ["compression"] = TuningSummary.OfValve(valving.Tuned.Valving.Compression),
            ["rebound"] = TuningSummary.OfValve(valving.Tuned.Valving.Rebound),
            ["forceMarginBelow_percent"] = Finite(Unit.Percent.Of(valving.Softer)),
            ["forceMarginAbove_percent"] = Finite(Unit.Percent.Of(valving.Harder)),
            ["drawingTolerance_percent"] = Unit.Percent.Of(valving.Tolerance),
            ["heave"] = OfWindow(valving.Heave),
            ["roll"] = OfWindow(valving.Roll),
        };
        if (valving.Samples > 0)
        {
            var interval = ShareInterval.Of(valving.Missing, valving.Samples);
            json["vehicles"] = valving.Samples;
            json["vehiclesMissing"] = valving.Missing;
            json["missShareLow_percent"] = Unit.Percent.Of(interval.Low);
            json["missShareHigh_percent"] = Unit.Percent.Of(interval.High);
        }

        if (valving.Ride is { } ride)
            json["weightedAcceleration_m_per_s2"] = ride;
        return json;
    }

    private static JsonObject OfWindow(TargetWindow window) => new()
    {
        ["coefficient_N_s_per_m"] = window.Coefficient,
        ["isOpen"] = window.IsOpen,
        ["lowestCoefficient_N_s_per_m"] = Finite(window.Lower.Lowest),
        ["lowestBoundBy"] = window.Lower.State,
        ["highestCoefficient_N_s_per_m"] = window.Upper.Highest,
        ["highestBoundBy"] = window.Upper.State,
        ["openingTolerance"] = window.OpeningTolerance,
    };

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
