using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Sweeps;

/// <summary>Everything a sweep does, decided before it starts.</summary>
public sealed class SweepPlan
{
    /// <summary>The scenario that is varied.</summary>
    public required ScenarioTemplate Template { get; init; }

    /// <summary>Which values the parameters take together.</summary>
    public required SweepDesign Design { get; init; }

    /// <summary>The load states, in each of which every point of the design runs; empty for the scenario's own alone.</summary>
    public required ImmutableArray<LoadState> LoadStates { get; init; }

    /// <summary>Whether springs and tyres stay as they are in the scenario as it stands, so that a variant stands where they put it; otherwise each is set to its design position anew.</summary>
    public bool KeepsPreload => Request.Preload == SweepPreload.Kept;

    /// <summary>Places of the layouts in the scenario, in the order in which they are run.</summary>
    public required ImmutableArray<int> Layouts { get; init; }

    /// <summary>The output columns.</summary>
    public required ImmutableArray<SweepMetric> Metrics { get; init; }

    /// <summary>The targets.</summary>
    public required ImmutableArray<SweepTarget> Targets { get; init; }

    /// <summary>The metrics that figures and conclusions show, the most important first; at least one.</summary>
    public required ImmutableArray<SweepMetric> Shown { get; init; }

    /// <summary>What was asked for, as the plan's file holds it.</summary>
    public required SweepFile Request { get; init; }

    /// <summary>The parameters.</summary>
    public ImmutableArray<SweepParameter> Parameters => Design.Parameters;

    /// <summary>The number of load states; 1 where none is named.</summary>
    public int StateCount => Math.Max(1, LoadStates.Length);

    /// <summary>The number of variants.</summary>
    public long VariantCount => checked(Design.Count * StateCount);

    /// <summary>The names of the layouts, in the order in which they are run.</summary>
    public IEnumerable<string> LayoutNames => Layouts.Select(i => Template.Scenario.Study.Layouts[i].Name);

    /// <summary>The load state of a variant; null where none is named.</summary>
    /// <param name="variant">The variant, from 0: all points in the first load state come first.</param>
    public LoadState? LoadStateOf(long variant) => LoadStates.IsEmpty ? null : LoadStates[(int)(variant / Design.Count)];

    /// <summary>The values of the parameters in a variant.</summary>
    /// <param name="variant">The variant, from 0.</param>
    public double[] ValuesOf(long variant)
    {
        var values = new double[Parameters.Length];
        Design.Point(variant % Design.Count, values);
        return values;
    }

    /// <summary>The scenario of a variant, standing in its load state.</summary>
    /// <remarks>
    /// What the body weighs and how the gas presses moves the vehicle from the position that the others set: springs stay set for the scenario's own
    /// masses and gas. Everything else makes another vehicle, set to its design position anew unless <see cref="KeepsPreload"/>.
    /// </remarks>
    /// <param name="variant">The variant, from 0.</param>
    /// <exception cref="DataFiles.DataFileException">Its numbers are outside their limits or make no sense together.</exception>
    public Scenario ScenarioOf(long variant)
    {
        var numbers = Parameters.Zip(ValuesOf(variant), (parameter, value) => KeyValuePair.Create(parameter.Path, value)).ToArray();
        var loadsVary = Array.Exists(numbers, number => IsOfLoad(number.Key));
        KeyValuePair<string, double>[] others = [.. numbers.Where(number => !IsOfLoad(number.Key))];
        var design = KeepsPreload ? Template.LoadedWith(others) : Template.With(others);
        var loaded = loadsVary ? Template.LoadedWith(numbers) : design;
        if (!loadsVary && !KeepsPreload && LoadStates.IsEmpty)
            return design;
        var body = loaded.Study.Vehicle.Body;
        var study = design.Study with
        {
            Layouts = [.. design.Study.Layouts.Zip(loaded.Study.Layouts, (place, filled) => place with { Damper = filled.Damper })],
            Load = LoadStates.IsEmpty
                ? new LoadState { Name = "as varied", BodyMass = body.Mass, CgHeight = body.CgHeight, RollInertia = body.RollInertia }
                : loaded.Study.Loads.First(load => load.Name == LoadStateOf(variant)!.Name),
            Settings = KeepsPreload || loadsVary ? SettingsOf(design.Study) : design.Study.Settings,
        };
        return design with { Study = study, Warnings = loaded.Warnings };
    }

    /// <summary>What springs and tyres of each layout are set to at the design position.</summary>
    private ImmutableDictionary<string, DesignSetting> SettingsOf(StudyCase design)
    {
        var asItStands = Template.Scenario.Study;
        return design.Layouts.Zip(asItStands.Layouts).ToImmutableDictionary(
            pair => pair.First.Name,
            pair => KeepsPreload
                ? DesignSetting.Of(new AssembledHalfCar(asItStands.Vehicle, pair.Second)).With(asItStands.Vehicle, design.Vehicle)
                : DesignSetting.Of(new AssembledHalfCar(design.Vehicle, pair.First)));
    }

    /// <summary>Whether a number moves the vehicle from its position instead of making another vehicle.</summary>
    internal static bool IsOfLoad(string path) =>
        path.StartsWith("vehicle.body.", StringComparison.Ordinal)
        || path.StartsWith("loadStates", StringComparison.Ordinal)
        || (path.StartsWith("dampers", StringComparison.Ordinal) && path.EndsWith(".gasForce_N", StringComparison.Ordinal));
}
