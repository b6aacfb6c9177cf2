using System.Collections.Immutable;
using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Numerics;

namespace RollRide.Scenarios;

[Description("The whole file. Limits of numbers are physical, or lie far beyond any road vehicle; limits of lists bound time and memory.")]
internal sealed record ScenarioFile
{
    [Key("name", "name of the scenario, shown in every result")]
    public required string Name { get; init; }

    [Key("notes", "free text: what the scenario is for and where its numbers come from")]
    public string? Notes { get; init; }

    [Key("author", "author of the scenario, shown in the report")]
    public string? Author { get; init; }

    [Key("date", "date of the study, shown in the report as it is written")]
    public string? Date { get; init; }

    [Key("vehicle", "the axle and the body it carries, without dampers")]
    public required VehicleFile Vehicle { get; init; }

    [Key("wholeVehicle", "the other axle and what joins it to this one, as one vehicle; if left out, this axle is computed alone")]
    public WholeVehicleFile? WholeVehicle { get; init; }

    [Key("loadStates", "load states by name, such as kerb, half and full: every command runs each of them; if left out, only the vehicle as written")]
    [MaxCount(100)]
    public IReadOnlyDictionary<string, LoadStateFile> LoadStates { get; init; } = ImmutableDictionary<string, LoadStateFile>.Empty;

    [Key("designLoad", "the load state at which every coordinate, clearance and height of this file holds; if left out, the body as written under vehicle.body")]
    public string? DesignLoad { get; init; }

    [Key("dampers", "the dampers by name; a layout refers to one of them")]
    [MinCount(1)]
    public required IReadOnlyDictionary<string, DamperFile> Dampers { get; init; }

    [Key("layouts", "the damper layouts to compare, in the order in which they are shown")]
    [MinCount(1)]
    [MaxCount(1000)]
    public required IReadOnlyList<LayoutFile> Layouts { get; init; }

    [Key("manoeuvre", "the test: speed, road and cornering")]
    public required ManoeuvreFile Manoeuvre { get; init; }

    [Key("packaging", "the room around a live axle's dampers, to find where they fit")]
    public PackagingFile? Packaging { get; init; }

    [Key("tuning", "what the command tune aims for")]
    public TuningFile? Tuning { get; init; }

    [Key("analysis", "settings of the linear analysis")]
    public AnalysisFile Analysis { get; init; } = new();

    [Key("targets", "the damping ratios that one damper setting should meet; needed by the command window")]
    public TargetsFile? Targets { get; init; }

    [Key("solver", "settings of the time integration")]
    public SolverFile Solver { get; init; } = new();

    [Key("output", "settings of the files written")]
    public OutputFile Output { get; init; } = new();

    [Key("sweep", "what rollride sweep varies; the other commands ignore it")]
    public SweepFile? Sweep { get; init; }
}

[Description("Settings of the natural modes. A damper curve is not a straight line, so a damping ratio belongs to a velocity amplitude at the damper.")]
internal sealed record AnalysisFile
{
    [Key("referenceDamperVelocity_m_per_s", "velocity amplitude at the damper for which the summary gives damping ratios")]
    [Between(0.001, 10)]
    public double ReferenceDamperVelocity { get; init; } = 0.13;

    [Key("damperVelocities_m_per_s", "velocity amplitudes at the damper for which damping ratios are tabulated and drawn; each once, in any order")]
    [Between(0.001, 10)]
    [MinCount(1)]
    [MaxCount(1000)]
    public IReadOnlyList<double> DamperVelocities { get; init; } = [0.05, 0.13, 0.26, 0.52];

    [Key("includeFriction", "whether the dampers' friction counts in the damping ratios; with it, small motions are overdamped")]
    public bool IncludeFriction { get; init; }
}

[Description("Settings of the time integration. The defaults suit all ordinary work.")]
internal sealed record SolverFile
{
    [Key("relativeTolerance", "error accepted in one step, relative to the state; ten times as much in the corner from rest, which is smooth")]
    [Between(1e-12, 1e-3)]
    public double RelativeTolerance { get; init; } = IntegratorOptions.DefaultRelativeTolerance;

    [Key("absoluteTolerance", "error accepted in one step where a state is near zero, in m, rad, m/s and rad/s; ten times as much in the corner from rest")]
    [Between(1e-15, 1e-4)]
    public double AbsoluteTolerance { get; init; } = IntegratorOptions.DefaultAbsoluteTolerance;

    [Key("maximumStep_ms", "longest step taken")]
    [Between(0.001, 100)]
    public double MaximumStepMs { get; init; } = 20;
}

/// <summary>Settings of the files written.</summary>
[Description("Settings of the files written.")]
public sealed record OutputFile
{
    /// <summary>Rate of the time histories.</summary>
    [Key("rate_Hz", "samples per second in the time-history files and in the curves of figures; metrics do not depend on it")]
    [Between(10, 20000)]
    public double RateHz { get; init; } = 1000;

    /// <summary>Width of a picture.</summary>
    [Key("imageWidth_px", "width of a picture")]
    [Between(640, 7680)]
    public int ImageWidthPx { get; init; } = 1600;

    /// <summary>Height of a picture.</summary>
    [Key("imageHeight_px", "height of a picture")]
    [Between(360, 4320)]
    public int ImageHeightPx { get; init; } = 900;
}
