using System.Runtime.ExceptionServices;
using System.Runtime.Intrinsics;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// One run with all its figures, taken from the solver's continuous solution independently of any output rate. It is made alone or side by side
/// with others, and gives the same digits either way. Not thread-safe.
/// </summary>
public sealed class MeasuredRun
{
    private bool _isUsed;
    private RunFigures? _figures;

    /// <summary>Prepares a run.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="manoeuvre">Road, cornering and duration.</param>
    /// <param name="options">Settings of the integrator.</param>
    /// <param name="withDistributions">Whether to gather distributions over time besides single figures.</param>
    /// <exception cref="ArgumentException">A phase does not lie within the run.</exception>
    public MeasuredRun(AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions options, bool withDistributions = true)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        ArgumentNullException.ThrowIfNull(options);
        if (manoeuvre.Phases.FirstOrDefault(phase => phase.End > manoeuvre.Duration) is { } outside)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"Phase '{outside.Name}' ends at {outside.End} s, after the run, which ends at {manoeuvre.Duration} s."),
                nameof(manoeuvre));
        }

        (Car, Manoeuvre, Options, WithDistributions) = (car, manoeuvre, options, withDistributions);
    }

    /// <summary>Makes somebody who is shown every step of this run; gets the equations, with which channels can be evaluated.</summary>
    public Func<HalfCarEquations, IStepObserver>? Observer { get; init; }

    /// <summary>What the integration cost; null until it has ended well.</summary>
    public RunStatistics? Statistics { get; private set; }

    /// <summary>Why it failed: an <see cref="IntegrationException"/>, a <see cref="NoEquilibriumException"/> or a <see cref="Mounting.UnreachableTravelException"/>; null if it did not.</summary>
    public Exception? Failure { get; private set; }

    /// <summary>The figures of the run and its phases.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its end: figures of a part of it would mislead.</exception>
    public RunMetrics Metrics => field ??= Figures.ToMetrics();

    /// <summary>The figures of the ride; null where there is none to measure.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its end.</exception>
    public RideMetrics? Ride => Figures.Ride?.ToMetrics();

    /// <summary>The seats at which a ride is measured; null for the vehicle's own.</summary>
    internal IReadOnlyList<SeatPosition>? Seats { get; init; }

    internal AssembledHalfCar Car { get; }

    internal Manoeuvre Manoeuvre { get; }

    internal IntegratorOptions Options { get; }

    internal bool WithDistributions { get; }

    private RunFigures Figures => _figures is not null && Statistics is not null
        ? _figures
        : throw new InvalidOperationException("The run has not been made to its end.");

    /// <summary>Makes the run by itself, on this thread.</summary>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The run itself.</returns>
    /// <exception cref="IntegrationException">The motion diverges or the body rolls over; the message names time and state.</exception>
    /// <exception cref="NoEquilibriumException">The run starts within a turn in which the vehicle cannot stand.</exception>
    /// <exception cref="Mounting.UnreachableTravelException">A wheel goes beyond the reach of its linkage.</exception>
    public MeasuredRun Make(CancellationToken cancellation = default)
    {
        MakeAll([this], cancellation);
        if (Failure is { } failure)
            ExceptionDispatchInfo.Throw(failure);
        return this;
    }

    /// <summary>Makes runs on this thread, side by side where there are several. Each gives the very digits that it gives by itself.</summary>
    /// <param name="runs">The runs; each then holds its figures or its failure.</param>
    /// <param name="cancellation">Stops all of them.</param>
    /// <exception cref="InvalidOperationException">A run has been made before.</exception>
    /// <exception cref="OperationCanceledException">They were stopped.</exception>
    public static void MakeAll(IReadOnlyList<MeasuredRun> runs, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(runs);
        foreach (var run in runs)
        {
            if (run._isUsed)
                throw new InvalidOperationException("A run can be made only once.");
            run._isUsed = true;
        }

        if (runs is [var alone])
            MakeAlone(alone, cancellation);
        else if (Vector512.IsHardwareAccelerated)
            MakeSideBySide<EightLanes>(runs, cancellation);
        else
            MakeSideBySide<FourLanes>(runs, cancellation);
    }

    /// <summary>Makes runs side by side in lanes of one kind, those of one form together.</summary>
    internal static void MakeSideBySide<T>(IEnumerable<MeasuredRun> runs, CancellationToken cancellation)
        where T : struct, ILanes<T>
    {
        foreach (var group in runs.GroupBy(run => HalfCarForm.Of(run.Car)))
        {
            var waiting = new Queue<MeasuredRun>(group);
            var equations = new HalfCarEquations<T>(waiting.Peek().Car);
            Integrate(equations, null, waiting, cancellation);
        }
    }

    private static void MakeAlone(MeasuredRun run, CancellationToken cancellation)
    {
        var equations = new HalfCarEquations(run.Car, run.Manoeuvre.Road, run.Manoeuvre.Cornering);
        Integrate(equations.System, equations, new Queue<MeasuredRun>([run]), cancellation);
    }

    private static void Integrate<T>(
        HalfCarEquations<T> equations, HalfCarEquations? alone, Queue<MeasuredRun> waiting, CancellationToken cancellation)
        where T : struct, ILanes<T>
    {
        var figures = new LaneFigures<T>(equations, alone, waiting.Peek().Car);
        var integrator = new LaneIntegrator<T>(equations, new RolloverGuard<T>(figures));
        figures.Watch(integrator.Method);
        integrator.Run(() => waiting.TryDequeue(out var run) ? new InLane<T>(run, figures) : null, cancellation);
    }

    private sealed class InLane<T>(MeasuredRun run, LaneFigures<T> figures) : HalfCarRun(run.Car, run.Manoeuvre, run.Options)
        where T : struct, ILanes<T>
    {
        private IStepObserver? _observer;

        public override IStepObserver? Observer => _observer;

        public override double[] Load(int lane)
        {
            var state = RestState();
            run._figures = new RunFigures(run);
            var equations = figures.Enter(lane, run._figures);
            _observer = run.Observer?.Invoke(equations);
            return state;
        }

        public override void Complete(int lane, ReadOnlySpan<double> state, RunStatistics statistics)
        {
            figures.Leave(lane);
            run.Statistics = statistics;
        }

        public override void Fail(int lane, Exception failure)
        {
            figures.Leave(lane);
            run.Failure = failure;
        }
    }
}
