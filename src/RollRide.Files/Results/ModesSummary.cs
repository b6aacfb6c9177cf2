using System.Collections.Immutable;
using System.Numerics;
using System.Text.Json.Nodes;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes the linear view of a case: <c>modes.json</c>, <c>modes.csv</c> and <c>responses.csv</c>.</summary>
public static class ModesSummary
{
    private static readonly string[] Coordinates = ["bodyHeave_m", "bodyRoll_rad", "unsprungHeave_m", "unsprungRoll_rad"];

    /// <summary>Writes modes, shapes and measured decays at the reference velocity.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">The modes in each load state, or those of the vehicle as written alone.</param>
    /// <param name="warnings">The warnings of the scenario.</param>
    public static void Write(TextWriter output, IReadOnlyList<ModesResult> states, IEnumerable<string> warnings)
    {
        ArgumentNullException.ThrowIfNull(states);
        Summary.WriteJson(output, LoadStates.Joined(warnings, [.. states.Select(result => (result.Study, Found(result)))]));
    }

    /// <summary>Writes the modes over damper velocity, one row per layout, direction, velocity and mode.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">The modes in each load state, or those of the vehicle as written alone.</param>
    public static void WriteSweep(TextWriter output, IReadOnlyList<ModesResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        using var table = new CsvTableWriter(output,
        [
            .. LoadStates.Columns(states[0].Study), "layout", "direction", "mode", "damperVelocity_m_per_s", "damperCoefficient_N_s_per_m",
            "naturalFrequency_Hz", "dampedFrequency_Hz", "dampingRatio", "decayPerCycle", "overdamped",
        ]);
        foreach (var (study, layout) in states.SelectMany(result => result.Layouts.Select(layout => (result.Study, layout))))
        {
            foreach (var direction in Enum.GetValues<DampingDirection>())
            {
                foreach (var (velocity, modes) in layout.Sweep[direction])
                {
                    foreach (var mode in modes.All)
                    {
                        table.WriteRow(
                            [.. LoadStates.Fields(study), layout.Name, direction switch { DampingDirection.Both => "both", DampingDirection.Compression => "compression", _ => "rebound" }, ModeNames.Key(mode.Name)],
                            [velocity, modes.Coefficient, mode.NaturalFrequency, mode.DampedFrequency, mode.DampingRatio, mode.DecayPerCycle, mode.IsOverdamped ? 1 : 0]);
                    }
                }
            }
        }
    }

    /// <summary>Writes the frequency responses, one row per layout and frequency, each as gain and phase.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">The modes in each load state, or those of the vehicle as written alone.</param>
    public static void WriteResponses(TextWriter output, IReadOnlyList<ModesResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        string[] quantities =
        [
            "bodyHeaveOverRoadHeave", "bodyAccelerationOverRoadHeave_1_per_s2", "suspensionTravelOverRoadHeave", "tyreLoadOverRoadHeave_N_per_m",
            "bodyRollOverRoadRoll_rad_per_m", "rollAccelerationOverRoadRoll_rad_per_m_s2", "suspensionTravelOverRoadRoll", "tyreLoadOverRoadRoll_N_per_m",
            "bodyRollOverLateralAcceleration_rad_s2_per_m",
        ];
        using var table = new CsvTableWriter(output, [.. LoadStates.Columns(states[0].Study), "layout", "frequency_Hz", .. quantities.SelectMany(name => new[] { name, $"phaseOf_{name.Split('_')[0]}_deg" })]);
        foreach (var (study, layout) in states.SelectMany(result => result.Layouts.Select(layout => (result.Study, layout))))
        {
            var response = layout.Response;
            ImmutableArray<Complex>[] columns =
            [
                response.RoadHeave.Body, response.RoadHeave.BodyAcceleration, response.RoadHeave.SuspensionTravel, response.RoadHeave.TyreLoad,
                response.RoadRoll.Body, response.RoadRoll.BodyAcceleration, response.RoadRoll.SuspensionTravel, response.RoadRoll.TyreLoad,
                response.RollOverLateralAcceleration,
            ];
            for (var i = 0; i < response.Frequencies.Length; i++)
                table.WriteRow([.. LoadStates.Fields(study), layout.Name], [response.Frequencies[i], .. columns.SelectMany(column => new[] { column[i].Magnitude, Unit.Degree.Of(column[i].Phase) })]);
        }
    }

    private static JsonObject Found(ModesResult result) => new()
    {
        ["conclusions"] = Summary.Texts(ModesConclusions.Of(result)),
        ["damperVelocity_m_per_s"] = result.Study.Analysis.ReferenceVelocity,
        ["layouts"] = new JsonArray([.. result.Layouts.Select(layout => (JsonNode)OfLayout(layout, result))]),
    };

    private static JsonObject OfLayout(LayoutModes layout, ModesResult all)
    {
        var found = new JsonObject
        {
            ["name"] = layout.Name,
            ["damperCoefficient_N_s_per_m"] = layout.Reference.Coefficient,
            ["modes"] = new JsonArray([.. layout.Decays.Select(decay => (JsonNode)OfMode(layout, decay))]),
        };
        if (OfFriction(layout.Car, all.Study.Analysis.IncludeFriction) is { Count: > 0 } loops)
            found["springFriction"] = loops;
        if (layout.OnVehicle is { } vehicle)
            found["onVehicle"] = VehicleSummary.Of(vehicle, all.Layouts.Select(other => other.OnVehicle!));
        if (layout.Frames is { } frames)
            found["rollOverFrameStiffness"] = VehicleSummary.OfFrames(frames);
        return found;
    }

    /// <summary>The loops of the springs' friction on each side; empty without any.</summary>
    private static JsonArray OfFriction(AssembledHalfCar car, bool includeFriction) => new([.. SpringFrictionLoops.SidesOf(car).SelectMany(side =>
        SpringFrictionLoops.Of(car, side.Side, includeFriction).Select(loop => (JsonNode)new JsonObject
        {
            ["side"] = side.Name ?? "both",
            ["amplitude_mm"] = Unit.Millimetre.Of(loop.Amplitude),
            ["heatPerCycle_J"] = loop.Energy,
            ["addedStiffness_N_per_mm"] = Unit.NewtonPerMillimetre.Of(loop.AddedStiffness),
            ["dampingRatioByFriction"] = loop.FrictionRatio,
            ["dampingRatioByDamper"] = loop.DamperRatio,
            ["dampingRatioTogether"] = loop.Together,
        }))]);

    private static JsonObject OfMode(LayoutModes layout, FreeDecay decay)
    {
        var mode = layout.Reference[decay.Mode];
        return new JsonObject
        {
            ["name"] = ModeNames.Key(mode.Name),
            ["naturalFrequency_Hz"] = mode.NaturalFrequency,
            ["dampedFrequency_Hz"] = mode.DampedFrequency,
            ["dampingRatio"] = mode.DampingRatio,
            ["dampingRatioCompression"] = layout.ReferenceCompression[mode.Name].DampingRatio,
            ["dampingRatioRebound"] = layout.ReferenceRebound[mode.Name].DampingRatio,
            ["decayPerCycle"] = mode.DecayPerCycle,
            ["overdamped"] = mode.IsOverdamped,
            ["shape"] = new JsonObject(Coordinates.Select((name, i) => KeyValuePair.Create(name, (JsonNode?)new JsonArray(mode.Shape[i].Real, mode.Shape[i].Imaginary)))),
            ["participation"] = new JsonArray([.. mode.Participation.Select(share => JsonValue.Create(share))]),
            ["measuredDecay"] = new JsonObject
            {
                ["releaseDamperVelocity_m_per_s"] = decay.ReleaseVelocity,
                ["dampingRatioByLogDecrement"] = decay.DecrementRatio,
                ["dampingRatioByFit"] = decay.FittedRatio,
                ["naturalFrequencyByFit_Hz"] = decay.FittedFrequency,
                ["fitResidual"] = decay.FitResidual,
                ["meanDamperVelocity_m_per_s"] = decay.MeanVelocity,
                ["linearDampingRatioAtMeanVelocity"] = decay.LinearRatioAtMeanVelocity,
                ["stopOrLiftOff"] = decay.LeftLinearRange,
            },
        };
    }
}
