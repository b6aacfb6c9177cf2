namespace RollRide.Metrics;

/// <summary>Load of one side's tyres over the ride.</summary>
/// <param name="Static">Static load, N.</param>
/// <param name="DynamicLoadCoefficient">Root mean square of the load change over the static load.</param>
/// <param name="LiftShare">Share of the time without any load.</param>
/// <param name="Distribution">Share of the time at each load, N.</param>
public sealed record LoadDistribution(double Static, double DynamicLoadCoefficient, double LiftShare, Histogram Distribution)
{
    /// <summary>The load below which it falls 1 % of the time, N.</summary>
    public double ExceededMostOfTheTime => Distribution.Quantile(0.01);
}
