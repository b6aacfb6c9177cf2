using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>One run of a half-car through a manoeuvre, in whatever lane it gets.</summary>
/// <param name="car">Vehicle and layout.</param>
/// <param name="manoeuvre">Road, cornering and duration.</param>
/// <param name="options">Settings of the integrator.</param>
internal abstract class HalfCarRun(AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions options)
    : LaneRun(0, manoeuvre.Duration, manoeuvre.Breakpoints, options)
{
    /// <summary>Vehicle and layout.</summary>
    public AssembledHalfCar Car { get; } = car;

    /// <summary>Road, cornering and duration.</summary>
    public Manoeuvre Manoeuvre { get; } = manoeuvre;

    /// <summary>The states at rest at the start.</summary>
    /// <exception cref="NoEquilibriumException">The run starts within a turn in which the vehicle cannot stand.</exception>
    protected double[] RestState()
    {
        var cornering = Manoeuvre.Cornering.CreateCursor();
        cornering.EnterSegment(0.5 * SegmentEnds[0]);
        var ay = cornering.LateralAcceleration(0);
        return ay == 0
            ? new double[Car.StateCount]
            : StaticEquilibrium.Find(Car, ay).ToState(Car);
    }
}
