using System.Text.Json.Nodes;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Scenarios;

/// <summary>Writes what a dynamometer's record was reduced to, with an entry that a scenario takes under <c>dampers</c>.</summary>
public static class ReducedDamper
{
    // A tenth of a newton: finer than any load cell.
    private const int Decimals = 1;

    /// <summary>Writes the summary.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="reduction">The reduced record.</param>
    /// <param name="fit">The valving fitted to it.</param>
    /// <param name="sources">Names of the files that it comes from, at least one; the first names the damper.</param>
    /// <param name="curveFile">Name of the CSV file with the curve, beside this one.</param>
    /// <remarks>
    /// What the data do not tell is null, and left out of the entry, where it then counts as 0: it is still in the curve. So is a force at rest
    /// below 0, which is a load cell off its zero.
    /// </remarks>
    public static void Write(TextWriter output, DynoReduction reduction, ValvingFit fit, IReadOnlyList<string> sources, string curveFile)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(reduction);
        ArgumentNullException.ThrowIfNull(fit);
        ArgumentNullException.ThrowIfNull(sources);
        var entry = new JsonObject { ["dyno"] = curveFile };
        if (Rounded(reduction.Friction) is > 0 and var friction)
            entry["friction_N"] = friction;
        if (Rounded(reduction.GasForce) is > 0 and var gas)
            entry["gasForce_N"] = gas;
        var json = new JsonObject
        {
            ["sources"] = new JsonArray([.. sources.Select(source => JsonValue.Create(source))]),
            ["version"] = Provenance.ProgramVersion,
            ["friction_N"] = Rounded(reduction.Friction),
            ["gasForceAtMidStroke_N"] = Rounded(reduction.GasForce),
            ["gasRate_N_per_mm"] = reduction.GasRate is { } rate ? Math.Round(Unit.NewtonPerMillimetre.Of(rate), 3) : null,
            ["warnings"] = new JsonArray([.. reduction.Warnings.Select(warning => JsonValue.Create(warning))]),
            ["conclusions"] = new JsonArray([.. DamperConclusions.Of(reduction, fit).Select(text => JsonValue.Create(text))]),
            ["dampers"] = new JsonObject { [Path.GetFileNameWithoutExtension(sources[0])] = entry },
        };
        output.Write(JsonText.Of(json));
    }

    private static double? Rounded(double? force) => force is { } value ? Math.Round(value, Decimals) : null;
}
