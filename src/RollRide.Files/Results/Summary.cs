using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes what a comparison found as <c>summary.json</c>.</summary>
public static class Summary
{
    /// <summary>Version of what the keys of result files mean; docs/metrics.md tells what changed. Files without one are of version 1.</summary>
    public const int FormatVersion = 2;

    /// <summary>Writes the summary.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">What was found in each load state, or in the only one.</param>
    /// <param name="warnings">The warnings of the scenario.</param>
    /// <param name="decision">The decision; null where there is nothing to decide.</param>
    public static void Write(TextWriter output, IReadOnlyList<ComparisonFindings> states, IEnumerable<string> warnings, string? decision = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(states);
        var together = states[0].Study.Load is null ? null : new JsonObject { ["conclusions"] = Texts(LoadConclusions.Of(states)) };
        var summary = LoadStates.Joined(warnings, [.. states.Select(state => (state.Study, OfState(state)))], together);
        if (decision is not null)
            summary["decision"] = decision;
        WriteJson(output, summary);
    }

    /// <summary>Writes a result file: indented, one line end at its end.</summary>
    internal static void WriteJson(TextWriter output, JsonObject content) => output.Write(JsonText.Of(content));

    /// <summary>What every result file of a study begins with, so that its numbers can be traced.</summary>
    /// <param name="study">The case.</param>
    public static JsonObject Traced(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var traced = Traced(study.Provenance);
        traced["vehicle"] = study.Vehicle.Name;
        if (study.Load is { } load)
            traced["loadState"] = load.Name;
        traced["solver"] = new JsonObject
        {
            ["relativeTolerance"] = study.Solver.RelativeTolerance,
            ["absoluteTolerance"] = study.Solver.AbsoluteTolerance,
            ["maximumStep_s"] = study.Solver.MaximumStep,
        };
        traced["cautions"] = Texts(Cautions.All);
        return traced;
    }

    /// <summary>What a result file begins with that has neither vehicle nor run, such as a road's.</summary>
    /// <param name="provenance">Where the input comes from.</param>
    public static JsonObject Traced(Provenance provenance)
    {
        ArgumentNullException.ThrowIfNull(provenance);
        return new JsonObject
        {
            ["program"] = "RollRide",
            ["formatVersion"] = FormatVersion,
            ["version"] = provenance.Version,
            ["scenario"] = new JsonObject
            {
                ["name"] = provenance.Scenario,
                ["file"] = provenance.File,
                ["sha256"] = provenance.Sha256,
            },
        };
    }

    private static JsonObject OfState(ComparisonFindings state) => new()
    {
        ["conclusions"] = Texts(SeedConclusions.OfComparison(state.Result, state.Seeds)),
        ["layouts"] = new JsonArray([.. state.Result.Layouts.Select(layout => (JsonNode)OfLayout(layout, state.Study, state.Result))]),
    };

    private static JsonObject OfLayout(LayoutResult result, StudyCase study, ComparisonResult all)
    {
        var fitting = result.Car.Layout.Fitting;
        var found = new JsonObject
        {
            ["name"] = result.Name,
            ["damper"] = result.Car.Layout.DamperName,
            ["motionRatios"] = Ratios(fitting),
            ["springPreload_N"] = result.Car.SpringPreload,
            ["modeDamperVelocity_m_per_s"] = study.Analysis.ReferenceVelocity,
            ["modes"] = OfModes(result.ReferenceModes),
            ["modesByDamperVelocity"] = new JsonArray([.. result.ModesByVelocity.Select(at => (JsonNode)new JsonObject
            {
                ["damperVelocity_m_per_s"] = at.Velocity,
                ["damperCoefficient_N_s_per_m"] = at.Modes.Coefficient,
                ["modes"] = OfModes(at.Modes),
            })]),
            ["settingWindow"] = result.Window is { } verdict ? WindowSummary.OfVerdict(verdict) : null,
            ["metrics"] = OfRun(result.Metrics),
            ["phases"] = new JsonObject(result.Metrics.Phases.Select(phase =>
                KeyValuePair.Create(phase.Name, (JsonNode?)OfPhase(phase)))),
            ["ride"] = result.Ride is { } ride ? OfRide(ride) : null,
            ["solverSteps"] = new JsonObject
            {
                ["method"] = result.Statistics.Method,
                ["accepted"] = result.Statistics.AcceptedSteps,
                ["rejected"] = result.Statistics.RejectedSteps,
                ["derivativeEvaluations"] = result.Statistics.DerivativeEvaluations,
            },
            ["warnings"] = Texts(RunWarnings.Of(study, result)),
        };
        if (result.OnVehicle is { } vehicle)
            found["onVehicle"] = VehicleSummary.Of(vehicle, all.Layouts.Select(layout => layout.OnVehicle!));
        if (result.Car.Layout.Places.Count > 1)
            found["motionRatiosRight"] = Ratios(result.Car.Layout.On(Side.Right).Fitting);
        if (result.Mirrored is { } mirrored)
            found["mirrored"] = OfMirrored(mirrored, result.MirroredRide);
        if (result.Metrics.BothTurns is not null)
            found["cornerFromRest"] = OfBothTurns(result.Metrics);
        return found;
    }

    private static JsonObject Ratios(IFitting fitting) => new() { ["heave"] = fitting.HeaveRatio, ["roll"] = fitting.RollRatio };

    /// <summary>Of the mirrored manoeuvre, as seen in a mirror: left and right, and the signs of roll angles, are exchanged.</summary>
    private static JsonObject OfMirrored(RunMetrics mirrored, RideMetrics? ride)
    {
        var found = OfRun(mirrored);
        if (ride is not null)
            found["ride"] = OfRide(ride);
        found["phases"] = new JsonObject(mirrored.Phases.Select(phase => KeyValuePair.Create(phase.Name, (JsonNode?)OfPhase(phase))));
        return found;
    }

    /// <summary>The corner from rest both ways; the metrics are the worse of both, each for itself.</summary>
    private static JsonObject OfBothTurns(RunMetrics metrics)
    {
        JsonObject Of(bool mirrored) => new(RollMetric.OfCorner.Select(metric => KeyValuePair.Create(metric.Key, (JsonNode?)metric.Shown(metrics.OfTurn(mirrored)))));
        return new JsonObject
        {
            ["rollsFurther"] = metrics.RollResponse!.IsMirrored ? "mirrored" : "asWritten",
            ["asWritten"] = Of(mirrored: false),
            ["mirrored"] = Of(mirrored: true),
        };
    }

    private static JsonArray OfModes(ModeSet modes) => new([.. modes.All.Select(mode => (JsonNode)new JsonObject
    {
        ["name"] = ModeNames.Key(mode.Name),
        ["naturalFrequency_Hz"] = mode.NaturalFrequency,
        ["dampedFrequency_Hz"] = mode.DampedFrequency,
        ["dampingRatio"] = mode.DampingRatio,
        ["overdamped"] = mode.IsOverdamped,
    })]);

    private static JsonObject OfRun(RunMetrics metrics)
    {
        var values = OfPhase(metrics.Whole);
        if (metrics.Whole.DamperVelocities is { } velocities)
            values["velocityHistogram"] = OfHistogram(velocities);
        if (metrics.RollResponse is not null)
        {
            foreach (var metric in RollMetric.All.Reverse())
                values.Insert(0, metric.Key, metric.Shown(metrics));
        }

        return values;
    }

    private static JsonObject OfPhase(PhaseMetrics phase)
    {
        var values = new JsonObject { ["start_s"] = phase.Start, ["end_s"] = phase.End };
        foreach (var metric in PhaseMetric.All)
            values[metric.Key] = metric.Shown(phase);
        return values;
    }

    private static JsonObject OfRide(RideMetrics ride)
    {
        var values = new JsonObject { ["start_s"] = ride.Start, ["distance_m"] = ride.Distance };
        foreach (var metric in RideMetric.All)
            values[metric.Key] = metric.Shown(ride);
        values["velocityHistogram"] = OfHistogram(ride.DamperVelocities);
        return values;
    }

    private static JsonObject OfHistogram(VelocityHistogram histogram) => new()
    {
        ["binWidth_m_per_s"] = histogram.BinWidth,
        ["firstBinCentre_m_per_s"] = histogram.Seconds.IsEmpty ? null : histogram.Velocity(0),
        ["time_s"] = new JsonArray([.. histogram.Seconds.Select(s => JsonValue.Create(s))]),
        ["energy_J"] = new JsonArray([.. histogram.Energy.Select(e => JsonValue.Create(e))]),
    };

    internal static JsonArray Texts(IEnumerable<string> texts) => new([.. texts.Select(text => JsonValue.Create(text))]);
}
