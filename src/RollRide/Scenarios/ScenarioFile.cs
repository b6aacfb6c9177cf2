using System.ComponentModel;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>A scenario as it stands in its file: one vehicle, its damper layouts and what it is driven through.</summary>
[Description("The whole file.")]
public sealed record ScenarioFile
{
    /// <summary>Name of the scenario.</summary>
    [Key("name", "name of the scenario, shown in every result")]
    public required string Name { get; init; }

    /// <summary>Free text.</summary>
    [Key("notes", "free text: what the scenario is for and where its numbers come from")]
    public string? Notes { get; init; }

    /// <summary>The vehicle.</summary>
    [Key("vehicle", "the axle and the body it carries, without dampers")]
    public required VehicleFile Vehicle { get; init; }

    /// <summary>The dampers by name.</summary>
    [Key("dampers", "the dampers by name; a layout refers to one of them")]
    [MinCount(1)]
    public required IReadOnlyDictionary<string, DamperFile> Dampers { get; init; }

    /// <summary>The layouts to compare.</summary>
    [Key("layouts", "the damper layouts to compare, in the order in which they are shown")]
    [MinCount(1)]
    [MaxCount(1000)]
    public required IReadOnlyList<LayoutFile> Layouts { get; init; }

    /// <summary>The manoeuvre.</summary>
    [Key("manoeuvre", "what the vehicle is driven over and through")]
    public required ManoeuvreFile Manoeuvre { get; init; }

    /// <summary>The room around the dampers.</summary>
    [Key("packaging", "the room around a live axle's dampers, to find where they fit")]
    public PackagingFile? Packaging { get; init; }

    /// <summary>What the dampers are tuned for.</summary>
    [Key("tuning", "what the command 'tune' tunes the dampers for")]
    public TuningFile? Tuning { get; init; }

    /// <summary>Settings of the linear analysis.</summary>
    [Key("analysis", "settings of the linear analysis")]
    public AnalysisFile Analysis { get; init; } = new();

    /// <summary>Damping ratios asked for.</summary>
    [Key("targets", "the damping ratios that one damper setting should meet; needed by the command window")]
    public TargetsFile? Targets { get; init; }

    /// <summary>Settings of the solver.</summary>
    [Key("solver", "settings of the time integration")]
    public SolverFile Solver { get; init; } = new();

    /// <summary>Settings of the output.</summary>
    [Key("output", "settings of the files written")]
    public OutputFile Output { get; init; } = new();

    /// <summary>What a sweep varies.</summary>
    [Key("sweep", "what rollride sweep varies; the other commands pass over it")]
    public SweepFile? Sweep { get; init; }
}

/// <summary>Settings of the linear analysis.</summary>
[Description("Settings of the natural modes. A damper curve is not a straight line, so a damping ratio belongs to a velocity amplitude at the damper.")]
public sealed record AnalysisFile
{
    /// <summary>Damper velocity of the summary's damping ratios.</summary>
    [Key("referenceDamperVelocity_m_per_s", "velocity amplitude at the damper for which the summary gives damping ratios")]
    [Between(0.001, 10)]
    public double ReferenceDamperVelocity { get; init; } = 0.13;

    /// <summary>Damper velocities of the damping ratio table.</summary>
    [Key("damperVelocities_m_per_s", "velocity amplitudes at the damper for which damping ratios are tabulated and drawn; each once, in any order")]
    [Between(0.001, 10)]
    [MinCount(1)]
    [MaxCount(1000)]
    public IReadOnlyList<double> DamperVelocities { get; init; } = [0.05, 0.13, 0.26, 0.52];

    /// <summary>Whether friction counts in the equivalent coefficient.</summary>
    [Key("includeFriction", "whether the dampers' friction counts in the damping ratios; with it, small motions are overdamped")]
    public bool IncludeFriction { get; init; }
}

/// <summary>Settings of the time integration.</summary>
[Description("Settings of the time integration. The defaults suit all ordinary work.")]
public sealed record SolverFile
{
    /// <summary>Relative tolerance.</summary>
    [Key("relativeTolerance", "error accepted in one step, relative to the state")]
    [Between(1e-12, 1e-3)]
    public double RelativeTolerance { get; init; } = 1e-6;

    /// <summary>Absolute tolerance.</summary>
    [Key("absoluteTolerance", "error accepted in one step where a state is near zero, in m, rad, m/s and rad/s")]
    [Between(1e-15, 1e-4)]
    public double AbsoluteTolerance { get; init; } = 1e-8;

    /// <summary>Longest step.</summary>
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
