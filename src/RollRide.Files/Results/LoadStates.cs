using System.Collections.Immutable;
using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>How results name the load state that they hold in, and how those of several stand in one file. Without load states nothing is added.</summary>
public static class LoadStates
{
    /// <summary>The load state as a heading: <c>Load state kerb (1080 kg)</c>, with the mass of the body; "" without one.</summary>
    /// <param name="study">The case in its load state.</param>
    public static string Heading(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        return study.Load is { } load ? FormattableString.Invariant($"Load state {load.Name} ({load.Of(study.Vehicle.Body).Mass:0.#} kg)") : "";
    }

    /// <summary>The first columns of a table: <c>loadState</c>, or none.</summary>
    /// <param name="study">The case in any of its load states.</param>
    public static ImmutableArray<string> Columns(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        return study.Load is null ? [] : ["loadState"];
    }

    /// <summary>The fields of these columns: the name of the load state, or none.</summary>
    /// <param name="study">The case in its load state.</param>
    public static ImmutableArray<string> Fields(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        return study.Load is { } load ? [load.Name] : [];
    }

    /// <summary>File name prefix of each load state: <c>kerb-</c>, all different; "" without load states.</summary>
    /// <param name="states">The case in each of its load states.</param>
    public static ImmutableArray<string> FilePrefixes(IEnumerable<StudyCase> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        var names = new SafeFileNames();
        return [.. states.Select(study => study.Load is { } load ? $"{names.Allocate(load.Name)}-" : "")];
    }

    /// <summary>A result file: what all states share, what they say together, then what was found in each, as <c>loadStates</c>.</summary>
    /// <param name="warnings">The warnings of the scenario.</param>
    /// <param name="states">The case in each load state, at least one, with the keys and values found there. They move into the result.</param>
    /// <param name="together">What the states say together; null for nothing. It moves into the result.</param>
    /// <returns>Without load states, the keys found stand beside the shared ones.</returns>
    public static JsonObject Joined(IEnumerable<string> warnings, IReadOnlyList<(StudyCase Study, JsonObject Found)> states, JsonObject? together = null)
    {
        ArgumentNullException.ThrowIfNull(states);
        var summary = Summary.Traced(states[0].Study with { Load = null });
        summary["warnings"] = Summary.Texts(warnings);
        if (together is not null)
            Move(together, summary);
        if (states is [{ Study.Load: null } only])
        {
            Move(only.Found, summary);
            return summary;
        }

        summary["loadStates"] = new JsonArray([.. states.Select(state => (JsonNode)OfState(state.Study, state.Found))]);
        return summary;
    }

    private static JsonObject OfState(StudyCase study, JsonObject found)
    {
        var load = study.Load ?? throw new ArgumentException("A case of several stands in no load state.", nameof(study));
        var body = load.Of(study.Vehicle.Body);
        var state = new JsonObject
        {
            ["name"] = load.Name,
            ["bodyMass_kg"] = body.Mass,
            ["bodyRollInertia_kg_m2"] = body.RollInertia,
            ["rest"] = new JsonObject(study.Layouts.Select(layout => KeyValuePair.Create(layout.Name, (JsonNode?)OfRest(study.Settle(layout)!)))),
        };
        Move(found, state);
        return state;
    }

    private static JsonObject OfRest(LoadedHalfCar loaded)
    {
        var (rest, vehicle) = (loaded.Rest, loaded.Car.Vehicle);
        var found = new JsonObject
        {
            ["bodyRise_mm"] = Unit.Millimetre.Of(rest.BodyHeave),
            ["axleRise_mm"] = Unit.Millimetre.Of(rest.UnsprungHeave),
            ["suspensionTravel_mm"] = Unit.Millimetre.Of(rest.Travel),
            ["cgHeight_mm"] = Unit.Millimetre.Of(vehicle.Body.CgHeight),
            ["rollCentreHeight_mm"] = Unit.Millimetre.Of(vehicle.RollCentreHeight),
        };
        if (rest.IsAlike)
        {
            Move(OfSide(rest.Left), found);
            return found;
        }

        // Roll angles count from level, positive where the left side is higher.
        found["bodyRoll_deg"] = Unit.Degree.Of(rest.BodyRoll);
        found["axleRoll_deg"] = Unit.Degree.Of(rest.UnsprungRoll);
        foreach (var (name, side) in rest.Sides)
            found[name] = OfSide(side);
        return found;
    }

    private static JsonObject OfSide(SideAtRest side) => new()
    {
        ["springCompression_mm"] = Unit.Millimetre.Of(side.Spring.Compression),
        ["springForce_N"] = side.Spring.Force,
        ["damperCompression_mm"] = Unit.Millimetre.Of(side.Damper.Compression),
        ["damperLength_mm"] = Unit.Millimetre.Of(side.DamperLength),
        ["damperLeftToClosed_mm"] = Unit.Millimetre.Of(side.LeftToClosed),
        ["damperLeftToExtended_mm"] = Unit.Millimetre.Of(side.LeftToExtended),
        ["bumpStop"] = OfStop(side.BumpStop),
        ["reboundStop"] = OfStop(side.ReboundStop),
        ["sideTyreLoad_N"] = side.TyreLoad,
    };

    private static JsonObject? OfStop(StopAtRest? stop) => stop is null ? null : new JsonObject
    {
        ["clearance_mm"] = Unit.Millimetre.Of(stop.Clearance),
        ["compression_mm"] = Unit.Millimetre.Of(stop.Compression),
        ["force_N"] = stop.Force,
    };

    /// <summary>Moves all keys of one object to the end of another.</summary>
    internal static void Move(JsonObject from, JsonObject to)
    {
        foreach (var (key, value) in from.ToArray())
        {
            from.Remove(key);
            to[key] = value;
        }
    }
}
