using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Everything a study works on: one vehicle, the layouts to choose from, and what they are driven through.</summary>
public sealed record StudyCase
{
    /// <summary>Where the case comes from.</summary>
    public required Provenance Provenance { get; init; }

    /// <summary>The vehicle without dampers.</summary>
    public required HalfCar Vehicle { get; init; }

    /// <summary>The layouts, in the order in which they are shown.</summary>
    public required ImmutableArray<DamperLayout> Layouts { get; init; }

    /// <summary>Names of all layouts of the scenario, in its order: those of <see cref="Layouts"/> unless only some were chosen.</summary>
    public ImmutableArray<string> ScenarioLayouts { get => field.IsDefault ? [.. Layouts.Select(layout => layout.Name)] : field; init; }

    /// <summary>The load states to look at, in the order in which they are shown; empty for the vehicle as written alone.</summary>
    public ImmutableArray<LoadState> Loads { get; init; } = [];

    /// <summary>The load state in which the vehicle stands; null for its design load.</summary>
    public LoadState? Load { get; init; }

    /// <summary>What springs and tyres are set to at the design position, by the name of the layout; those that are missing are set for the vehicle and the layout as they are.</summary>
    public ImmutableDictionary<string, DesignSetting> Settings { get; init; } = ImmutableDictionary<string, DesignSetting>.Empty;

    /// <summary>The manoeuvre.</summary>
    public required Manoeuvre Manoeuvre { get; init; }

    /// <summary>Settings of the integrator.</summary>
    public required IntegratorOptions Solver { get; init; }

    /// <summary>Settings of the linear analysis.</summary>
    public required AnalysisSettings Analysis { get; init; }

    /// <summary>The damping ratios asked for; null if the case asks for none.</summary>
    public DampingTargets? Targets { get; init; }

    /// <summary>The damper to place and the room around it; null where the scenario gives no packaging.</summary>
    public PlacementCase? Placement { get; init; }

    /// <summary>How the forces of the dampers made are assumed to scatter, as the tolerance that most of them keep, by the damper's name; none for dampers of which nothing is assumed.</summary>
    public ImmutableDictionary<string, ForceTolerance> AssumedTolerances { get; init; } = ImmutableDictionary<string, ForceTolerance>.Empty;

    /// <summary>The tolerance of a damper's forces: the one agreed, or else the one assumed; null where neither is stated.</summary>
    /// <param name="damper">The damper.</param>
    public ForceTolerance? ToleranceOf(Damper damper)
    {
        ArgumentNullException.ThrowIfNull(damper);
        return damper.ForceTolerance ?? AssumedTolerances.GetValueOrDefault(damper.Name);
    }

    /// <summary>Rate at which time histories are kept, Hz.</summary>
    public double HistoryRate { get; init; } = 1000;

    /// <summary>The case in each of its load states; the case itself where it has none, or stands in one already.</summary>
    public ImmutableArray<StudyCase> InEachLoad => Loads.IsEmpty || Load is not null ? [this] : [.. Loads.Select(load => this with { Load = load })];

    /// <summary>The vehicle with a layout as it stands at rest: as written, or drawn anew where a load or another setting has moved it.</summary>
    /// <param name="layout">The layout as written, of the case or not.</param>
    /// <exception cref="ArgumentException">The two do not go together; the message says why.</exception>
    /// <exception cref="NoRestPositionException">The vehicle cannot stand under the load.</exception>
    public AssembledHalfCar Assemble(DamperLayout layout) => Settle(layout)?.Car ?? new AssembledHalfCar(Vehicle, layout);

    /// <summary>Where the vehicle with a layout stands under its load; null at the design load, where it stands as written unless a spring was raised or has sagged.</summary>
    /// <param name="layout">The layout as written, of the case or not.</param>
    /// <exception cref="ArgumentException">The two do not go together; the message says why.</exception>
    /// <exception cref="NoRestPositionException">The vehicle cannot stand under the load.</exception>
    public LoadedHalfCar? Settle(DamperLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        if (Load is null && Vehicle.IsLevelAtDesign)
            return null;
        var load = Load ?? LoadState.Design;
        layout = layout.InDamperState(load.DamperState);
        return Settings.TryGetValue(layout.Name, out var setting)
            ? LoadedHalfCar.Settle(Vehicle, layout, load, setting)
            : LoadedHalfCar.Settle(Vehicle, layout, load);
    }

    /// <summary>Another vehicle with its layout, set to the same design position anew whatever <see cref="Settings"/> say of this one, as it stands under the load.</summary>
    /// <param name="written">Both at the design load.</param>
    /// <exception cref="NoRestPositionException">It cannot stand under the load.</exception>
    internal AssembledHalfCar Stand(AssembledHalfCar written) =>
        Load is null && written.Vehicle.IsLevelAtDesign ? written : LoadedHalfCar.Settle(written.Vehicle, written.Layout.InDamperState(Load?.DamperState), Load ?? LoadState.Design).Car;

    /// <summary>A layout as it stands in <see cref="Room"/>: at the height to which the load brings it, without a lean.</summary>
    /// <param name="layout">The layout as written, of the case or not.</param>
    /// <exception cref="NoRestPositionException">The vehicle cannot stand under the load.</exception>
    internal DamperLayout InRoom(DamperLayout layout) => Settle(layout)?.LevelLayout ?? layout;

    /// <summary>The room around the dampers, drawn where everything stands with a layout; null where the scenario gives none.</summary>
    /// <param name="layout">The layout as written, of the case or not.</param>
    /// <exception cref="NoRestPositionException">The vehicle cannot stand under the load.</exception>
    internal PackagingSpace? Room(DamperLayout layout) => Placement is not { Space: { } space } ? null
        : Settle(layout) is { } loaded ? RoomUnder(space, loaded)
        : space;

    /// <summary>The room around the dampers under a load, its travel that of the vehicle as every command says it.</summary>
    internal static PackagingSpace RoomUnder(PackagingSpace space, LoadedHalfCar loaded) => space.Redrawn(loaded.Change) with { Travel = loaded.Car.Vehicle.Envelope! };
}

/// <summary>Settings of the linear analysis.</summary>
/// <param name="ReferenceVelocity">Damper velocity amplitude for which a single damping ratio is given, m/s.</param>
/// <param name="Velocities">Damper velocity amplitudes of the table, m/s, ascending.</param>
/// <param name="IncludeFriction">Whether friction counts in the equivalent coefficient.</param>
public sealed record AnalysisSettings(double ReferenceVelocity, ImmutableArray<double> Velocities, bool IncludeFriction);

/// <summary>What a result was made from, so that every number can be traced.</summary>
/// <param name="Scenario">Name of the scenario.</param>
/// <param name="File">Name of the scenario file, without its folder.</param>
/// <param name="Sha256">SHA-256 over the scenario file and every file it names, in hexadecimal digits.</param>
/// <param name="Version">Version of the program.</param>
public sealed record Provenance(string Scenario, string File, string Sha256, string Version)
{
    /// <summary>Who answers for the scenario; null where it does not say.</summary>
    public string? Author { get; init; }

    /// <summary>Date of the study, as the scenario writes it; null where it does not say.</summary>
    public string? Date { get; init; }

    /// <summary>Version of this program.</summary>
    public static string ProgramVersion { get; } = typeof(Provenance).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";
}
