using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;

namespace RollRide.Numerics;

/// <summary>
/// Integrates a system over a time span with steps that hold a tolerance. The span is split at breakpoints: no step straddles
/// one, so the order of the method survives kinks and jumps of the inputs.
/// </summary>
public static class Integrator
{
    /// <summary>
    /// Breakpoints closer than this, relative to the largest time of the run, are one and the same instant, computed by
    /// different routes. A segment is then always much longer than the rounding of time.
    /// </summary>
    private const double RelativeGap = 1e-12;

    /// <summary>Integrates from <paramref name="start"/> to <paramref name="end"/>.</summary>
    /// <param name="system">The system; it is told every segment before it is evaluated there.</param>
    /// <param name="start">Start time, s; finite.</param>
    /// <param name="end">End time, s; finite, after <paramref name="start"/>.</param>
    /// <param name="state">The states at the start; holds those at the end on return. Undefined after an exception.</param>
    /// <param name="breakpoints">Times of kinks or jumps of the right-hand side, s, in any order; those outside are ignored.</param>
    /// <param name="options">Tolerances and limits.</param>
    /// <param name="observer">Is shown every accepted step; it does not influence the steps.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <returns>What the run cost.</returns>
    /// <exception cref="ArgumentException">A time is not finite or out of order, or the number of states does not match.</exception>
    /// <exception cref="IntegrationException">
    /// A state or derivative became non-finite, the step became too small, or too many steps were needed.
    /// </exception>
    /// <exception cref="OperationCanceledException">The run was cancelled.</exception>
    public static RunStatistics Run(
        IOdeSystem system,
        double start,
        double end,
        Span<double> state,
        IReadOnlyList<double> breakpoints,
        IntegratorOptions options,
        IStepObserver? observer = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(system);
        ArgumentNullException.ThrowIfNull(breakpoints);
        ArgumentNullException.ThrowIfNull(options);
        Require.Finite(start, "s");
        Require.Finite(end, "s");
        if (end <= start) throw new ArgumentOutOfRangeException(nameof(end), end, FormattableString.Invariant($"end must be after the start, {start:R} s."));
        if (state.Length != system.Dimension)
        {
            throw new ArgumentException($"state has {state.Length} numbers; the system has {system.Dimension} states.", nameof(state));
        }

        var run = new SingleRun(state, start, end, breakpoints, options, observer);
        var pending = (LaneRun?)run;
        new LaneIntegrator<OneLane>(new SingleSystem(system), null).Run(() => Interlocked.Exchange(ref pending, null), cancellation);
        if (run.Failure is { } failure)
            ExceptionDispatchInfo.Throw(failure);
        run.State.CopyTo(state);
        return run.Statistics!;
    }

    /// <summary>The breakpoints inside the span in order, each instant once, and the end.</summary>
    internal static List<double> SegmentEnds(double start, double end, IReadOnlyList<double> breakpoints)
    {
        double gap = RelativeGap * Math.Max(Math.Abs(start), Math.Abs(end));
        var ends = new List<double>();
        foreach (double time in Ascending.Once([.. breakpoints]))
        {
            if (double.IsNaN(time)) throw new ArgumentException("A breakpoint is not a number.", nameof(breakpoints));
            double previous = ends.Count > 0 ? ends[^1] : start;
            if (time > previous + gap && time < end - gap) ends.Add(time);
        }

        ends.Add(end);
        return ends;
    }

    private sealed class SingleRun(
        ReadOnlySpan<double> state, double start, double end, IReadOnlyList<double> breakpoints, IntegratorOptions options, IStepObserver? observer)
        : LaneRun(start, end, breakpoints, options)
    {
        public double[] State { get; } = state.ToArray();

        public RunStatistics? Statistics { get; private set; }

        public Exception? Failure { get; private set; }

        public override IStepObserver? Observer { get; } = observer;

        public override double[] Load(int lane) => State;

        public override void Complete(int lane, ReadOnlySpan<double> state, RunStatistics statistics)
        {
            state.CopyTo(State);
            Statistics = statistics;
        }

        public override void Fail(int lane, Exception failure) => Failure = failure;
    }

    private sealed class SingleSystem(IOdeSystem system) : IOdeSystem<OneLane>
    {
        public int Dimension => system.Dimension;

        public string StateName(int index) => system.StateName(index);

        public void EnterSegment(int lane, double start, double end) => system.EnterSegment(start, end);

        public void Derivatives(in OneLane time, ReadOnlySpan<OneLane> state, Span<OneLane> derivative) =>
            system.Derivatives(time.Value, MemoryMarshal.Cast<OneLane, double>(state), MemoryMarshal.Cast<OneLane, double>(derivative));

        public bool HasFaults => false;

        public Exception? TakeFault(int lane) => null;
    }
}
