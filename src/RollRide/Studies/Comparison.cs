using System.Collections.Immutable;
using System.Runtime.ExceptionServices;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Runs the layouts of a case through its manoeuvre.</summary>
public static class Comparison
{
    /// <summary>Runs all layouts, side by side on the machine's cores; the result does not depend on how many there are.</summary>
    /// <param name="study">The case.</param>
    /// <param name="progress">Is told the number of layouts finished.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>One result a layout, in the order of the case. No run is held over time, so its length costs no memory.</returns>
    /// <exception cref="StudyException">A run could not be finished; the message names each layout that failed and why.</exception>
    public static ComparisonResult Run(
        StudyCase study,
        IProgress<int>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        return new ComparisonResult(study, SideBySide.Run(study.Layouts.Length, i => RunLayout(study, study.Layouts[i], cancellation), progress, cancellation));
    }

    /// <summary>Runs all layouts as <see cref="Run(StudyCase, IProgress{int}, CancellationToken)"/> does, and records their channels over time; the figures are the same to the last digit.</summary>
    /// <param name="study">The case.</param>
    /// <param name="progress">Is told the number of layouts finished.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>One result a layout, in the order of the case.</returns>
    /// <exception cref="StudyException">A run could not be finished; the message names each layout that failed and why.</exception>
    public static RecordedComparison Record(
        StudyCase study,
        IProgress<int>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        return new RecordedComparison(study, SideBySide.Run(study.Layouts.Length, i => RecordLayout(study, study.Layouts[i], cancellation), progress, cancellation));
    }

    /// <summary>Runs one layout.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, of the case or not.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="StudyException">The run could not be finished.</exception>
    public static LayoutResult RunLayout(StudyCase study, DamperLayout layout, CancellationToken cancellation = default) =>
        ResultOf(study, Run(study, layout, withDistributions: true, null, null, cancellation));

    /// <summary>Runs one layout and records its channels over time.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, of the case or not.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="StudyException">The run could not be finished.</exception>
    public static RecordedLayout RecordLayout(StudyCase study, DamperLayout layout, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        TimeHistoryRecorder? history = null, corner = null;
        var figures = Run(
            study,
            layout,
            withDistributions: true,
            equations => history = new TimeHistoryRecorder(equations, study.Manoeuvre.Duration, study.HistoryRate),
            equations => corner = new TimeHistoryRecorder(equations, study.Manoeuvre.Cornering.Alone.Duration, study.HistoryRate, [Channel.BodyRoll]),
            cancellation);
        return new RecordedLayout(
            ResultOf(study, figures), history!.ToHistory(), figures.Metrics.RollResponse?.Failure is null ? corner?.ToHistory() : null);
    }

    /// <summary>Runs one layout for the single figures of its run only, as sweeps need them; they are the same to the last digit.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, of the case or not.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="StudyException">The run could not be finished.</exception>
    public static LayoutFigures RunFigures(StudyCase study, DamperLayout layout, CancellationToken cancellation = default) =>
        Run(study, layout, withDistributions: false, null, null, cancellation);

    /// <summary>Adds to a run's figures what the case asks of the layout besides.</summary>
    private static LayoutResult ResultOf(StudyCase study, LayoutFigures figures)
    {
        var layout = figures.Car.Layout;
        return new LayoutResult
        {
            Car = figures.Car,
            Metrics = figures.Metrics,
            Ride = figures.Ride,
            Statistics = figures.Statistics,
            ReferenceModes = figures.ReferenceModes,
            ModesByVelocity = ModesByVelocity(layout.Name, figures.Car, study.Analysis),
            Window = study.Targets is { } targets ? Named(layout.Name, () => WindowVerdict.Of(figures.Car, targets, study.Analysis.IncludeFriction)) : null,
            Warnings = figures.Warnings,
        };
    }

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
            results[i].Failure = Attempt(runs[i].Layout.Name, () => started[i] = new LayoutRun(runs[i].Study, runs[i].Layout, withDistributions: false));
        MeasuredRun.MakeAll([.. started.OfType<LayoutRun>().Select(run => run.Measured)], cancellation);
        for (var i = 0; i < runs.Count; i++)
        {
            if (started[i] is { } run)
                results[i].Failure = Attempt(runs[i].Layout.Name, () => results[i].Figures = run.ToFigures());
        }

        return [.. results];
    }

    private static LayoutFigures Run(
        StudyCase study,
        DamperLayout layout,
        bool withDistributions,
        Func<HalfCarEquations, IStepObserver>? observer,
        Func<HalfCarEquations, IStepObserver>? cornerObserver,
        CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        return Named(layout.Name, () =>
        {
            var run = new LayoutRun(study, layout, withDistributions, observer, cornerObserver);
            run.Measured.Make(cancellation);
            return run.ToFigures();
        });
    }

    /// <summary>One layout's run, from its preparation to its figures.</summary>
    private sealed class LayoutRun
    {
        private readonly StudyCase _study;
        private readonly AssembledHalfCar _car;
        private readonly ModeSet _reference;

        public LayoutRun(
            StudyCase study,
            DamperLayout layout,
            bool withDistributions,
            Func<HalfCarEquations, IStepObserver>? observer = null,
            Func<HalfCarEquations, IStepObserver>? cornerObserver = null)
        {
            _study = study;
            _car = study.Assemble(layout);
            _reference = ModesAt(LinearHalfCar.AtRest(_car), layout.Damper, study.Analysis.ReferenceVelocity, study.Analysis.IncludeFriction);
            Measured = new MeasuredRun(_car, study.Manoeuvre, study.Solver, withDistributions) { Observer = observer, CornerObserver = cornerObserver };
        }

        public MeasuredRun Measured { get; }

        public LayoutFigures ToFigures()
        {
            if (Measured.Failure is { } failure)
                ExceptionDispatchInfo.Throw(failure);
            var metrics = Measured.Metrics;
            return new LayoutFigures(_car, metrics, Measured.Ride, _reference, Measured.Statistics!, RunWarnings.Of(_car, _study.Manoeuvre, metrics));
        }
    }

    private static ImmutableArray<ModesAtVelocity> ModesByVelocity(string layout, AssembledHalfCar car, AnalysisSettings settings) => Named(layout, () =>
    {
        var linear = LinearHalfCar.AtRest(car);
        return settings.Velocities.Select(v => new ModesAtVelocity(v, ModesAt(linear, car.Layout.Damper, v, settings.IncludeFriction))).ToImmutableArray();
    });

    private static ModeSet ModesAt(LinearHalfCar linear, Damper damper, double velocity, bool includeFriction) =>
        ModeFollower.Solve(linear, damper.EquivalentCoefficient(velocity, DampingDirection.Both, includeFriction));

    /// <summary>Gives a failure the name of its layout.</summary>
    private static T Named<T>(string layout, Func<T> run)
    {
        try
        {
            return run();
        }
        catch (Exception e) when (IsOfTheLayout(e))
        {
            throw new StudyException(layout, e);
        }
    }

    /// <summary>Does something; a failure is the answer.</summary>
    private static StudyException? Attempt(string layout, Action action)
    {
        try
        {
            action();
            return null;
        }
        catch (Exception e) when (IsOfTheLayout(e))
        {
            return new StudyException(layout, e);
        }
    }

    private static bool IsOfTheLayout(Exception e) => e is IntegrationException or NoEquilibriumException or NoRestPositionException or UnstableBodyException or UnnamedModesException
        or UnreachableTravelException;
}

/// <summary>What the layouts of a case did.</summary>
/// <param name="Study">The case.</param>
/// <param name="Layouts">One result a layout, in the order of the case; at least one.</param>
public sealed record ComparisonResult(StudyCase Study, ImmutableArray<LayoutResult> Layouts);

/// <summary>What the layouts of a case did, with their channels over time.</summary>
/// <param name="Study">The case.</param>
/// <param name="Layouts">One result a layout, in the order of the case; at least one.</param>
public sealed record RecordedComparison(StudyCase Study, ImmutableArray<RecordedLayout> Layouts)
{
    /// <summary>The same as what serves where no channels over time are needed.</summary>
    public ComparisonResult Result => new(Study, ImmutableArray<LayoutResult>.CastUp(Layouts));
}

/// <summary>A study could not be finished.</summary>
public sealed class StudyException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="layout">Name of the layout whose run failed.</param>
    /// <param name="cause">Why.</param>
    public StudyException(string layout, Exception cause)
        : this($"Layout '{layout}': {cause?.Message}", layout, cause!)
    {
    }

    /// <summary>Joins several failures, one line each; of many the first ones and how many more there are.</summary>
    /// <param name="failures">The failures, at least one, in the order of the runs.</param>
    public StudyException(IReadOnlyList<StudyException> failures)
        : this(Joined(failures), failures[0].Layout, failures[0])
    {
    }

    private StudyException(string message, string? layout, Exception cause)
        : this([message], layout, cause)
    {
    }

    private StudyException(ImmutableArray<string> lines, string? layout, Exception cause)
        : base(string.Join('\n', lines), cause) => (Lines, Layout) = (lines, layout);

    /// <summary>The message by its lines, one a failure; a name in a line may hold characters that break it.</summary>
    public ImmutableArray<string> Lines { get; }

    /// <summary>Name of the layout whose run failed; of several, the first; null where it was not that of one layout.</summary>
    public string? Layout { get; }

    /// <summary>A failure of something that is no layout, or of one of several runs of a layout.</summary>
    /// <param name="what">What failed, as the beginning of a line.</param>
    /// <param name="cause">Why.</param>
    /// <param name="layout">Name of the layout; null if it was not that of one.</param>
    public static StudyException At(string what, Exception cause, string? layout = null)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return new StudyException($"{what}: {cause.Message}", layout, cause);
    }

    private static ImmutableArray<string> Joined(IReadOnlyList<StudyException> failures)
    {
        ArgumentNullException.ThrowIfNull(failures);
        const int shown = 8;
        var lines = failures.Take(shown).Select(failure => failure.Message);
        return [.. failures.Count > shown ? lines.Append(FormattableString.Invariant($"and {failures.Count - shown} more runs")) : lines];
    }
}
