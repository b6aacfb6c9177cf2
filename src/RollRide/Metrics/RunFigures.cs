using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// The figures of a manoeuvre as they are gathered: what the gauges hold of each interval between two neighbouring ends of phases, from which those of a
/// phase, or of the whole run, are put together.
/// </summary>
internal sealed class RunFigures : LaneRunFigures
{
    // Fine enough to tell bleed from valve velocities apart.
    private const double VelocityBin = 0.05;

    private readonly Phase[] _later;
    private readonly List<(double Roll, double Rate)> _atStarts = [];
    private readonly HistogramAccumulator[]? _velocities;

    public RunFigures(MeasuredRun run)
        : base(run.Car, run.Manoeuvre, EndsOf(run.Manoeuvre))
    {
        var manoeuvre = run.Manoeuvre;
        // On a random road the roll at an instant is the road's, not what is left of an earlier phase.
        _later = manoeuvre.Road.Unevenness is null ? [.. manoeuvre.Phases.Where(phase => phase.Start > 0).OrderBy(phase => phase.Start)] : [];
        _velocities = run.WithDistributions ? Ends.Map(_ => new HistogramAccumulator(VelocityBin)) : null;
        Ride = RideRecorder.MeasuredSpan(manoeuvre) is null ? null : new RideRecorder(run.Car, manoeuvre, run.Seats);
    }

    /// <summary>What gathers the ride; null if there is none.</summary>
    private RideRecorder? Ride { get; }

    /// <inheritdoc/>
    public override void Add(StepView step)
    {
        while (_atStarts.Count < _later.Length && step.Start >= _later[_atStarts.Count].Start)
            _atStarts.Add((step[0, Channel.BodyRoll], step[0, Channel.BodyRollRate]));
        Ride?.Add(step);
        if (_velocities is not null)
            AddVelocities(step, _velocities[Interval]);
    }

    /// <inheritdoc/>
    public override void Add(WeightedMotion motion) => Ride!.Add(motion);

    /// <summary>The figures gathered.</summary>
    /// <param name="response">The roll response to the corner from rest; null where there is no corner.</param>
    public RunMetrics ToMetrics(RollResponse? response)
    {
        var run = new Phase("run", 0, Manoeuvre.Duration);
        var whole = Over(run);
        return new RunMetrics(ToMetrics(run, whole), [.. Manoeuvre.Phases.Select(phase => ToMetrics(phase, Over(phase)))], response)
        {
            MotionsLeft = response is null
                ? []
                : [.. _atStarts.Select((at, i) => MotionLeft.Of(_later[i], at.Roll, at.Rate, Car, Manoeuvre, response)).OfType<MotionLeft>()],
            Cavitations = Cavitation.Of(Car, whole),
            WheelLifts = WheelLift.Of(Manoeuvre, [.. Spells.Of(whole[PhaseMetric.LiftsLeft])], [.. Spells.Of(whole[PhaseMetric.LiftsRight])]),
        };
    }

    /// <summary>The figures of the ride; null where there is none to measure.</summary>
    public RideMetrics? ToRide() => RideRecorder.MeasuredSpan(Manoeuvre) is { } span ? Ride!.ToMetrics(ToMetrics(span, Over(span))) : null;

    private PhaseMetrics ToMetrics(Phase phase, Tallies tallies) =>
        new(phase, new PhaseTallies(tallies, Car, phase.End - phase.Start))
        {
            DamperVelocities = VelocitiesOver(phase),
        };

    private static double[] EndsOf(Manoeuvre manoeuvre)
    {
        List<double> ends = [manoeuvre.Duration];
        foreach (var phase in manoeuvre.Phases.Concat(new[] { RideRecorder.MeasuredSpan(manoeuvre) }.OfType<Phase>()))
            ends.AddRange(phase.Start > 0 ? [phase.Start, phase.End] : [phase.End]);
        return [.. Ascending.Once(ends)];
    }

    private static void AddVelocities(StepView step, HistogramAccumulator velocities)
    {
        for (var node = 0; node < GaussLobatto.Count; node++)
        {
            var seconds = step.Length * GaussLobatto.Weights[node];
            Add(step[node, Channel.DamperVelocityLeft], step[node, Channel.DamperForceLeft]);
            Add(step[node, Channel.DamperVelocityRight], step[node, Channel.DamperForceRight]);

            void Add(double velocity, double force) => velocities.Add(velocity, seconds, seconds * velocity * force);
        }
    }

    private Tallies Over(Phase phase)
    {
        var tallies = new Tallies(PhaseMetric.AllGauges.Length);
        foreach (var interval in IntervalsOf(phase))
            tallies.Add(PhaseMetric.AllGauges, Of(interval));
        return tallies;
    }

    private VelocityHistogram? VelocitiesOver(Phase phase)
    {
        if (_velocities is null)
            return null;
        var velocities = new HistogramAccumulator(VelocityBin);
        foreach (var interval in IntervalsOf(phase))
            velocities.Merge(_velocities[interval]);
        return velocities.ToVelocityHistogram();
    }

    private IEnumerable<int> IntervalsOf(Phase phase) =>
        Enumerable.Range(0, Ends.Length).Where(interval => Ends[interval] > phase.Start && Ends[interval] <= phase.End);
}
