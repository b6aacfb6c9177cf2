using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Runs the layouts of a case through its manoeuvre.</summary>
public static class Comparison
{
    /// <summary>Runs all layouts, side by side on the machine's cores; the result does not depend on how many there are.</summary>
    /// <param name="study">The case.</param>
    /// <param name="progress">Is told the number of layouts finished.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>One result a layout, in the order of the case.</returns>
    /// <exception cref="StudyException">A run could not be finished; the message names each layout that failed and why.</exception>
    public static ComparisonResult Run(
        StudyCase study,
        IProgress<int>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        var results = new LayoutResult[study.Layouts.Length];
        var done = 0;
        var failures = new StudyException?[study.Layouts.Length];
        Parallel.For(0, results.Length, new ParallelOptions { CancellationToken = cancellation }, i =>
        {
            try
            {
                results[i] = RunLayout(study, study.Layouts[i], cancellation);
            }
            catch (StudyException e)
            {
                // Every layout runs all the same: which ones fail must not depend on the order in which threads get there.
                failures[i] = e;
            }

            progress?.Report(Interlocked.Increment(ref done));
        });
        StudyException[] failed = [.. failures.OfType<StudyException>()];
        return failed.Length switch
        {
            0 => new ComparisonResult(study, [.. results]),
            1 => throw failed[0],
            _ => throw new StudyException(failed),
        };
    }

    /// <summary>Runs one layout.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, of the case or not.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="StudyException">The run could not be finished.</exception>
    public static LayoutResult RunLayout(StudyCase study, DamperLayout layout, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        try
        {
            var car = new AssembledHalfCar(study.Vehicle, layout);
            var (reference, byVelocity) = FindModes(car, study.Analysis);
            var simulation = new Simulation(car, study.Manoeuvre, study.Solver);
            var history = new TimeHistoryRecorder(simulation.Equations, study.Manoeuvre.Duration, study.HistoryRate);
            var metrics = new MetricsRecorder(simulation.Equations, study.Manoeuvre);
            var ride = study.Manoeuvre.Road.Unevenness is null ? null : new RideRecorder(simulation.Equations, study.Manoeuvre);
            IReadOnlyList<Numerics.IStepObserver> observers = ride is null ? [history, metrics] : [history, metrics, ride];
            var statistics = simulation.Run(observers, cancellation: cancellation);
            var figures = metrics.ToMetrics();
            return new LayoutResult
            {
                Car = car,
                Metrics = figures,
                Ride = ride?.ToMetrics(),
                History = history.ToHistory(),
                Statistics = statistics,
                ReferenceModes = reference,
                ModesByVelocity = byVelocity,
                Window = study.Targets is { } targets ? WindowVerdict.Of(car, targets, study.Analysis.IncludeFriction) : null,
                Warnings = RunWarnings.Of(car, study.Manoeuvre, figures),
            };
        }
        catch (Exception e) when (e is Numerics.IntegrationException or NoEquilibriumException or UnstableBodyException or UnnamedModesException
            or Mounting.UnreachableTravelException)
        {
            throw new StudyException(layout.Name, e);
        }
    }

    private static (ModeSet Reference, ImmutableArray<ModesAtVelocity> ByVelocity) FindModes(AssembledHalfCar car, AnalysisSettings settings)
    {
        var linear = LinearHalfCar.AtRest(car);
        ModeSet At(double velocity) => ModeFollower.Solve(
            linear,
            car.Layout.Damper.EquivalentCoefficient(velocity, DampingDirection.Both, settings.IncludeFriction));
        return (At(settings.ReferenceVelocity), [.. settings.Velocities.Select(v => new ModesAtVelocity(v, At(v)))]);
    }
}

/// <summary>What the layouts of a case did.</summary>
/// <param name="Study">The case.</param>
/// <param name="Layouts">One result a layout, in the order of the case; at least one.</param>
public sealed record ComparisonResult(StudyCase Study, ImmutableArray<LayoutResult> Layouts);

/// <summary>A study could not be finished.</summary>
public sealed class StudyException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="layout">Name of the layout whose run failed.</param>
    /// <param name="cause">Why.</param>
    public StudyException(string layout, Exception cause)
        : base($"Layout '{layout}': {cause?.Message}", cause) => Layout = layout;

    /// <summary>Joins the failures of several layouts, one line each.</summary>
    /// <param name="failures">The failures, at least one, in the order of the layouts.</param>
    public StudyException(IReadOnlyList<StudyException> failures)
        : base(string.Join('\n', failures.Select(failure => failure.Message)), failures?[0]) => Layout = failures![0].Layout;

    /// <summary>Name of the layout whose run failed; of several, the first.</summary>
    public string Layout { get; }
}
