using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Scenarios;

/// <summary>A sweep as it stands in the file.</summary>
[Description("What the command sweep varies. The command line can replace any of it.")]
public sealed record SweepFile
{
    /// <summary>The parameters.</summary>
    [Key("parameters", "the numbers of this file that are varied")]
    [MaxCount(1000)]
    public IReadOnlyList<SweepParameterFile> Parameters { get; init; } = [];

    /// <summary>Where load states stood in earlier versions.</summary>
    [Key("loadStates", "not read any more: load states stand at the top level, under loadStates, and every variant runs in each of them")]
    [MinCount(1)]
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>>? LoadStates { get; init; }

    /// <summary>The springs' preload.</summary>
    [Key("preload", "what becomes of the springs' preload where a variant changes springs, tyres, mounts or heights: set sets the vehicle to its design position anew, as where it is built to it; kept leaves the springs as they are bought and set, so that the vehicle stands where they put it")]
    public SweepPreload Preload { get; init; } = SweepPreload.Set;

    /// <summary>The design.</summary>
    [Key("design", "how variants are made: every combination of levels; one parameter at a time around the scenario as it stands; samples of a Latin hypercube or of a Sobol sequence; or the samples from which Sobol's sensitivity indices are estimated")]
    public SweepDesignKind Design { get; init; } = SweepDesignKind.FullFactorial;

    /// <summary>Samples.</summary>
    [Key("samples", "number of samples of a sampled design; a sensitivity design runs (parameters + 2) times as many variants")]
    [Between(1, 100_000_000)]
    public int Samples { get; init; } = 256;

    /// <summary>Seed.</summary>
    [Key("seed", "seed of the samples: the same seed gives the same samples everywhere")]
    [Between(0, int.MaxValue)]
    public int Seed { get; init; } = 1;

    /// <summary>Targets.</summary>
    [Key("targets", "what a variant should reach; the share that misses it is told")]
    [MaxCount(1000)]
    public IReadOnlyList<SweepTargetFile> Targets { get; init; } = [];

    /// <summary>Metrics shown.</summary>
    [Key("metrics", "columns of sweep.csv that figures and conclusions show; if left out, those with a target, or else the roll overshoot and the vertical acceleration of the body")]
    [MaxCount(3)]
    public IReadOnlyList<string> Metrics { get; init; } = [];
}

/// <summary>One parameter of a sweep.</summary>
[Description("One number that is varied, with its levels or its distribution, in the unit of its key. A sampled design draws evenly from a list or range.")]
[ExactlyOneOf("values", "linear", "logarithmic", "normal", "uniform", "triangular")]
public sealed record SweepParameterFile
{
    /// <summary>Path.</summary>
    [Key("path", "path of the number, such as vehicle.springs.rate_N_per_mm, dampers.valley.forceScale or layouts[Outboard].placement.motionRatios.roll")]
    public required string Path { get; init; }

    /// <summary>A list.</summary>
    [Key("values", "the values themselves")]
    [MinCount(1)]
    [MaxCount(100_000)]
    public IReadOnlyList<double>? Values { get; init; }

    /// <summary>A linear range.</summary>
    [Key("linear", "levels in equal steps")]
    public SweepRangeFile? Linear { get; init; }

    /// <summary>A logarithmic range.</summary>
    [Key("logarithmic", "levels in equal ratios")]
    public SweepRangeFile? Logarithmic { get; init; }

    /// <summary>A normal distribution.</summary>
    [Key("normal", "normal distribution")]
    public NormalFile? Normal { get; init; }

    /// <summary>A uniform distribution.</summary>
    [Key("uniform", "uniform distribution: every value between the two is equally likely")]
    public UniformFile? Uniform { get; init; }

    /// <summary>A triangular distribution.</summary>
    [Key("triangular", "triangular distribution")]
    public TriangularFile? Triangular { get; init; }
}

/// <summary>A range of levels.</summary>
[Description("Levels from one value to another, both included.")]
public sealed record SweepRangeFile
{
    /// <summary>First level.</summary>
    [Key("from", "first level")]
    public required double From { get; init; }

    /// <summary>Last level.</summary>
    [Key("to", "last level, above the first")]
    public required double To { get; init; }

    /// <summary>Count.</summary>
    [Key("count", "number of levels")]
    [Between(2, 1_000_000)]
    public required int Count { get; init; }
}

/// <summary>A normal distribution.</summary>
[Description("A normal distribution.")]
public sealed record NormalFile
{
    /// <summary>Mean.</summary>
    [Key("mean", "mean")]
    public required double Mean { get; init; }

    /// <summary>Standard deviation.</summary>
    [Key("deviation", "standard deviation; about 95 % of all parts lie within two of them around the mean")]
    [Above(0)]
    public required double Deviation { get; init; }
}

/// <summary>A uniform distribution.</summary>
[Description("A uniform distribution.")]
public sealed record UniformFile
{
    /// <summary>Lowest value.</summary>
    [Key("from", "lowest value")]
    public required double From { get; init; }

    /// <summary>Highest value.</summary>
    [Key("to", "highest value, above the lowest")]
    public required double To { get; init; }
}

/// <summary>A triangular distribution.</summary>
[Description("A triangular distribution.")]
public sealed record TriangularFile
{
    /// <summary>Lowest value.</summary>
    [Key("from", "lowest value")]
    public required double From { get; init; }

    /// <summary>Most likely value.</summary>
    [Key("mode", "most likely value, from the lowest to the highest")]
    public required double Mode { get; init; }

    /// <summary>Highest value.</summary>
    [Key("to", "highest value, above the lowest")]
    public required double To { get; init; }
}

/// <summary>A target.</summary>
[Description("A limit that a metric should keep.")]
[ExactlyOneOf("atMost", "atLeast")]
public sealed record SweepTargetFile
{
    /// <summary>The metric.</summary>
    [Key("metric", "column of sweep.csv, such as rollOvershoot_percent or bump.bodyAccelerationRms_m_per_s2")]
    public required string Metric { get; init; }

    /// <summary>Upper limit.</summary>
    [Key("atMost", "the metric should not be above this")]
    public double? AtMost { get; init; }

    /// <summary>Lower limit.</summary>
    [Key("atLeast", "the metric should not be below this")]
    public double? AtLeast { get; init; }
}
