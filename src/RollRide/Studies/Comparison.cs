using System.Collections.Immutable;
using System.Runtime.ExceptionServices;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;
using CornerObservers = (System.Func<RollRide.Dynamics.HalfCarEquations, RollRide.Numerics.IStepObserver>? Driven, System.Func<RollRide.Dynamics.HalfCarEquations, RollRide.Numerics.IStepObserver>? Mirrored);

namespace RollRide.Studies;

/// <summary>Runs the layouts of a case through its manoeuvre.</summary>
public static class Comparison
{
    /// <summary>Runs all layouts, side by side on the machine's cores; the result does not depend on how many there are.</summary>
    /// <param name="study">The case, as it stands: in its load state, if it is in one.</param>
    /// <param name="progress">Is told the number of layouts finished.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>One result per layout, in the order of the case. No run is held over time, so its length costs no memory.</returns>
    /// <exception cref="StudyException">A run could not be finished; the message names each layout that failed and why.</exception>
    public static ComparisonResult Run(StudyCase study, IProgress<int>? progress = null, CancellationToken cancellation = default) =>
        RunAll([study], progress, cancellation)[0];

    /// <summary>Runs all layouts in each load state of the case, as <see cref="Run(StudyCase, IProgress{int}, CancellationToken)"/> does in one.</summary>
    /// <param name="study">The case.</param>
    /// <param name="progress">Is told the number of runs finished, of load states times layouts.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>One comparison per load state, in the order of the case; one where it has none.</returns>
    /// <exception cref="StudyException">A run could not be finished; the message names each that failed and why.</exception>
    public static ImmutableArray<ComparisonResult> RunInEachLoad(StudyCase study, IProgress<int>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        return RunAll(study.InEachLoad, progress, cancellation);
    }

    /// <summary>Runs all layouts as <see cref="Run(StudyCase, IProgress{int}, CancellationToken)"/> does, and records their channels over time; the figures are the same to the last digit.</summary>
    /// <param name="study">The case, as it stands: in its load state, if it is in one.</param>
    /// <param name="spool">Opens what takes the channels of a long run, from any thread; null where they are held in memory, however long.</param>
    /// <param name="progress">Is told the number of layouts finished.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>One result per layout, in the order of the case.</returns>
    /// <exception cref="StudyException">A run could not be finished; the message names each layout that failed and why.</exception>
    public static RecordedComparison Record(StudyCase study, Func<IHistorySpool>? spool = null, IProgress<int>? progress = null, CancellationToken cancellation = default) =>
        RecordAll([study], spool, progress, cancellation)[0];

    /// <summary>Runs and records all layouts in each load state of the case, as <see cref="Record(StudyCase, Func{IHistorySpool}, IProgress{int}, CancellationToken)"/> does in one.</summary>
    /// <param name="study">The case.</param>
    /// <param name="spool">Opens what takes the channels of a long run, from any thread; null where they are held in memory, however long.</param>
    /// <param name="progress">Is told the number of runs finished, of load states times layouts.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>One comparison per load state, in the order of the case; one where it has none.</returns>
    /// <exception cref="StudyException">A run could not be finished; the message names each that failed and why.</exception>
    public static ImmutableArray<RecordedComparison> RecordInEachLoad(
        StudyCase study, Func<IHistorySpool>? spool = null, IProgress<int>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        return RecordAll(study.InEachLoad, spool, progress, cancellation);
    }

    private static ImmutableArray<ComparisonResult> RunAll(ImmutableArray<StudyCase> states, IProgress<int>? progress, CancellationToken cancellation) =>
        All(states, RunLayout, (study, layouts) => new ComparisonResult(study, layouts), progress, cancellation);

    private static ImmutableArray<RecordedComparison> RecordAll(ImmutableArray<StudyCase> states, Func<IHistorySpool>? spool, IProgress<int>? progress, CancellationToken cancellation) =>
        All(states, (study, layout, stop) => RecordLayout(study, layout, spool: spool, cancellation: stop), (study, layouts) => new RecordedComparison(study, layouts), progress, cancellation);

    /// <summary>Does something with each layout in each state, side by side, and joins what belongs to one state.</summary>
    private static ImmutableArray<TComparison> All<TLayout, TComparison>(
        ImmutableArray<StudyCase> states,
        Func<StudyCase, DamperLayout, CancellationToken, TLayout> run,
        Func<StudyCase, ImmutableArray<TLayout>, TComparison> join,
        IProgress<int>? progress,
        CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(states[0]);
        var layouts = states[0].Layouts;
        var results = SideBySide.Run(
            states.Length * layouts.Length, i => run(states[i / layouts.Length], layouts[i % layouts.Length], cancellation), progress, cancellation);
        return [.. states.Select((study, state) => join(study, results.Slice(state * layouts.Length, layouts.Length)))];
    }

    /// <summary>Runs one layout.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, of the case or not.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="StudyException">The run could not be finished.</exception>
    public static LayoutResult RunLayout(StudyCase study, DamperLayout layout, CancellationToken cancellation = default) =>
        ResultOf(study, Run(study, layout, withDistributions: true, null, default, cancellation), cancellation);

    /// <summary>Runs one layout and records its channels over time.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, of the case or not.</param>
    /// <param name="channels">The channels to record; all if null.</param>
    /// <param name="spool">Opens what takes them where the run is long; null where they are held in memory, however long.</param>
    /// <param name="withCorner">Whether to record the corner from rest too; without it, it is driven no further than its figures need.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="StudyException">The run could not be finished.</exception>
    public static RecordedLayout RecordLayout(
        StudyCase study, DamperLayout layout, IReadOnlyList<Channel>? channels = null, Func<IHistorySpool>? spool = null, bool withCorner = true, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        TimeHistoryRecorder? history = null, corner = null, mirroredCorner = null;
        TimeHistoryRecorder OfCorner(HalfCarEquations equations) => new(equations, study.Manoeuvre.Cornering.Alone.Duration, study.HistoryRate, [Channel.BodyRoll]);
        var figures = Run(
            study,
            layout,
            withDistributions: true,
            equations => history = new TimeHistoryRecorder(equations, study.Manoeuvre.Duration, study.HistoryRate, channels, spool),
            withCorner ? (equations => corner = OfCorner(equations), equations => mirroredCorner = OfCorner(equations)) : default,
            cancellation);
        var shown = figures.Metrics.WorseTurn is { IsMirrored: true } ? mirroredCorner : corner;
        return new RecordedLayout(
            ResultOf(study, figures, cancellation), history!.ToHistory(), figures.Metrics.RollResponse?.Failure is null ? shown?.ToHistory() : null);
    }

    /// <summary>Runs one layout for the single figures of its run only, as sweeps need them; they are the same to the last digit.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, of the case or not.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="StudyException">The run could not be finished.</exception>
    public static LayoutFigures RunFigures(StudyCase study, DamperLayout layout, CancellationToken cancellation = default) =>
        Run(study, layout, withDistributions: false, null, default, cancellation);

    /// <summary>Adds to a run's figures what the case asks of the layout besides.</summary>
    private static LayoutResult ResultOf(StudyCase study, LayoutFigures figures, CancellationToken cancellation)
    {
        var layout = figures.Car.Layout;
        var mirrored = figures.Car.HasUnlikeSides ? Named(study, layout.Name, () => Mirrored(study, figures.Car, cancellation)) : null;
        return new LayoutResult
        {
            Car = figures.Car,
            Metrics = figures.Metrics,
            Mirrored = mirrored?.Metrics,
            MirroredRide = mirrored?.Ride,
            Ride = figures.Ride,
            Statistics = figures.Statistics,
            ReferenceModes = figures.ReferenceModes,
            ModesByVelocity = ModesByVelocity(study, figures.Car),
            OnVehicle = figures.Car.Second is null ? null : Named(study, layout.Name, () => LayoutOnVehicle.Of(study, figures.Car, figures.ReferenceModes, cancellation)),
            Window = study.Targets is { } targets ? Named(study, layout.Name, () => WindowVerdict.Of(figures.Car, targets, study.Analysis.IncludeFriction)) : null,
        };
    }

    private static MeasuredRun Mirrored(StudyCase study, AssembledHalfCar car, CancellationToken cancellation) =>
        new MeasuredRun(car.Mirrored(), study.Manoeuvre, study.Solver, withDistributions: false, withCorner: false).Make(cancellation);

    /// <summary>Runs layouts for their figures only, as <see cref="RunFigures(StudyCase, DamperLayout, CancellationToken)"/> does, side by side where that is faster.</summary>
    /// <param name="runs">The cases and layouts.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>In the same order the figures, or why there are none.</returns>
    public static ImmutableArray<(LayoutFigures? Figures, StudyException? Failure)> RunFigures(
        IReadOnlyList<(StudyCase Study, DamperLayout Layout)> runs, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(runs);
        var started = new LayoutRun?[runs.Count];
        var results = new (LayoutFigures? Figures, StudyException? Failure)[runs.Count];
        for (var i = 0; i < runs.Count; i++)
            results[i].Failure = Attempt(runs[i].Study, runs[i].Layout.Name, () => started[i] = new LayoutRun(runs[i].Study, runs[i].Layout, withDistributions: false));
        MeasuredRun.MakeAll([.. started.OfType<LayoutRun>().Select(run => run.Measured)], cancellation);
        for (var i = 0; i < runs.Count; i++)
        {
            if (started[i] is { } run)
                results[i].Failure = Attempt(runs[i].Study, runs[i].Layout.Name, () => results[i].Figures = run.ToFigures());
        }

        return [.. results];
    }

    private static LayoutFigures Run(
        StudyCase study,
        DamperLayout layout,
        bool withDistributions,
        Func<HalfCarEquations, IStepObserver>? observer,
        CornerObservers cornerObservers,
        CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        return Named(study, layout.Name, () =>
        {
            var run = new LayoutRun(study, layout, withDistributions, observer, cornerObservers);
            run.Measured.Make(cancellation);
            return run.ToFigures();
        });
    }

    /// <summary>One layout's run, from its preparation to its figures.</summary>
    private sealed class LayoutRun
    {
        private readonly StudyCase _study;
        private readonly LoadedHalfCar? _loaded;
        private readonly AssembledHalfCar _car;
        private readonly ModeSet _reference;

        public LayoutRun(
            StudyCase study,
            DamperLayout layout,
            bool withDistributions,
            Func<HalfCarEquations, IStepObserver>? observer = null,
            CornerObservers cornerObservers = default)
        {
            _study = study;
            _loaded = study.Settle(layout);
            _car = _loaded?.Car ?? new AssembledHalfCar(study.Vehicle, layout);
            var linear = LinearHalfCar.AtRest(_car);
            _reference = ModeFollower.Solve(linear, _car.Layout, study.Analysis.ReferenceVelocity, study.Analysis.IncludeFriction);
            Measured = new MeasuredRun(_car, study.Manoeuvre, study.Solver, withDistributions)
            {
                Observer = observer,
                CornerObserver = cornerObservers.Driven,
                MirroredCornerObserver = cornerObservers.Mirrored,
                Linear = linear,
            };
        }

        public MeasuredRun Measured { get; }

        public LayoutFigures ToFigures()
        {
            if (Measured.Failure is { } failure)
                ExceptionDispatchInfo.Throw(failure);
            return new LayoutFigures(_car, Measured.Metrics, Measured.Ride, _reference, Measured.Statistics!) { Loaded = _loaded };
        }
    }

    private static ImmutableArray<ModesAtVelocity> ModesByVelocity(StudyCase study, AssembledHalfCar car) => Named(study, car.Layout.Name, () =>
    {
        var linear = LinearHalfCar.AtRest(car);
        return study.Analysis.Velocities.Select(v => new ModesAtVelocity(v, ModeFollower.Solve(linear, car.Layout, v, study.Analysis.IncludeFriction))).ToImmutableArray();
    });

    /// <summary>Gives a failure the names of its layout and load state.</summary>
    private static T Named<T>(StudyCase study, string layout, Func<T> run)
    {
        try
        {
            return run();
        }
        catch (Exception e) when (IsOfTheLayout(e))
        {
            throw new StudyException(layout, e, study.Load?.Name);
        }
    }

    /// <summary>Does something; a failure is the answer.</summary>
    private static StudyException? Attempt(StudyCase study, string layout, Action action)
    {
        try
        {
            action();
            return null;
        }
        catch (Exception e) when (IsOfTheLayout(e))
        {
            return new StudyException(layout, e, study.Load?.Name);
        }
    }

    private static bool IsOfTheLayout(Exception e) => e is IntegrationException or NoEquilibriumException or NoRestPositionException or UnstableBodyException or UnnamedModesException
        or UnreachableTravelException;
}
