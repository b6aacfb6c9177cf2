namespace RollRide.Sweeps;

/// <summary>How a sweep's variants were asked for; kept beside its rows, so that only the same sweep goes on with them.</summary>
/// <param name="Design">How variants are made.</param>
/// <param name="Samples">Number of samples; read by sampled designs only.</param>
/// <param name="Seed">Seed of the samples; read by sampled designs only.</param>
/// <param name="Preload">What becomes of the springs' preload in a variant.</param>
public sealed record SweepRequest(SweepDesignKind Design, int Samples, int Seed, SweepPreload Preload);
