using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// Takes all figures of a run: those of <see cref="MetricsRecorder"/> and, where there is a ride to measure, those of <see cref="RideRecorder"/>, from one
/// set of samples a step. One per run; not thread-safe.
/// </summary>
public sealed class RunRecorder : IStepObserver
{
    private readonly MetricsRecorder _metrics;
    private readonly RideRecorder? _ride;
    private readonly StepSampler _sampler;

    /// <summary>Prepares the figures of a run.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="manoeuvre">The manoeuvre being run; the integration must not step across the ends of its phases.</param>
    /// <exception cref="ArgumentException">A phase does not lie within the run.</exception>
    public RunRecorder(HalfCarEquations equations, Manoeuvre manoeuvre)
    {
        ArgumentNullException.ThrowIfNull(equations);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        _metrics = new MetricsRecorder(equations, manoeuvre);
        _ride = RideRecorder.MeasuredSpan(manoeuvre) is null ? null : new RideRecorder(equations, manoeuvre);
        _sampler = _ride is null ? new StepSampler(equations, _metrics) : new StepSampler(equations, _metrics, _ride);
    }

    /// <inheritdoc/>
    public void Observe(IDenseStep step) => _sampler.Observe(step);

    /// <summary>The figures of the run and its phases.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its end: figures of a part of it would mislead.</exception>
    public RunMetrics ToMetrics() => _metrics.ToMetrics();

    /// <summary>The figures of the ride; null where there is none to measure.</summary>
    /// <exception cref="InvalidOperationException">The run ended before anything was measured.</exception>
    public RideMetrics? ToRide() => _ride?.ToMetrics();
}
