using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Metrics.Lanes;
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
public sealed class MetricsRecorder : ISeriesObserver, IStepConsumer
{
    private readonly HalfCarEquations _equations;
    private readonly Manoeuvre _manoeuvre;
    private readonly bool _withDistributions;
    private readonly IntervalRecorder[] _intervals;
    private StepSampler? _sampler;
    private int _now;
    private double _observed;

    /// <summary>Prepares the figures of a run.</summary>
    /// <param name="equations">The equations being integrated.</param>
    /// <param name="manoeuvre">The manoeuvre being run; the integration must not step across the ends of its phases.</param>
    /// <param name="withDistributions">Whether to gather distributions over time besides single figures.</param>
    /// <exception cref="ArgumentException">A phase does not lie within the run.</exception>
    public MetricsRecorder(HalfCarEquations equations, Manoeuvre manoeuvre, bool withDistributions = true)
    {
        ArgumentNullException.ThrowIfNull(equations);
        ArgumentNullException.ThrowIfNull(manoeuvre);
        if (manoeuvre.Phases.FirstOrDefault(phase => phase.End > manoeuvre.Duration) is { } outside)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"Phase '{outside.Name}' ends at {outside.End} s, after the run, which ends at {manoeuvre.Duration} s."),
                nameof(manoeuvre));
        }

        _equations = equations;
        _manoeuvre = manoeuvre;
        _withDistributions = withDistributions;
        List<double> ends = [manoeuvre.Duration];
        foreach (var phase in manoeuvre.Phases)
            ends.AddRange(phase.Start > 0 ? [phase.Start, phase.End] : [phase.End]);
        _intervals = [.. Ascending.Once(ends).ConvertAll(end => new IntervalRecorder(equations.Car, end, withDistributions))];
        Roll = manoeuvre.Cornering.StartTime < manoeuvre.Duration ? new RollResponseRecorder(equations.Car, manoeuvre) : null;
    }

    /// <inheritdoc/>
    public void Observe(IDenseStep step) => (_sampler ??= new StepSampler(_equations, this)).Observe(step);

    /// <summary>The figures gathered.</summary>
    /// <exception cref="InvalidOperationException">The run did not reach its end: figures of a part of it would mislead.</exception>
    public RunMetrics ToMetrics()
    {
        if (_observed != _manoeuvre.Duration)
            throw new InvalidOperationException(FormattableString.Invariant($"The run was observed until {_observed} s only; it ends at {_manoeuvre.Duration} s."));
        var run = new Phase("run", 0, _manoeuvre.Duration);
        var whole = Merged(run);
        return new RunMetrics(whole.ToMetrics(run), [.. _manoeuvre.Phases.Select(phase => Merged(phase).ToMetrics(phase))], Roll?.ToResponse())
        {
            WheelLifts = whole.WheelLifts(_manoeuvre),
        };
    }

    /// <summary>Vehicle and layout.</summary>
    internal AssembledHalfCar Car => _equations.Car;

    /// <summary>What gathers the response to the corner; null if there is none.</summary>
    internal RollResponseRecorder? Roll { get; }

    /// <summary>The interval that the run begins in.</summary>
    internal IntervalRecorder FirstInterval => _intervals[0];

    /// <summary>The interval that follows another one.</summary>
    internal IntervalRecorder IntervalAfter(IntervalRecorder interval) => _intervals[Array.IndexOf(_intervals, interval) + 1];

    /// <summary>Notes until when the run was observed, s.</summary>
    internal void Complete(double end) => _observed = end;

    bool ISeriesObserver.TakesSeries => true;

    ISeriesGatherer ISeriesObserver.NewGatherer<T>(SeriesSolver<T> solver) => new LaneFigures<T>(solver);

    void ISeriesObserver.Enter(ISeriesGatherer gatherer, int lane) => ((ILaneFigures)gatherer).Enter(lane, this);

    void IStepConsumer.Add(StepSamples step)
    {
        var middle = 0.5 * (step.Start + step.End);
        while (middle > _intervals[_now].End)
            _now++;
        _intervals[_now].Add(step);
        Roll?.Add(step);
        _observed = step.End;
    }

    void IStepConsumer.Add(MotionSamples samples) => _intervals[_now].Add(samples);

    /// <summary>The figures of a phase, from the intervals it is made of.</summary>
    private IntervalRecorder Merged(Phase phase)
    {
        var intervals = Array.FindAll(_intervals, interval => interval.End > phase.Start && interval.End <= phase.End);
        return intervals is [var only] ? only : IntervalRecorder.Merge(Car, phase, intervals, _withDistributions);
    }
}
