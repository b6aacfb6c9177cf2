namespace RollRide.Numerics;

/// <summary>
/// Integrates runs side by side, one in each lane, with steps of its own that hold its own tolerance. A run is split at its breakpoints: no step
/// straddles one, so the order of the method survives kinks and jumps of the inputs. A lane whose run has ended takes the next one. Each run
/// gives the same digits as alone.
/// </summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class LaneIntegrator<T>
    where T : struct, ILanes<T>
{
    /// <summary>The shortest step relative to the largest time of the run: a few roundings of time.</summary>
    private const double RelativeShortestStep = 1e-15;

    /// <summary>The cancellation token is looked at once in so many steps.</summary>
    private const int StepsBetweenCancellationChecks = 100;

    private readonly IOdeSystem<T> _system;
    private readonly ILaneObserver<T>? _observer;
    private readonly DormandPrince54<T> _method;
    private readonly PiStepController<T> _controller = new();
    private readonly LaneRun?[] _runs = new LaneRun?[T.Count];
    private readonly LaneStep<T>[] _views = new LaneStep<T>[T.Count];
    private readonly int[] _segments = new int[T.Count];
    private readonly LaneBuffer<T> _numbers = new(9);
    private int _active;
    private int _entering;
    private int _watched;

    /// <summary>Makes the work arrays.</summary>
    /// <param name="system">The equations of all lanes.</param>
    /// <param name="observer">Is shown all steps; null if there is none.</param>
    public LaneIntegrator(IOdeSystem<T> system, ILaneObserver<T>? observer)
    {
        (_system, _observer) = (system, observer);
        _method = new DormandPrince54<T>(system);
        for (var lane = 0; lane < T.Count; lane++)
            _views[lane] = new LaneStep<T>(_method, lane, system.Dimension);
    }

    /// <summary>The method, with the steps that lanes are at.</summary>
    public DormandPrince54<T> Method => _method;

    private ref T Step => ref _numbers[0];

    private ref T SegmentEnd => ref _numbers[1];

    private ref T ShortestStep => ref _numbers[2];

    private ref T LongestStep => ref _numbers[3];

    private ref T RelativeTolerance => ref _numbers[4];

    private ref T AbsoluteTolerance => ref _numbers[5];

    private ref T Accepted => ref _numbers[6];

    private ref T Tried => ref _numbers[7];

    private ref T MostSteps => ref _numbers[8];

    /// <summary>Makes runs until there are no more.</summary>
    /// <param name="next">Gives the next run; null when there is none any more.</param>
    /// <param name="cancellation">Stops all of them.</param>
    /// <exception cref="OperationCanceledException">They were stopped.</exception>
    public void Run(Func<LaneRun?> next, CancellationToken cancellation)
    {
        Fill(next);
        for (var count = 0L; _active != 0; count++)
        {
            if (count % StepsBetweenCancellationChecks == 0)
                cancellation.ThrowIfCancellationRequested();
            var ended = Advance();
            if (ended != 0)
                Fill(next);
        }
    }

    /// <summary>Tries one step in every lane.</summary>
    /// <returns>Whether a lane has become free: a bit for each.</returns>
    private int Advance()
    {
        // Exactly to the segment's end, or far enough from it not to leave a sliver.
        var remaining = SegmentEnd - _method.Time;
        var allowed = T.Min(T.Max(Step, ShortestStep), LongestStep);
        var end = T.WhereGreater(remaining, allowed, _method.Time + T.Min(allowed, remaining * T.All(0.5)), SegmentEnd);
        var tried = end - _method.Time;
        var error = _method.TryStep(end, RelativeTolerance, AbsoluteTolerance);
        _observer?.AtTrialEnd();
        var accepted = T.Greater(T.All(double.BitIncrement(1)), error) & _active;
        Tried += T.All(1);
        Accepted = T.Where(accepted, Accepted + T.All(1), Accepted);
        var before = _active;
        foreach (var lane in new LaneSet(T.Greater(Tried, MostSteps) & _active))
            Stop(lane, TooMany(lane));
        accepted &= _active;
        _method.Accept(accepted);
        if (_system.HasFaults)
            ForgetFaults(accepted);
        if (accepted != 0)
            Show(accepted);
        Step = _controller.Next(tried, error, accepted);
        foreach (var lane in new LaneSet(T.Greater(ShortestStep, Step) & ~accepted & _active))
            Stop(lane, TooShort(lane));
        foreach (var lane in new LaneSet(accepted & _active & ~T.Greater(SegmentEnd, _method.Time)))
            EndSegment(lane);
        Enter();
        return before & ~_active;
    }

    /// <summary>What a step met that was tried again shorter, and went well then, explains no later failure.</summary>
    private void ForgetFaults(int accepted)
    {
        foreach (var lane in new LaneSet(accepted))
            _system.TakeFault(lane);
    }

    private void Show(int accepted)
    {
        foreach (var lane in new LaneSet(accepted & _watched))
            _runs[lane]!.Observer!.Observe(_views[lane]);
        if (_observer is null)
            return;
        foreach (var lane in new LaneSet(_observer.Observe(_method, accepted) & _active))
        {
            if (_observer.TakeFailure(lane) is { } failure)
                Stop(lane, failure);
            else
                Finish(lane);
        }
    }

    /// <summary>Puts runs into free lanes.</summary>
    private void Fill(Func<LaneRun?> next)
    {
        for (var lane = 0; lane < T.Count; lane++)
        {
            while ((_active & (1 << lane)) == 0 && next() is { } run)
                Load(lane, run);
        }

        Enter();
    }

    private void Load(int lane, LaneRun run)
    {
        double[] state;
        try
        {
            state = run.Load(lane);
        }
#pragma warning disable CA1031 // The run is told, which tells whoever asked for it.
        catch (Exception e)
#pragma warning restore CA1031
        {
            run.Fail(lane, e);
            return;
        }

        _runs[lane] = run;
        _views[lane].Forget();
        _segments[lane] = -1;
        var options = run.Options;
        Set(ref Step, lane, options.InitialStep ?? double.NaN);
        Set(ref SegmentEnd, lane, run.Start);
        var shortest = RelativeShortestStep * Math.Max(Math.Abs(run.Start), Math.Abs(run.End));
        Set(ref ShortestStep, lane, shortest);
        Set(ref LongestStep, lane, Math.Max(options.MaximumStep, shortest));
        Set(ref RelativeTolerance, lane, options.RelativeTolerance);
        Set(ref AbsoluteTolerance, lane, options.AbsoluteTolerance);
        Set(ref Accepted, lane, 0);
        Set(ref Tried, lane, 0);
        Set(ref MostSteps, lane, options.MaximumSteps);
        _method.Start(lane, run.Start, state);
        _active |= 1 << lane;
        _watched = run.Observer is null ? _watched & ~(1 << lane) : _watched | (1 << lane);
        EndSegment(lane);
    }

    /// <summary>Sends a lane into its next segment, or ends its run.</summary>
    private void EndSegment(int lane)
    {
        var run = _runs[lane]!;
        var segment = ++_segments[lane];
        if (segment < run.SegmentEnds.Count)
        {
            var (start, end) = (segment == 0 ? run.Start : run.SegmentEnds[segment - 1], run.SegmentEnds[segment]);
            _system.EnterSegment(lane, start, end);
            Set(ref SegmentEnd, lane, end);
            _entering |= 1 << lane;
            return;
        }

        Finish(lane);
    }

    /// <summary>Ends a run at the state it has reached.</summary>
    private void Finish(int lane)
    {
        var run = _runs[lane]!;
        Span<double> state = stackalloc double[_system.Dimension];
        for (var i = 0; i < state.Length; i++)
            state[i] = _method.State[i, lane];
        Free(lane);
        run.Complete(lane, state, Statistics(lane));
    }

    /// <summary>Evaluates the equations where lanes enter a segment, and chooses their first steps.</summary>
    private void Enter()
    {
        var lanes = _entering & _active;
        _entering = 0;
        if (lanes == 0)
            return;
        _method.EvaluateStart(lanes);
        _observer?.AtSegmentStart(lanes);
        _controller.Restart(lanes);
        var longest = T.Min(SegmentEnd - _method.Time, LongestStep);
        var first = _method.FirstStep(lanes, longest, RelativeTolerance, AbsoluteTolerance);
        foreach (var lane in new LaneSet(lanes))
        {
            if (_method.FirstNonFiniteAtStart(lane) is >= 0 and var bad)
                Stop(lane, NonFinite(lane, bad, 0));
            else if (_segments[lane] > 0 || double.IsNaN(LaneMath.Get(Step, lane)))
                Set(ref Step, lane, LaneMath.Get(first, lane));
        }
    }

    private static void Set(ref T numbers, int lane, double value) => LaneMath.Lane(ref numbers, lane) = value;

    private void Stop(int lane, Exception failure)
    {
        var run = _runs[lane]!;
        Free(lane);
        run.Fail(lane, failure);
    }

    /// <summary>Holds a lane at a state in which everything can be evaluated, until another run takes it.</summary>
    private void Free(int lane)
    {
        Span<double> rest = stackalloc double[_system.Dimension];
        rest.Clear();
        _method.Start(lane, LaneMath.Get(_method.Time, lane), rest);
        _runs[lane] = null;
        _active &= ~(1 << lane);
        _watched &= ~(1 << lane);
    }

    private RunStatistics Statistics(int lane)
    {
        var (accepted, tried, segments) = ((long)LaneMath.Get(Accepted, lane), (long)LaneMath.Get(Tried, lane), _segments[lane]);

        // Six stages a step, and at the start of each segment the first stage and the trial for the first step.
        return new RunStatistics(accepted, tried - accepted, ((DormandPrince54.Stages - 1) * tried) + (2 * segments));
    }

    private IntegrationException TooMany(int lane)
    {
        var name = Worst(lane);
        return Stopped(lane, FormattableString.Invariant($"{_runs[lane]!.Options.MaximumSteps} steps were not enough; the error is largest in {name}"), name);
    }

    private Exception TooShort(int lane)
    {
        if (_method.FirstNonFinite(lane) is >= 0 and var index)
            return NonFinite(lane, index, LaneMath.Get(_method.TrialEnd - _method.Time, lane));
        var name = Worst(lane);
        return Stopped(lane, $"no step is short enough to hold the tolerance; the error is largest in {name}", name);
    }

    private Exception NonFinite(int lane, int index, double step)
    {
        var name = _system.StateName(index);
        return _system.TakeFault(lane) ?? IntegrationException.Stopped(
            $"{name} or its rate of change is not a finite number", LaneMath.Get(_method.Time, lane), name, step);
    }

    private string Worst(int lane) => _system.StateName(_method.ErrorDominating(lane, RelativeTolerance, AbsoluteTolerance));

    private IntegrationException Stopped(int lane, string reason, string stateName) =>
        IntegrationException.Stopped(reason, LaneMath.Get(_method.Time, lane), stateName, LaneMath.Get(_method.TrialEnd - _method.Time, lane));
}
