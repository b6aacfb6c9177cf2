using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// Takes all figures of a run: those of <see cref="MetricsRecorder"/> and, where there is a ride to measure, those of <see cref="RideRecorder"/>, from one
/// set of samples a step. One per run; not thread-safe.
/// </summary>
public sealed class RunRecorder : ISeriesObserver
{
    private readonly MetricsRecorder _metrics;
    private readonly RideRecorder? _ride;
    private readonly HalfCarEquations _equations;
    private StepSampler? _sampler;

    /// <summary>Prepares the figures of a run.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="manoeuvre">The manoeuvre being run; the integration must not step across the ends of its phases.</param>
    /// <param name="withDistributions">Whether to gather the distributions of the run and its phases over time besides single figures.</param>
    /// <exception cref="ArgumentException">A phase does not lie within the run.</exception>
    public RunRecorder(HalfCarEquations equations, Manoeuvre manoeuvre, bool withDistributions = true)
    {
        ArgumentNullException.ThrowIfNull(equations);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        _metrics = new MetricsRecorder(equations, manoeuvre, withDistributions);
        _ride = RideRecorder.MeasuredSpan(manoeuvre) is null ? null : new RideRecorder(equations, manoeuvre);
        _equations = equations;
    }

    /// <inheritdoc/>
    public void Observe(IDenseStep step) =>
        (_sampler ??= _ride is null ? new StepSampler(_equations, _metrics) : new StepSampler(_equations, _metrics, _ride)).Observe(step);

    // The ride's figures are gathered step by step only: its roads have no series.
    bool ISeriesObserver.TakesSeries => _ride is null;

    ISeriesGatherer ISeriesObserver.NewGatherer<T>(SeriesSolver<T> solver) => ((ISeriesObserver)_metrics).NewGatherer(solver);

    void ISeriesObserver.Enter(ISeriesGatherer gatherer, int lane) => ((ISeriesObserver)_metrics).Enter(gatherer, lane);

    /// <summary>The figures of the run and its phases.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its end: figures of a part of it would mislead.</exception>
    public RunMetrics ToMetrics() => _metrics.ToMetrics();

    /// <summary>The figures of the ride; null where there is none to measure.</summary>
    /// <exception cref="InvalidOperationException">The run ended before anything was measured.</exception>
    public RideMetrics? ToRide() => _ride?.ToMetrics();
}
