using System.Runtime.ExceptionServices;
using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>One run of a half-car through a manoeuvre.</summary>
public sealed class Simulation
{
    private readonly AssembledHalfCar _car;
    private readonly Manoeuvre _manoeuvre;

    /// <summary>Prepares a run.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="manoeuvre">Road, cornering and duration.</param>
    /// <param name="options">Settings of the integrator.</param>
    public Simulation(AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions options)
    {
        ArgumentNullException.ThrowIfNull(manoeuvre);
        ArgumentNullException.ThrowIfNull(options);
        Equations = new HalfCarEquations(car, manoeuvre.Road, manoeuvre.Cornering);
        _car = car;
        _manoeuvre = manoeuvre;
        Options = options;
        Series = SeriesCar.TryCreate(car, manoeuvre);
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
    /// <exception cref="IntegrationException">The motion diverges or the body rolls over; the message names time and state.</exception>
    /// <exception cref="NoEquilibriumException">The run starts within a turn in which the vehicle cannot stand.</exception>
    public RunStatistics Run(
        IReadOnlyList<IStepObserver> observers,
        ReadOnlySpan<double> initialState = default,
        CancellationToken cancellation = default)
    {
        var run = new PendingRun(this, observers, initialState.IsEmpty ? null : initialState.ToArray());
        PendingRun.MakeAll([run], cancellation);
        if (run.Failure is { } failure)
            ExceptionDispatchInfo.Throw(failure);
        return run.Statistics!;
    }

    /// <summary>Whether <see cref="PendingRun.MakeAll"/> makes runs of this kind side by side.</summary>
    public bool RunsSideBySide => Series is not null;

    /// <summary>The equations as series; null if they have none.</summary>
    internal SeriesCar? Series { get; }

    /// <summary>Settings of the integrator.</summary>
    internal IntegratorOptions Options { get; }

    /// <summary>Ends a run in which the vehicle rolls over.</summary>
    internal IStepObserver NewGuard() => new RolloverGuard(Equations.Dimension);

    /// <summary>Integrates from the derivatives, step by step.</summary>
    internal RunStatistics Integrate(double[] state, IReadOnlyList<IStepObserver> observers, CancellationToken cancellation) =>
        Integrator.Run(Equations, 0, _manoeuvre.Duration, state, _manoeuvre.Breakpoints, Options, new ObserverChain([NewGuard(), .. observers]), cancellation);

    /// <summary>The states at rest at the start.</summary>
    /// <exception cref="NoEquilibriumException">The run starts within a turn in which the vehicle cannot stand.</exception>
    internal double[] RestState()
    {
        var cornering = _manoeuvre.Cornering.CreateCursor();
        cornering.EnterSegment(0.5 * (Series?.Segments[0].End ?? (_manoeuvre.Breakpoints is [var first, ..] ? first : _manoeuvre.Duration)));
        var ay = cornering.LateralAcceleration(0);
        return ay == 0 ? new double[Equations.Dimension] : StaticEquilibrium.Find(_car, ay).ToState(_car);
    }

    private sealed class ObserverChain(IStepObserver[] observers) : IStepObserver
    {
        public void Observe(IDenseStep step)
        {
            foreach (var observer in observers)
                observer.Observe(step);
        }
    }

    /// <summary>Past a quarter turn the roll-plane model means nothing any more: the vehicle lies on its side.</summary>
    private sealed class RolloverGuard(int dimension) : IStepObserver
    {
        private readonly double[] _state = new double[dimension];

        public void Observe(IDenseStep step)
        {
            step.StateAt(step.End, _state);
            Check(HalfCarState.BodyRoll, "body", step);
            Check(HalfCarState.UnsprungRoll, "axle", step);
        }

        private void Check(int roll, string what, IDenseStep step)
        {
            if (Math.Abs(_state[roll]) <= Math.PI / 2)
                return;
            throw new IntegrationException(
                FormattableString.Invariant($"At {step.End:F3} s the {what} leans by more than 90 deg: the vehicle has rolled over, and the run ends there. Less lateral acceleration or a smoother road, a lower centre of gravity or more roll stiffness keeps it on its wheels."),
                step.End,
                HalfCarState.Name(roll),
                step.End - step.Start);
        }
    }
}
