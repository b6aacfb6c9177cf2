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
    private readonly Tallies[] _tallies;
    private readonly VelocityHistogramAccumulator[]? _velocities;

    public RunFigures(MeasuredRun run)
    {
        _run = run;
        var manoeuvre = run.Manoeuvre;
        List<double> ends = [manoeuvre.Duration];
        foreach (var phase in manoeuvre.Phases)
            ends.AddRange(phase.Start > 0 ? [phase.Start, phase.End] : [phase.End]);
        Ends = [.. Ascending.Once(ends)];
        _tallies = Ends.Map(_ => new Tallies(PhaseMetric.AllGauges.Length));
        _velocities = run.WithDistributions ? Ends.Map(_ => new VelocityHistogramAccumulator(VelocityBin)) : null;
        Roll = manoeuvre.Cornering.StartTime < manoeuvre.Duration ? new RollResponseRecorder(run.Car, manoeuvre) : null;
        Ride = RideRecorder.MeasuredSpan(manoeuvre) is null ? null : new RideRecorder(run.Car, manoeuvre, run.Seats);
    }

    /// <summary>Vehicle and layout.</summary>
    public AssembledHalfCar Car => _run.Car;

    /// <summary>Road, cornering and duration.</summary>
    public Manoeuvre Manoeuvre => _run.Manoeuvre;

    /// <summary>Ends of the intervals, s, ascending.</summary>
    public double[] Ends { get; }

    /// <summary>The interval gathered now.</summary>
    public int Interval { get; private set; }

    /// <summary>What gathers the response to the corner; null if there is none.</summary>
    public RollResponseRecorder? Roll { get; }

    /// <summary>What gathers the ride; null if there is none.</summary>
    public RideRecorder? Ride { get; }

    /// <summary>What the gauges hold of the interval gathered now.</summary>
    public Tallies Now => _tallies[Interval];

    /// <summary>Time and energy at each damper velocity in the interval gathered now; null if not wanted.</summary>
    public VelocityHistogramAccumulator? Velocities => _velocities?[Interval];

    /// <summary>Goes on to the next interval.</summary>
    /// <returns>Its end, s.</returns>
    public double NextInterval() => Ends[++Interval];

    /// <summary>The figures gathered.</summary>
    public RunMetrics ToMetrics()
    {
        var run = new Phase("run", 0, Manoeuvre.Duration);
        var whole = Over(run);
        return new RunMetrics(ToMetrics(run, whole), [.. Manoeuvre.Phases.Select(phase => ToMetrics(phase, Over(phase)))], Roll?.ToResponse())
        {
            WheelLifts = WheelLift.Of(Manoeuvre, [.. Spells.Of(whole[PhaseMetric.LiftsLeft])], [.. Spells.Of(whole[PhaseMetric.LiftsRight])]),
        };
    }

    private PhaseMetrics ToMetrics(Phase phase, Tallies tallies) =>
        new(phase, new PhaseTallies(tallies, Car, phase.End - phase.Start)) { DamperVelocities = VelocitiesOver(phase) };

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
