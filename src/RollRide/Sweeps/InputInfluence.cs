namespace RollRide.Sweeps;

/// <summary>How much one input drives one metric.</summary>
/// <param name="Parameter">The input.</param>
/// <param name="RankCorrelation">
/// Spearman's rank correlation: 1 where the metric always rises with the input, −1 where it always falls; NaN where the metric does
/// not change.
/// </param>
/// <param name="Points">Points of the design that the rank correlation rests on: those in which the metric is defined.</param>
/// <param name="FirstOrder">First-order Sobol index; null where the design does not give it.</param>
/// <param name="Total">Total Sobol index; null where the design does not give it.</param>
/// <param name="Samples">Samples that the indices rest on: those all of whose points have a value; null where the design has none.</param>
public sealed record InputInfluence(SweepParameter Parameter, double RankCorrelation, int Points, double? FirstOrder, double? Total, int? Samples);
