using System.Collections.Immutable;
using RollRide.DataFiles;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Studies;
using RollRide.Sweeps;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>A scenario some of whose numbers are varied: each variant is read anew by the scenario's own reader, with its checks.</summary>
/// <param name="template">The scenario.</param>
/// <param name="parameters">The numbers that are varied.</param>
/// <param name="keepsPreload">Whether springs and tyres stay as they are in the scenario as it stands, so that a variant stands where they put it; otherwise each is set to its design position anew.</param>
internal sealed class SweptScenario(ScenarioTemplate template, ImmutableArray<SweepParameter> parameters, bool keepsPreload)
{
    /// <summary>The case of a variant, or why its numbers are refused.</summary>
    /// <param name="values">The parameters' values, in their order.</param>
    /// <param name="load">The load state it stands in; null where none is named.</param>
    public SweptCase CaseOf(IReadOnlyList<double> values, LoadState? load)
    {
        try
        {
            var scenario = At(values, load);
            return SweptCase.Of(scenario.Study, run =>
                scenario.Warnings.Length
                + (run.Loaded is { } loaded ? RestWarnings.Of(loaded).Length : 0)
                + RunWarnings.Of(run.Car, scenario.Study.Manoeuvre, run.Metrics).Length);
        }
        catch (DataFileException e)
        {
            // Without its folder, so that the rows do not depend on where the scenario lies.
            return SweptCase.Refused(string.Join("; ", e.Faults.Select(fault => fault with { File = Path.GetFileName(fault.File) })));
        }
    }

    /// <summary>The scenario of a variant, standing in its load state.</summary>
    /// <remarks>
    /// What the body weighs and how the gas presses moves the vehicle from the position that the others set: springs stay set for the scenario's own
    /// masses and gas. Everything else makes another vehicle, set to its design position anew unless the preload is kept.
    /// </remarks>
    /// <exception cref="DataFileException">Its numbers are outside their limits or make no sense together.</exception>
    private Scenario At(IReadOnlyList<double> values, LoadState? load)
    {
        var numbers = parameters.Zip(values, (parameter, value) => KeyValuePair.Create(parameter.Path, value)).ToArray();
        var loadsVary = Array.Exists(numbers, number => IsOfLoad(number.Key));
        KeyValuePair<string, double>[] others = [.. numbers.Where(number => !IsOfLoad(number.Key))];
        var design = keepsPreload ? template.LoadedWith(others) : template.With(others);
        var loaded = loadsVary ? template.LoadedWith(numbers) : design;
        if (!loadsVary && !keepsPreload && load is null)
            return design;
        var body = loaded.Study.Vehicle.Body;
        var study = design.Study with
        {
            Layouts = [.. design.Study.Layouts.Zip(loaded.Study.Layouts, Filled)],
            Load = load is null
                ? new LoadState { Name = "as varied", BodyMass = body.Mass, CgHeight = body.CgHeight, RollInertia = body.RollInertia }
                : loaded.Study.Loads.First(known => known.Name == load.Name),
            Settings = keepsPreload || loadsVary ? SettingsOf(design.Study) : design.Study.Settings,
        };
        return design with { Study = study, Warnings = loaded.Warnings };

        static DamperLayout Filled(DamperLayout place, DamperLayout filled) => place with
        {
            Damper = filled.Damper,
            RightSide = place.RightSide is { } right ? right with { Damper = filled.On(Mounting.Side.Right).Damper } : null,
        };
    }

    /// <summary>What springs and tyres of each layout are set to at the design position.</summary>
    private ImmutableDictionary<string, DesignSetting> SettingsOf(StudyCase design)
    {
        var asItStands = template.Scenario.Study;
        return design.Layouts.Zip(asItStands.Layouts).ToImmutableDictionary(
            pair => pair.First.Name,
            pair => keepsPreload
                ? DesignSetting.Of(new AssembledHalfCar(asItStands.Vehicle, pair.Second)).With(asItStands.Vehicle, design.Vehicle)
                : DesignSetting.Of(new AssembledHalfCar(design.Vehicle, pair.First)));
    }

    /// <summary>Whether a number moves the vehicle from its position instead of making another vehicle.</summary>
    private static bool IsOfLoad(string path) =>
        path.StartsWith("vehicle.body.", StringComparison.Ordinal)
        || path.StartsWith("loadStates", StringComparison.Ordinal)
        || (path.StartsWith("dampers", StringComparison.Ordinal) && path.EndsWith(".gasForce_N", StringComparison.Ordinal));
}
