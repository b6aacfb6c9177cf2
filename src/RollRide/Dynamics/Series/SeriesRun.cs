using System.Numerics;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>Drives runs by series in the lanes of one solver, showing every step of each to its observer.</summary>
/// <typeparam name="T">One lane, or several.</typeparam>
internal sealed class SeriesRun<T>
    where T : struct, ILanes<T>
{
    private const int StepsBetweenCancellationChecks = 100;

    private readonly SeriesSolver<T> _solver = new();
    private readonly SeriesStep[] _steps;
    private readonly PendingRun?[] _runs = new PendingRun?[T.Count];
    private readonly int[] _segments = new int[T.Count];

    // The observers that are shown each step; one that takes its figures from all lanes at once is not among them.
    private readonly IStepObserver[][] _observers = [.. Enumerable.Repeat<IStepObserver[]>([], T.Count)];
    private ISeriesGatherer? _gatherer;

    // The lanes that the gatherer looks at, and those whose observers are shown each step, a bit each.
    private int _gathered;
    private int _shown;

    private SeriesRun() => _steps = [.. Enumerable.Range(0, T.Count).Select(lane => new SeriesStep(_solver, lane))];

    // One that has done its work and waits for more: a sweep makes its runs in many small lots, and the memory for one is dear.
    [ThreadStatic]
    private static SeriesRun<T>? s_idle;

    /// <summary>Runs everything pending on this thread, as <see cref="RunAll"/> does.</summary>
    /// <param name="pending">The runs, each of a simulation that has a series.</param>
    /// <param name="cancellation">Stops all of them.</param>
    /// <exception cref="OperationCanceledException">They were stopped.</exception>
    public static void Make(IReadOnlyList<PendingRun> pending, CancellationToken cancellation)
    {
        // Taken away meanwhile, since an observer may make runs of its own; one that fails is not used again.
        var run = s_idle ?? new SeriesRun<T>();
        s_idle = null;
        run.RunAll(pending, cancellation);
        s_idle = run;
    }

    /// <summary>Runs everything pending, as many side by side as there are lanes. A failure is noted with its run.</summary>
    /// <param name="pending">The runs, each of a simulation that has a series.</param>
    /// <param name="cancellation">Stops all of them.</param>
    /// <exception cref="OperationCanceledException">They were stopped.</exception>
    private void RunAll(IReadOnlyList<PendingRun> pending, CancellationToken cancellation)
    {
        var (next, running) = (0, 0);
        for (var lane = 0; lane < T.Count; lane++)
            running |= TryLoad(lane, pending, ref next) ? 1 << lane : 0;
        for (var round = 0L; running != 0; round++)
        {
            if (round % StepsBetweenCancellationChecks == 0)
                cancellation.ThrowIfCancellationRequested();
            _solver.Step();
            var (over, doubtful) = (0, _solver.Doubtful());
            for (var shown = (uint)(_shown | doubtful); shown != 0; shown &= shown - 1)
            {
                var lane = BitOperations.TrailingZeroCount(shown);
                if (TryObserve(lane, _runs[lane]!, (doubtful >> lane & 1) != 0))
                    continue;
                over |= 1 << lane;
                _gathered &= ~(1 << lane);
                _shown &= ~(1 << lane);
                _solver.Idle(lane);
            }

            if (_gathered != 0)
                _gatherer!.Gather(_gathered);
            var ended = _solver.Advance();
            over |= ended;
            for (var lane = 0; over >> lane != 0; lane++)
            {
                if ((over >> lane & 1) == 0)
                    continue;
                if ((ended >> lane & 1) != 0)
                {
                    if ((_gathered >> lane & 1) != 0)
                        _gatherer!.Leave(lane);
                    var steps = _solver.Steps(lane);
                    _runs[lane]!.Statistics = new RunStatistics(steps, 0, steps * (SeriesRow.Order - 1)) { Method = $"Taylor series of order {SeriesRow.Order}" };
                }

                // Only now: a run loaded before the solver moves on would be moved to the end of another's step.
                if (!TryLoad(lane, pending, ref next))
                    running &= ~(1 << lane);
            }
        }
    }

    /// <summary>Puts the next run that can start into a lane.</summary>
    private bool TryLoad(int lane, IReadOnlyList<PendingRun> pending, ref int next)
    {
        while (next < pending.Count)
        {
            var run = pending[next++];
            try
            {
                _solver.Load(lane, run.Simulation.Series!, run.Start(), run.Simulation.Options);
            }
            catch (Exception e) when (e is IntegrationException or NoEquilibriumException)
            {
                run.Failure = e;
                continue;
            }

            (_runs[lane], _segments[lane]) = (run, -1);
            Introduce(lane, run.Observers);
            return true;
        }

        (_runs[lane], _observers[lane]) = (null, []);
        _gathered &= ~(1 << lane);
        _shown &= ~(1 << lane);
        _solver.Idle(lane);
        return false;
    }

    private void Introduce(int lane, IStepObserver[] observers)
    {
        _observers[lane] = observers;
        _gathered &= ~(1 << lane);
        if (Array.Find(observers, observer => observer is ISeriesObserver { TakesSeries: true }) is ISeriesObserver gathered)
        {
            _gatherer ??= gathered.NewGatherer(_solver);
            gathered.Enter(_gatherer, lane);
            _observers[lane] = Array.FindAll(observers, observer => observer != gathered);
            _gathered |= 1 << lane;
        }

        _shown = _observers[lane].Length > 0 ? _shown | (1 << lane) : _shown & ~(1 << lane);
    }

    private bool TryObserve(int lane, PendingRun run, bool isDoubtful)
    {
        var it = _solver.Lanes[lane];
        if (it.Segment != _segments[lane])
        {
            // The equations that observers evaluate must look at the same segment.
            _segments[lane] = it.Segment;
            run.Simulation.Equations.EnterSegment(_solver.Start(lane), it.Car!.Segments[it.Segment].End);
        }

        try
        {
            if (isDoubtful)
            {
                _solver.CheckStep(lane);
                run.Simulation.NewGuard().Observe(_steps[lane]);
            }

            foreach (var observer in _observers[lane])
                observer.Observe(_steps[lane]);
            return true;
        }
        catch (IntegrationException e)
        {
            run.Failure = e;
            return false;
        }
    }
}
