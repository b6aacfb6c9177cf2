namespace RollRide.Numerics;

/// <summary>One integration that <see cref="LaneIntegrator{T}"/> makes in one of its lanes.</summary>
/// <param name="start">Start time, s; finite.</param>
/// <param name="end">End time, s; finite, after <paramref name="start"/>.</param>
/// <param name="breakpoints">Times of kinks or jumps of the right-hand side, s, in any order; those outside are ignored.</param>
/// <param name="options">Tolerances and limits.</param>
internal abstract class LaneRun(double start, double end, IReadOnlyList<double> breakpoints, IntegratorOptions options)
{
    /// <summary>Start time, s.</summary>
    public double Start { get; } = start;

    /// <summary>End time, s.</summary>
    public double End { get; } = end;

    /// <summary>Ends of the segments in order, the last one that of the run, s.</summary>
    public IReadOnlyList<double> SegmentEnds { get; } = Integrator.SegmentEnds(start, end, breakpoints);

    /// <summary>Tolerances and limits.</summary>
    public IntegratorOptions Options { get; } = options;

    /// <summary>Observer of every accepted step of this run; null for none.</summary>
    public virtual IStepObserver? Observer => null;

    /// <summary>Puts the run into a lane of the system.</summary>
    /// <returns>States at the start.</returns>
    public abstract double[] Load(int lane);

    /// <summary>The run has reached its end.</summary>
    /// <param name="lane">The lane it was in.</param>
    /// <param name="state">States at the end.</param>
    /// <param name="statistics">What it cost.</param>
    public abstract void Complete(int lane, ReadOnlySpan<double> state, RunStatistics statistics);

    /// <summary>The run could not be finished.</summary>
    /// <param name="lane">The lane it was in.</param>
    /// <param name="failure">Why.</param>
    public abstract void Fail(int lane, Exception failure);
}
