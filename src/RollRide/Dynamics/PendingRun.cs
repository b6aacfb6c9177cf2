using System.Runtime.Intrinsics;
using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>A run of a simulation that is to be made, or has been. Used once.</summary>
public sealed class PendingRun
{
    private readonly double[]? _initialState;
    private bool _isUsed;

    /// <summary>Prepares a run.</summary>
    /// <param name="simulation">The simulation.</param>
    /// <param name="observers">The observers, in the order in which they are shown a step.</param>
    /// <param name="initialState">States at time 0, copied; if null, at rest as <see cref="Simulation.Run"/> says.</param>
    /// <exception cref="ArgumentException">The number of states does not match.</exception>
    public PendingRun(Simulation simulation, IReadOnlyList<IStepObserver> observers, double[]? initialState = null)
    {
        ArgumentNullException.ThrowIfNull(simulation);
        ArgumentNullException.ThrowIfNull(observers);
        Simulation = simulation;
        if (initialState is not null && initialState.Length != simulation.Equations.Dimension)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The state has {initialState.Length} numbers; the system has {simulation.Equations.Dimension} states."), nameof(initialState));
        }

        _initialState = initialState?.ToArray();
        Observers = [.. observers];
    }

    /// <summary>What the integration cost; null until it has ended well.</summary>
    public RunStatistics? Statistics { get; internal set; }

    /// <summary>Why it failed, an <see cref="IntegrationException"/> or a <see cref="NoEquilibriumException"/>; null if it did not.</summary>
    public Exception? Failure { get; internal set; }

    internal Simulation Simulation { get; }

    internal IStepObserver[] Observers { get; }

    /// <summary>
    /// Makes runs, on this thread: those whose equations allow it side by side, the others one after the other. Each gives the very
    /// digits that it gives by itself.
    /// </summary>
    /// <param name="runs">The runs; each then holds its statistics or its failure.</param>
    /// <param name="cancellation">Stops all of them.</param>
    /// <exception cref="ArgumentException">Two runs share a simulation.</exception>
    /// <exception cref="InvalidOperationException">A run has been made before.</exception>
    /// <exception cref="OperationCanceledException">They were stopped.</exception>
    public static void MakeAll(IReadOnlyList<PendingRun> runs, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(runs);
        if (runs.DistinctBy(run => run.Simulation).Count() < runs.Count)
            throw new ArgumentException("Two runs share a simulation; each needs one of its own.", nameof(runs));
        foreach (var run in runs)
        {
            if (run._isUsed)
                throw new InvalidOperationException("A pending run can be made only once.");
            run._isUsed = true;
        }

        List<PendingRun> series = [.. runs.Where(run => run.Simulation.Series is not null)];
        if (series.Count > 1 && !Vector512.IsHardwareAccelerated)
            SeriesRun<FourLanes>.Make(series, cancellation);
        else if (series.Count > 1)
            SeriesRun<EightLanes>.Make(series, cancellation);
        else if (series.Count == 1)
            SeriesRun<OneLane>.Make(series, cancellation);
        foreach (var run in runs)
        {
            if (run.Simulation.Series is null)
                run.MakeStepByStep(cancellation);
        }
    }

    /// <summary>States at the start.</summary>
    /// <exception cref="NoEquilibriumException">The run starts within a turn in which the vehicle cannot stand.</exception>
    internal double[] Start() => _initialState ?? Simulation.RestState();

    private void MakeStepByStep(CancellationToken cancellation)
    {
        try
        {
            Statistics = Simulation.Integrate(Start(), Observers, cancellation);
        }
        catch (Exception e) when (e is IntegrationException or NoEquilibriumException)
        {
            Failure = e;
        }
    }
}
