using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Scenarios;

[Description("What the command sweep varies. The command line can replace any of it.")]
internal sealed record SweepFile
{
    [Key("parameters", "the numbers of this file that are varied")]
    [MaxCount(1000)]
    public IReadOnlyList<SweepParameterFile> Parameters { get; init; } = [];

    [Key("loadStates", "not read any more: load states stand at the top level, under loadStates, and every variant runs in each of them")]
    [MinCount(1)]
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>>? LoadStates { get; init; }

    [Key("preload", "the springs' preload where a variant changes springs, tyres, mounts or heights: set puts the vehicle back to its design position; kept leaves the springs as they are, and the ride height changes")]
    public SweepPreload Preload { get; init; } = SweepPreload.Set;

    [Key("design", "how variants are made: every combination of levels, one parameter at a time, samples of a Latin hypercube or of a Sobol sequence, or those for Sobol's sensitivity indices")]
    public SweepDesignKind Design { get; init; } = SweepDesignKind.FullFactorial;

    [Key("samples", "number of samples of a sampled design; a sensitivity design runs (parameters + 2) times as many variants")]
    [Between(1, 100_000_000)]
    public int Samples { get; init; } = 256;

    [Key("seed", "seed of the samples: the same seed gives the same samples everywhere")]
    [Between(0, int.MaxValue)]
    public int Seed { get; init; } = 1;

    [Key("targets", "what a variant should reach; the share that misses it is given")]
    [MaxCount(1000)]
    public IReadOnlyList<SweepTargetFile> Targets { get; init; } = [];

    [Key("metrics", "columns of sweep.csv that figures and conclusions show; if left out, those with a target")]
    [MaxCount(3)]
    public IReadOnlyList<string> Metrics { get; init; } = [];
}

[Description("One number that is varied, with its levels or its distribution, in the unit of its key. A sampled design draws evenly from a list or range.")]
[ExactlyOneOf("values", "linear", "logarithmic", "normal", "uniform", "triangular")]
internal sealed record SweepParameterFile
{
    [Key("path", "path of the number, such as vehicle.springs.rate_N_per_mm, dampers.valley.forceScale or layouts[Outboard].placement.motionRatios.roll")]
    public required string Path { get; init; }

    [Key("values", "the values themselves")]
    [MinCount(1)]
    [MaxCount(100_000)]
    public IReadOnlyList<double>? Values { get; init; }

    [Key("linear", "levels in equal steps")]
    public SweepRangeFile? Linear { get; init; }

    [Key("logarithmic", "levels in equal ratios")]
    public SweepRangeFile? Logarithmic { get; init; }

    [Key("normal", "normal distribution")]
    public NormalFile? Normal { get; init; }

    [Key("uniform", "uniform distribution: every value between the two is equally likely")]
    public UniformFile? Uniform { get; init; }

    [Key("triangular", "triangular distribution")]
    public TriangularFile? Triangular { get; init; }
}

[Description("Levels from one value to another, both included.")]
internal sealed record SweepRangeFile
{
    [Key("from", "first level")]
    public required double From { get; init; }

    [Key("to", "last level, above the first")]
    public required double To { get; init; }

    [Key("count", "number of levels")]
    [Between(2, 1_000_000)]
    public required int Count { get; init; }
}

[Description("A normal distribution.")]
internal sealed record NormalFile
{
    [Key("mean", "mean")]
    public required double Mean { get; init; }

    [Key("deviation", "standard deviation; about 95 % of all parts lie within two of them around the mean")]
    [Above(0)]
    public required double Deviation { get; init; }
}

[Description("A uniform distribution.")]
internal sealed record UniformFile
{
    [Key("from", "lowest value")]
    public required double From { get; init; }

    [Key("to", "highest value, above the lowest")]
    public required double To { get; init; }
}

[Description("A triangular distribution.")]
internal sealed record TriangularFile
{
    [Key("from", "lowest value")]
    public required double From { get; init; }

    [Key("mode", "most likely value, from the lowest to the highest")]
    public required double Mode { get; init; }

    [Key("to", "highest value, above the lowest")]
    public required double To { get; init; }
}

[Description("A limit that a metric should keep.")]
[ExactlyOneOf("atMost", "atLeast")]
internal sealed record SweepTargetFile
{
    [Key("metric", "column of sweep.csv, such as rollOvershoot_percent or bump.bodyAccelerationRms_m_per_s2")]
    public required string Metric { get; init; }

    [Key("atMost", "the metric should not be above this")]
    public double? AtMost { get; init; }

    [Key("atLeast", "the metric should not be below this")]
    public double? AtLeast { get; init; }
}
