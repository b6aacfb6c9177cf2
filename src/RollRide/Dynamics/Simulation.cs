using System.Runtime.ExceptionServices;
using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>One run of a half-car through a manoeuvre.</summary>
public sealed class Simulation
{
    private readonly Manoeuvre _manoeuvre;
    private readonly IntegratorOptions _options;

    /// <summary>Prepares a run.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="manoeuvre">Road, cornering and duration.</param>
    /// <param name="options">Settings of the integrator.</param>
    public Simulation(AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions options)
    {
        ArgumentNullException.ThrowIfNull(manoeuvre);
        ArgumentNullException.ThrowIfNull(options);
        Equations = new HalfCarEquations(car, manoeuvre.Road, manoeuvre.Cornering);
        (_manoeuvre, _options) = (manoeuvre, options);
    }

    /// <summary>The equations of motion, for observers that evaluate channels.</summary>
    public HalfCarEquations Equations { get; }

    /// <summary>Integrates the whole manoeuvre, showing every step to the observers.</summary>
    /// <param name="observers">The observers, in the order in which they are shown a step.</param>
    /// <param name="initialState">
    /// States at time 0; if empty, at rest in the static equilibrium under the lateral acceleration at time 0, since a record
    /// may begin within a turn.
    /// </param>
    /// <param name="cancellation">Stops the run.</param>
    /// <returns>What the integration cost.</returns>
    /// <exception cref="ArgumentException">The initial state has not as many numbers as the equations have states.</exception>
    /// <exception cref="IntegrationException">The motion diverges or the body rolls over; the message names time and state.</exception>
    /// <exception cref="NoEquilibriumException">The run starts within a turn in which the vehicle cannot stand.</exception>
    /// <exception cref="Mounting.UnreachableTravelException">A wheel goes beyond the reach of its linkage.</exception>
    public RunStatistics Run(
        IReadOnlyList<IStepObserver> observers,
        ReadOnlySpan<double> initialState = default,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(observers);
        if (!initialState.IsEmpty && initialState.Length != Equations.Dimension)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The state has {initialState.Length} numbers; the system has {Equations.Dimension} states."), nameof(initialState));
        }

        var run = new ObservedRun(Equations.Car, _manoeuvre, _options, initialState.IsEmpty ? null : initialState.ToArray(), observers);
        var pending = (LaneRun?)run;
        new LaneIntegrator<OneLane>(Equations.System, new RolloverGuard<OneLane>(Equations.System, null)).Run(() => Interlocked.Exchange(ref pending, null), cancellation);
        if (run.Failure is { } failure)
            ExceptionDispatchInfo.Throw(failure);
        return run.Statistics!;
    }

    private sealed class ObservedRun(
        AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions options, double[]? initialState, IReadOnlyList<IStepObserver> observers)
        : HalfCarRun(car, manoeuvre, options), IStepObserver
    {
        public RunStatistics? Statistics { get; private set; }

        public Exception? Failure { get; private set; }

        public override IStepObserver Observer => this;

        public override double[] Load(int lane) => initialState ?? RestState();

        public override void Complete(int lane, ReadOnlySpan<double> state, RunStatistics statistics) => Statistics = statistics;

        public override void Fail(int lane, Exception failure) => Failure = failure;

        public void Observe(IDenseStep step)
        {
            foreach (var observer in observers)
                observer.Observe(step);
        }
    }
}
