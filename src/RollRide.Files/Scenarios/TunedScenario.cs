using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>Writes a scenario anew with further dampers beside those it has, each in a layout of its own, so that before and after can be driven over any road.</summary>
public sealed class TunedScenario
{
    private readonly ScenarioFile _scenario;

    /// <summary>Reads what stays.</summary>
    /// <param name="path">The file of the scenario that was tuned.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The file is not a scenario any more.</exception>
    public TunedScenario(string path, CancellationToken cancellation = default) => _scenario = BoundDocument.Read<ScenarioFile>(path, cancellation).Value;

    /// <summary>The data files that the scenario names, as it names them, each once: the new one needs them beside it.</summary>
    public IReadOnlyList<string> DataFiles
    {
        get
        {
            var names = new List<string>();
            RecordJson.Of(_scenario, name =>
            {
                names.Add(name);
                return name;
            });
            return [.. names.Distinct()];
        }
    }

    /// <summary>Writes the scenario.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="dampers">What comes in addition.</param>
    /// <param name="copies">For each of <see cref="DataFiles"/> the name of its copy beside the scenario that is written.</param>
    /// <remarks>
    /// A new damper keeps friction, gas, lengths and mounts of the one that its layout has now. It is fitted on both sides, each in the state in which the layout
    /// keeps that side, where the new damper has such a state.
    /// </remarks>
    public void Write(TextWriter output, IReadOnlyList<FurtherDamper> dampers, IReadOnlyDictionary<string, string> copies)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(dampers);
        ArgumentNullException.ThrowIfNull(copies);
        var tuned = RecordJson.Of(_scenario with { Name = $"{_scenario.Name}, tuned" }, name => copies[name]);
        var (allDampers, allLayouts) = (tuned["dampers"]!.AsObject(), tuned["layouts"]!.AsArray());
        foreach (var further in dampers)
        {
            var layout = _scenario.Layouts.Single(layout => layout.Name == further.Layout);
            var fitted = layout.Left?.Damper ?? layout.Damper;
            var damper = Free($"{fitted}, {further.Note} for {layout.Name}", allDampers.ContainsKey);
            allDampers.Add(damper, RecordJson.Of(_scenario.Dampers[fitted] with
            {
                Curve = null,
                Dyno = further.CurveFile,
                ForceScale = 1,
                States = further.States.ToDictionary(state => state.Name, state => new DamperStateFile { Dyno = state.CurveFile, Temperature = state.Temperature }),
                Interpolation = Damping.CurveInterpolation.Linear,
            }));
            allLayouts.Add(RecordJson.Of(layout with
            {
                Name = Free($"{layout.Name}, {further.Note}", name => allLayouts.Any(other => (string)other!["name"]! == name)),
                Damper = damper,
                DamperState = Known(layout.DamperState),
                Left = Refitted(layout.Left),
                Right = Refitted(layout.Right),
            }));

            // One valving for both sides: a damper that one side had of its own is no longer fitted.
            LayoutSideFile? Refitted(LayoutSideFile? side) =>
                side is null || (side.Placement is null && Known(side.DamperState) is null) ? null : side with { Damper = null, DamperState = Known(side.DamperState) };

            string? Known(string? state) => further.States.Any(known => known.Name == state) ? state : null;
        }

        output.Write(JsonText.Of(tuned));
    }

    /// <summary>A name that is not taken: with a number behind it if need be.</summary>
    private static string Free(string name, Func<string, bool> isTaken)
    {
        var free = name;
        for (var n = 2; isTaken(free); n++)
            free = FormattableString.Invariant($"{name} ({n})");
        return free;
    }
}

/// <summary>A damper that comes in addition, in a layout of its own.</summary>
/// <param name="Layout">The layout whose place it takes, and whose damper it comes from.</param>
/// <param name="Note">What it is, as it stands behind the layout's name: "tuned".</param>
/// <param name="CurveFile">The CSV file of its curve, beside the scenario that is written.</param>
/// <param name="States">Its other states, each with the file of its curve and its temperature, °C, where that is known.</param>
public sealed record FurtherDamper(string Layout, string Note, string CurveFile, IReadOnlyList<(string Name, string CurveFile, double? Temperature)> States);
