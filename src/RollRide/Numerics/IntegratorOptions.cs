namespace RollRide.Numerics;

/// <summary>How accurately and with what limits to integrate. Immutable, checked when made.</summary>
public sealed record IntegratorOptions
{
    /// <summary>
    /// The tolerances unless others are given: with them roll is right to 1e-5 of its peak and body acceleration to 1e-4 on the cases of
    /// docs/performance.md, for the least steps. The absolute one governs: where the motion is fast, errors do not count for less.
    /// </summary>
    public const double DefaultRelativeTolerance = 3e-8, DefaultAbsoluteTolerance = 3e-7;

    private const double FinestRelativeTolerance = 1e-14;
    private const double CoarsestRelativeTolerance = 0.1;

    /// <summary>Admissible local error relative to the size of each state: 1e-14 to 0.1; 3e-8 unless given.</summary>
    public double RelativeTolerance
    {
        get;
        init => field = value is >= FinestRelativeTolerance and <= CoarsestRelativeTolerance
            ? value
            : throw new ArgumentOutOfRangeException(nameof(RelativeTolerance), value,
                $"{nameof(RelativeTolerance)} must lie between {FinestRelativeTolerance} and {CoarsestRelativeTolerance}.");
    } = DefaultRelativeTolerance;

    /// <summary>Admissible local error of a state near zero, in that state's own SI unit; positive; 3e-7 unless given.</summary>
    public double AbsoluteTolerance
    {
        get;
        init => field = Require.Positive(value, "that of the state", nameof(AbsoluteTolerance));
    } = DefaultAbsoluteTolerance;

    /// <summary>These with both tolerances larger.</summary>
    /// <param name="factor">How many times as large; 1 or more.</param>
    internal IntegratorOptions Loosened(double factor) => this with
    {
        RelativeTolerance = Math.Min(factor * RelativeTolerance, CoarsestRelativeTolerance),
        AbsoluteTolerance = factor * AbsoluteTolerance,
    };

    /// <summary>
    /// The longest step, s; positive, may be infinite; 0.02 s unless given. It keeps the method from striding over a short
    /// contact that no breakpoint announces.
    /// </summary>
    public double MaximumStep
    {
        get;
        init => field = double.IsPositiveInfinity(value) ? value : Require.Positive(value, "s", nameof(MaximumStep));
    } = 0.02;

    /// <summary>The first step of the run, s; positive; chosen from the equations unless given.</summary>
    public double? InitialStep
    {
        get;
        init => field = value is { } step ? Require.Positive(step, "s", nameof(InitialStep)) : null;
    }

    /// <summary>The largest number of steps tried in one run, rejected ones included; positive; 10 million unless given.</summary>
    public long MaximumSteps
    {
        get;
        init => field = value > 0
            ? value
            : throw new ArgumentOutOfRangeException(nameof(MaximumSteps), value, $"{nameof(MaximumSteps)} must be 1 or more.");
    } = 10_000_000;
}
