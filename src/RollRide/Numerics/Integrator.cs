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

    /// <summary>The shortest step relative to the largest time of the run: a few roundings of time.</summary>
    private const double RelativeShortestStep = 1e-15;

    /// <summary>The cancellation token is looked at once in so many steps.</summary>
    private const int StepsBetweenCancellationChecks = 100;

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

        var run = new SegmentedRun(system, options, observer, Math.Max(Math.Abs(start), Math.Abs(end)), cancellation);
        double from = start;
        foreach (double to in SegmentEnds(start, end, breakpoints))
        {
            run.Advance(from, to, state);
            from = to;
        }

        return run.Statistics;
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

    private sealed class SegmentedRun(
        IOdeSystem system, IntegratorOptions options, IStepObserver? observer, double largestTime, CancellationToken cancellation)
    {
        private readonly DormandPrince54 _method = new(system);
        private readonly PiStepController _controller = new();
        private readonly double _shortestStep = RelativeShortestStep * largestTime;
        private double? _initialStep = options.InitialStep;
        private long _accepted;
        private long _rejected;

        public RunStatistics Statistics => new(_accepted, _rejected, _method.DerivativeEvaluations);

        public void Advance(double start, double end, Span<double> state)
        {
            system.EnterSegment(start, end);
            _method.Restart(start, state);
            _controller.Restart();
            if (_method.FirstNonFiniteAtStart() is >= 0 and var bad) throw NonFinite(bad, 0);
            double step = _initialStep ?? _method.FirstStep(
                Math.Min(end - start, options.MaximumStep), options.RelativeTolerance, options.AbsoluteTolerance);
            _initialStep = null;

            while (_method.Time < end)
            {
                long tries = _accepted + _rejected;
                if (tries % StepsBetweenCancellationChecks == 0) cancellation.ThrowIfCancellationRequested();
                double target = Target(step, end);
                double tried = target - _method.Time;
                double error = _method.TryStep(target, options.RelativeTolerance, options.AbsoluteTolerance);
                if (tries >= options.MaximumSteps) throw TooMany(tried);
                if (error <= 1)
                {
                    _accepted++;
                    _method.Accept();
                    observer?.Observe(_method);
                    step = _controller.AfterAccepted(tried, error);
                }
                else
                {
                    _rejected++;
                    step = _controller.AfterRejected(tried, error);
                    if (step < _shortestStep) throw TooShort(tried);
                }
            }

            _method.State.CopyTo(state);
        }

        /// <summary>End of the next step: exactly the segment's end, or far enough from it not to leave a sliver.</summary>
        private double Target(double step, double end)
        {
            double remaining = end - _method.Time;
            double allowed = Math.Clamp(step, _shortestStep, Math.Max(_shortestStep, options.MaximumStep));
            return allowed >= remaining ? end : _method.Time + Math.Min(allowed, remaining / 2);
        }

        private IntegrationException TooMany(double step)
        {
            string name = Worst();
            return Stopped($"{options.MaximumSteps} steps were not enough; the error is largest in {name}", name, step);
        }

        private IntegrationException TooShort(double step)
        {
            if (_method.FirstNonFinite() is >= 0 and var index) return NonFinite(index, step);
            string name = Worst();
            return Stopped($"no step is short enough to hold the tolerance; the error is largest in {name}", name, step);
        }

        private IntegrationException NonFinite(int index, double step)
        {
            string name = system.StateName(index);
            return Stopped($"{name} or its rate of change is not a finite number", name, step);
        }

        private string Worst() =>
            system.StateName(_method.ErrorDominating(options.RelativeTolerance, options.AbsoluteTolerance));

        private IntegrationException Stopped(string reason, string stateName, double step) =>
            IntegrationException.Stopped(reason, _method.Time, stateName, step);
    }
}
