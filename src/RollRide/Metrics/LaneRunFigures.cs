using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The figures of one run as they are gathered from its steps: what the gauges hold of each interval of time, and what a kind of run gathers besides.</summary>
/// <param name="car">Vehicle and layout.</param>
/// <param name="manoeuvre">Road, cornering and duration.</param>
/// <param name="ends">Ends of the intervals, s, ascending; the last one is that of the run.</param>
internal abstract class LaneRunFigures(AssembledHalfCar car, Manoeuvre manoeuvre, double[] ends)
{
    private readonly Tallies[] _tallies = ends.Map(_ => new Tallies(PhaseMetric.AllGauges.Length));

    /// <summary>Vehicle and layout.</summary>
    public AssembledHalfCar Car { get; } = car;

    /// <summary>Road, cornering and duration.</summary>
    public Manoeuvre Manoeuvre { get; } = manoeuvre;

    /// <summary>Ends of the intervals, s, ascending.</summary>
    public double[] Ends { get; } = ends;

    /// <summary>What the gauges hold of the interval gathered now.</summary>
    public Tallies Now => _tallies[Interval];

    /// <summary>Number of the interval gathered now.</summary>
    protected int Interval { get; private set; }

    /// <summary>Goes on to the next interval.</summary>
    /// <returns>Its end, s.</returns>
    public double NextInterval() => Ends[++Interval];

    /// <summary>Whether nothing that follows can change the figures, so that the run may end.</summary>
    public virtual bool HasSeenEnough => false;

    /// <summary>Adds a step to what is not gathered side by side.</summary>
    public abstract void Add(StepView step);

    /// <summary>Adds a sample of the weighted motion of a ride.</summary>
    /// <param name="motion">The motion, standing at the sample.</param>
    public virtual void Add(WeightedMotion motion) => throw new NotSupportedException("This run measures no ride.");

    /// <summary>What the gauges hold of an interval.</summary>
    protected Tallies Of(int interval) => _tallies[interval];
}
