namespace RollRide.Sweeps;

/// <summary>How variants are made.</summary>
public enum SweepDesignKind
{
    /// <summary>Every combination of levels.</summary>
    FullFactorial,

    /// <summary>The scenario as it stands, then one parameter at a time.</summary>
    OneAtATime,

    /// <summary>Samples of a Latin hypercube.</summary>
    LatinHypercube,

    /// <summary>Samples of a Sobol sequence.</summary>
    Sobol,

    /// <summary>The samples from which first-order and total Sobol indices are estimated.</summary>
    Sensitivity,
}
