using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>What was found for one layout in one load state.</summary>
/// <param name="Layout">Name of the layout.</param>
/// <param name="LoadState">Name of the load state; null where none is named.</param>
/// <param name="Variants">Number of variants run.</param>
/// <param name="Failed">How many of them failed.</param>
/// <param name="Metrics">What was found for each metric of the plan, in its order.</param>
public sealed record SweepGroup(string Layout, string? LoadState, int Variants, int Failed, ImmutableArray<MetricFinding> Metrics)
{
    /// <summary>How it is named: the layout, with its load state if there are any.</summary>
    public string Name => LoadState is null ? Layout : $"{Layout}, {LoadState}";
}

/// <summary>What was found for one metric.</summary>
/// <param name="Metric">The metric.</param>
/// <param name="Statistics">How it is spread.</param>
/// <param name="Influences">What drives it, by parameter; empty where the design does not tell.</param>
/// <param name="Misses">For each target on it, the share of variants that miss it; a variant that failed misses.</param>
public sealed record MetricFinding(
    SweepMetric Metric, MetricStatistics Statistics, ImmutableArray<InputInfluence> Influences, ImmutableArray<TargetMiss> Misses);

/// <summary>How often a target is missed.</summary>
/// <param name="Target">The target.</param>
/// <param name="Misses">The number of variants that miss it.</param>
/// <param name="Of">The number of variants that count: in a sampled design the independent samples.</param>
public sealed record TargetMiss(SweepTarget Target, int Misses, int Of)
{
    /// <summary>The share of variants that miss it: of a sample, an estimate of the probability.</summary>
    public double Share => (double)Misses / Of;
}
