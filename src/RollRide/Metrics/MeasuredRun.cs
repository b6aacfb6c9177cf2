using System.Runtime.ExceptionServices;
using System.Runtime.Intrinsics;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// One run with all its figures, taken from the solver's continuous solution independently of any output rate. Where its manoeuvre has a corner, that is
/// driven once more by itself, from rest on a level road, for the <see cref="RollResponse"/>; both ways where the sides of the vehicle differ. Runs are made alone or side by side
/// with others, and give the same digits either way. Not thread-safe.
/// </summary>
public sealed class MeasuredRun
{
    // Of the step that shows the damping where the corner hides it: short against any roll period.
    private const double StepRamp = 0.01;

    // A corner on a level road is smooth, and judged by roll alone: with the manoeuvre's tolerances times this, its figures keep errors below 2e-5, in two thirds of the steps.
    private const double CornerTolerance = 10;

    // After a step the peak comes half a period later.
    private const double PeriodsAfterStep = 2;

    private readonly MeasuredPart _manoeuvre;
    private readonly Turn? _asWritten;
    private readonly Turn? _mirrored;
    private bool _isUsed;

    /// <summary>Prepares a run.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="manoeuvre">Road, cornering and duration.</param>
    /// <param name="options">Settings of the integrator; null for the usual ones.</param>
    /// <param name="withDistributions">Whether to gather distributions over time besides single figures.</param>
    /// <param name="withCorner">Whether to drive the manoeuvre's corner by itself too; it is the same on every road.</param>
    /// <exception cref="ArgumentException">A phase does not lie within the run.</exception>
    public MeasuredRun(AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions? options = null, bool withDistributions = true, bool withCorner = true)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        options ??= new IntegratorOptions();
        if (manoeuvre.Phases.FirstOrDefault(phase => phase.End > manoeuvre.Duration) is { } outside)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"Phase “{outside.Name}” ends at {outside.End} s, after the run, which ends at {manoeuvre.Duration} s."),
                nameof(manoeuvre));
        }

        (Car, Manoeuvre, Options, WithDistributions) = (car, manoeuvre, options, withDistributions);
        _manoeuvre = new MeasuredPart(car, manoeuvre, options, () => new RunFigures(this), ofCorner: false);
        if (!withCorner || !manoeuvre.HasCorner)
            return;
        var corner = manoeuvre.Cornering.Alone;
        _asWritten = new Turn(car, new(() => CornerStand.Of(car, corner)), turn => Part(turn, corner, onlyOvershoot: false));
        if (!car.HasUnlikeSides)
            return;
        var mirrored = car.Mirrored();
        _mirrored = new Turn(mirrored, car.StandsAsMirrored ? _asWritten.Stand : new(() => CornerStand.Of(mirrored, corner)), turn => Part(turn, corner, onlyOvershoot: false)) { IsMirrored = true };
    }

    /// <summary>Makes an observer of every step of the manoeuvre from the equations, with which it can evaluate channels.</summary>
    public Func<HalfCarEquations, IStepObserver>? Observer { get => _manoeuvre.Observer; init => _manoeuvre.Observer = value; }

    /// <summary>Makes an observer of every step of the corner from rest; not called where there is no corner.</summary>
    public Func<HalfCarEquations, IStepObserver>? CornerObserver
    {
        get => _asWritten?.Corner.Observer;
        init => _asWritten?.Corner.Observer = value;
    }

    /// <summary>The same of the corner the other way; not called where both sides are the same.</summary>
    public Func<HalfCarEquations, IStepObserver>? MirroredCornerObserver
    {
        get => _mirrored?.Corner.Observer;
        init => _mirrored?.Corner.Observer = value;
    }

    /// <summary>The corner by itself; null where there is none or it is not asked for.</summary>
    public CornerAlone? Corner => _asWritten is null ? null : Manoeuvre.Cornering.Alone;

    /// <summary>What the integration of the manoeuvre cost; null until it has ended well.</summary>
    public RunStatistics? Statistics => _manoeuvre.Statistics;

    /// <summary>Why the manoeuvre failed: an <see cref="IntegrationException"/>, a <see cref="NoEquilibriumException"/> or a <see cref="Mounting.UnreachableTravelException"/>; null if it did not.</summary>
    public Exception? Failure => _manoeuvre.Failure;

    /// <summary>The figures of the run and its phases.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its end: figures of a part of it would mislead.</exception>
    public RunMetrics Metrics => field ??= ToMetrics();

    /// <summary>The figures of the ride; null where there is none to measure.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its end.</exception>
    public RideMetrics? Ride => Figures.ToRide();

    /// <summary>The seats at which a ride is measured; null for the vehicle's own.</summary>
    internal IReadOnlyList<SeatPosition>? Seats { get; init; }

    /// <summary>The car linearised at rest, where it is known already.</summary>
    internal LinearHalfCar? Linear { get; init; }

    internal AssembledHalfCar Car { get; }

    internal Manoeuvre Manoeuvre { get; }

    internal IntegratorOptions Options { get; }

    internal bool WithDistributions { get; }

    private RunFigures Figures => _manoeuvre.Figures is { } figures && Statistics is not null
        ? (RunFigures)figures
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

    /// <summary>Makes runs on this thread, side by side where there are several. Each gives the same digits as alone.</summary>
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

        if (runs.Count == 1)
            MakeInTurn(runs, parts => Array.ForEach(parts, part => MeasuredPart.MakeAlone(part, cancellation)));
        else if (Vector512.IsHardwareAccelerated)
            MakeSideBySide<EightLanes>(runs, cancellation);
        else
            MakeSideBySide<FourLanes>(runs, cancellation);
    }

    /// <summary>Makes runs side by side in lanes of one kind, those of one form together.</summary>
    internal static void MakeSideBySide<T>(IEnumerable<MeasuredRun> runs, CancellationToken cancellation)
        where T : struct, ILanes<T> =>
        MakeInTurn([.. runs], parts => MeasuredPart.MakeSideBySide<T>(parts, cancellation));

    /// <summary>Makes all manoeuvres, then the corners of those that reached their end, then steps where a corner hides the damping.</summary>
    private static void MakeInTurn(IReadOnlyList<MeasuredRun> runs, Action<MeasuredPart[]> make)
    {
        MakeAny([.. runs.Select(run => run._manoeuvre)]);
        MakeAny([.. runs.Where(run => run.Failure is null).SelectMany(run => run.Turns).Select(turn => turn.Corner)]);
        MakeAny([.. runs.Where(run => run.Failure is null).SelectMany(run => run.Turns.Select(run.StepBeside)).OfType<MeasuredPart>()]);

        void MakeAny(MeasuredPart[] parts)
        {
            if (parts.Length > 0)
                make(parts);
        }
    }

    private double? Period => field ??= Linear is null ? LinearHalfCar.BodyRollPeriodAtRest(Car) : Linear.BodyRollPeriod;

    private MeasuredPart Part(Turn turn, CornerAlone corner, bool onlyOvershoot)
    {
        var alone = RollResponseRecorder.ManoeuvreOf(corner, Manoeuvre.Road.Speed);
        return new(turn.Car, alone, Options.Loosened(CornerTolerance), () => new RollResponseRecorder(turn.Car, corner, alone, turn.Stand.Value, Period) { EndsEarly = CornerObserver is null, OnlyOvershoot = onlyOvershoot }, ofCorner: true);
    }

    private IEnumerable<Turn> Turns => new[] { _asWritten, _mirrored }.OfType<Turn>();

    /// <summary>A step to the lateral acceleration of the corner, where the corner was followed to its end and hides the damping.</summary>
    private MeasuredPart? StepBeside(Turn turn)
    {
        if (turn.Corner.Statistics is null || turn.Response is not { HidesDamping: true, RollPeriod: { } period })
            return null;
        var (from, to) = (Corner!.InitialLateralAcceleration, Corner.Input.FinalLateralAcceleration);
        var held = new PiecewiseSignal(new SignalPiece(double.NegativeInfinity, double.PositiveInfinity, new ConstantShape(from)));
        var step = new GivenLateralAcceleration(held.Plus(CorneringEvents.Ramp(0, StepRamp, to - from)));
        return turn.Step = Part(turn, new CornerAlone(step, StepRamp + (PeriodsAfterStep * period)), onlyOvershoot: true);
    }

    private RunMetrics ToMetrics()
    {
        // What is left of earlier motion belongs to the manoeuvre as written, and is measured by its corner.
        var asWritten = _asWritten?.Response;
        var metrics = Figures.ToMetrics(asWritten);
        return asWritten is null || _mirrored?.Response is not { } mirrored ? metrics : metrics with
        {
            RollResponse = RollResponse.Worse(asWritten, mirrored),
            BothTurns = (asWritten, mirrored),
        };
    }

    /// <summary>The corner from rest one way.</summary>
    private sealed class Turn
    {
        public Turn(AssembledHalfCar car, Lazy<CornerStand> stand, Func<Turn, MeasuredPart> corner)
        {
            (Car, Stand) = (car, stand);
            Corner = corner(this);
        }

        /// <summary>The car that turns as the corner is written: for the other way the mirrored one.</summary>
        public AssembledHalfCar Car { get; }

        /// <summary>How it stands before and after, in the corner and in the step beside it.</summary>
        public Lazy<CornerStand> Stand { get; }

        public MeasuredPart Corner { get; }

        public bool IsMirrored { get; init; }

        /// <summary>A step beside it, where it hides the damping.</summary>
        public MeasuredPart? Step { get; set; }

        /// <summary>What was gathered; null where it was not driven.</summary>
        public RollResponse? Response => Corner.Figures is not RollResponseRecorder figures ? null : figures.ToResponse(Corner.Failure) with
        {
            IsMirrored = IsMirrored,
            OvershootToStep = Step is { Statistics: not null, Figures: RollResponseRecorder ofStep } ? ofStep.Overshoot : null,
        };
    }
}
