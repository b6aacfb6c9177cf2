using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// The figures of one run as they are gathered: what the gauges hold of each interval between two neighbouring ends of phases, from which those of a
/// phase, or of the whole run, are put together.
/// </summary>
internal sealed class RunFigures
{
    // Fine enough to tell bleed from valve velocities apart.
    private const double VelocityBin = 0.05;

    private readonly MeasuredRun _run;
    private readonly RollResponseRecorder? _roll;
    private readonly Tallies[] _tallies;
    private readonly ComfortAccumulator[] _atBody;
    private readonly ComfortAccumulator[] _atSeat;
    private readonly VelocityHistogramAccumulator[]? _velocities;
    private readonly WeightedMotion _motion;
    private int _interval;

    public RunFigures(MeasuredRun run)
    {
        _run = run;
        var manoeuvre = run.Manoeuvre;
        List<double> ends = [manoeuvre.Duration];
        foreach (var phase in manoeuvre.Phases)
            ends.AddRange(phase.Start > 0 ? [phase.Start, phase.End] : [phase.End]);
        Ends = [.. Ascending.Once(ends)];
        _tallies = Ends.Map(_ => new Tallies(PhaseMetric.AllGauges.Length));
        _atBody = Ends.Map(_ => new ComfortAccumulator(WeightedMotion.Rate));
        _atSeat = Ends.Map(_ => new ComfortAccumulator(WeightedMotion.Rate));
        _velocities = run.WithDistributions ? Ends.Map(_ => new VelocityHistogramAccumulator(VelocityBin)) : null;
        _motion = new WeightedMotion(run.Car.Vehicle.SeatOffset, inAllDirections: RideRecorder.MeasuredSpan(manoeuvre) is not null);
        _roll = manoeuvre.Cornering.StartTime < manoeuvre.Duration ? new RollResponseRecorder(run.Car, manoeuvre) : null;
        Ride = RideRecorder.MeasuredSpan(manoeuvre) is null ? null : new RideRecorder(run.Car, manoeuvre, run.Seats);
    }

    /// <summary>Vehicle and layout.</summary>
    public AssembledHalfCar Car => _run.Car;

    /// <summary>Road, cornering and duration.</summary>
    public Manoeuvre Manoeuvre => _run.Manoeuvre;

    /// <summary>Ends of the intervals, s, ascending.</summary>
    public double[] Ends { get; }

    /// <summary>What gathers the ride; null if there is none.</summary>
    public RideRecorder? Ride { get; }

    /// <summary>What the gauges hold of the interval gathered now.</summary>
    public Tallies Now => _tallies[_interval];

    /// <summary>Goes on to the next interval.</summary>
    /// <returns>Its end, s.</returns>
    public double NextInterval() => Ends[++_interval];

    /// <summary>Adds a step to what is not gathered side by side.</summary>
    public void Add(StepView step)
    {
        _roll?.Add(step);
        Ride?.Add(step);
        if (_velocities is not null)
            AddVelocities(step, _velocities[_interval]);
        _motion.Take(step);
        while (_motion.Next())
        {
            _atBody[_interval].Add(_motion.Body);
            _atSeat[_interval].Add(_motion.Seat);
            Ride?.Add(_motion);
        }
    }

    /// <summary>The figures gathered.</summary>
    public RunMetrics ToMetrics()
    {
        var run = new Phase("run", 0, Manoeuvre.Duration);
        var whole = Over(run);
        return new RunMetrics(ToMetrics(run, whole), [.. Manoeuvre.Phases.Select(phase => ToMetrics(phase, Over(phase)))], _roll?.ToResponse())
        {
            WheelLifts = WheelLift.Of(Manoeuvre, [.. Spells.Of(whole[PhaseMetric.LiftsLeft])], [.. Spells.Of(whole[PhaseMetric.LiftsRight])]),
        };
    }

    private PhaseMetrics ToMetrics(Phase phase, Tallies tallies) =>
        new(phase, new PhaseTallies(tallies, Car, phase.End - phase.Start, ComfortOver(phase, _atBody), ComfortOver(phase, _atSeat)))
        {
            DamperVelocities = VelocitiesOver(phase),
        };

    private static void AddVelocities(StepView step, VelocityHistogramAccumulator velocities)
    {
        for (var node = 0; node < GaussLobatto.Count; node++)
        {
            var seconds = step.Length * GaussLobatto.Weights[node];
            Add(step[node, Channel.DamperVelocityLeft], step[node, Channel.DamperForceLeft]);
            Add(step[node, Channel.DamperVelocityRight], step[node, Channel.DamperForceRight]);

            void Add(double velocity, double force) => velocities.Add(velocity, seconds, seconds * velocity * force);
        }
    }

    private Comfort ComfortOver(Phase phase, ComfortAccumulator[] intervals)
    {
        var comfort = new ComfortAccumulator(WeightedMotion.Rate);
        foreach (var interval in IntervalsOf(phase))
            comfort.Merge(intervals[interval]);
        return comfort.ToComfort();
    }

    private Tallies Over(Phase phase)
    {
        var tallies = new Tallies(PhaseMetric.AllGauges.Length);
        foreach (var interval in IntervalsOf(phase))
            tallies.Add(PhaseMetric.AllGauges, _tallies[interval]);
        return tallies;
    }

    private VelocityHistogram? VelocitiesOver(Phase phase)
    {
        if (_velocities is null)
            return null;
        var velocities = new VelocityHistogramAccumulator(VelocityBin);
        foreach (var interval in IntervalsOf(phase))
            velocities.Merge(_velocities[interval]);
        return velocities.ToHistogram();
    }

    private IEnumerable<int> IntervalsOf(Phase phase) =>
        Enumerable.Range(0, Ends.Length).Where(interval => Ends[interval] > phase.Start && Ends[interval] <= phase.End);
}
