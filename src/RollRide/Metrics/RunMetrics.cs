using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>All figures of one run.</summary>
/// <param name="Whole">Over the whole run.</param>
/// <param name="Phases">Over each phase of the manoeuvre.</param>
/// <param name="RollResponse">The roll response to the cornering; null where there is none.</param>
public sealed record RunMetrics(PhaseMetrics Whole, ImmutableArray<PhaseMetrics> Phases, RollResponse? RollResponse)
{
    /// <summary>Each time that a side was wholly in the air, in the order of time.</summary>
    public ImmutableArray<WheelLift> WheelLifts { get; init; } = [];

    /// <summary>Whether a side was in the air while the vehicle was cornering: rollover risk.</summary>
    public bool LiftsWhileCornering => WheelLifts.Any(lift => lift.IsWhileCornering);

    /// <summary>Longest time for which a tyre of a side was in the air while the side was not, s; 0 with single tyres.</summary>
    public double OneTyreLiftOffTime => Whole.TyreLiftOffTimes.Max() is var longest && longest > Whole.LiftOffTime ? longest : 0;
}

/// <summary>
/// Takes the figures of a run from the solver's continuous solution, step by step, independently of any output rate. One per run;
/// not thread-safe.
/// </summary>
public sealed class MetricsRecorder : IStepObserver
{
    private readonly StepSamples _samples;
    private readonly PhaseRecorder _whole;
    private readonly PhaseRecorder[] _phases;
    private readonly ComfortSampler _comfort;
    private readonly RollResponseRecorder? _roll;
    private readonly Manoeuvre _manoeuvre;

    /// <summary>Prepares the figures of a run.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="manoeuvre">The manoeuvre being run; the integration must not step across the ends of its phases.</param>
    /// <exception cref="ArgumentException">A phase does not lie within the run.</exception>
    public MetricsRecorder(HalfCarEquations equations, Manoeuvre manoeuvre)
    {
        ArgumentNullException.ThrowIfNull(equations);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        _manoeuvre = manoeuvre;
        if (manoeuvre.Phases.FirstOrDefault(phase => phase.End > manoeuvre.Duration) is { } outside)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"Phase '{outside.Name}' ends at {outside.End} s, after the run, which ends at {manoeuvre.Duration} s."),
                nameof(manoeuvre));
        }

        _samples = new StepSamples(equations);
        _whole = new PhaseRecorder(equations.Car, new Phase("run", 0, manoeuvre.Duration));
        _phases = [.. manoeuvre.Phases.Select(phase => new PhaseRecorder(equations.Car, phase))];
        _comfort = new ComfortSampler([_whole, .. _phases]);
        _roll = manoeuvre.Cornering.StartTime < manoeuvre.Duration ? new RollResponseRecorder(equations.Car, manoeuvre) : null;
    }

    /// <inheritdoc/>
    public void Observe(IDenseStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        _samples.Load(step);
        _whole.Add(_samples);
        foreach (var phase in _phases)
            phase.Add(_samples);
        _comfort.Add(_samples);
        _roll?.Add(_samples);
    }

    /// <summary>The figures gathered.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its end: figures of a part of it would mislead.</exception>
    public RunMetrics ToMetrics() => _samples.End != _manoeuvre.Duration
        ? throw new InvalidOperationException(FormattableString.Invariant($"The run was observed until {_samples.End} s only; it ends at {_manoeuvre.Duration} s."))
        : new(_whole.ToMetrics(), [.. _phases.Select(phase => phase.ToMetrics())], _roll?.ToResponse()) { WheelLifts = _whole.WheelLifts(_manoeuvre) };
}
