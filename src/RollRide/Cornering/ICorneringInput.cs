namespace RollRide.Cornering;

/// <summary>
/// The lateral acceleration that the half-car is given over time, and the command behind it. Immutable and safe to share;
/// each run makes its own cursor.
/// </summary>
public interface ICorneringInput
{
    /// <summary>Times at which the input may have a kink or jump, s; finite, ascending.</summary>
    IReadOnlyList<double> Breakpoints { get; }

    /// <summary>The first instant at which the input may change, s; +∞ if it never does.</summary>
    double StartTime { get; }

    /// <summary>The steady lateral acceleration under the final command, m/s².</summary>
    double FinalLateralAcceleration { get; }

    /// <summary>The command after the last breakpoint, in the unit of <see cref="ICorneringCursor.Command"/>.</summary>
    double FinalCommand { get; }

    /// <summary>The same cornering by itself, moved to begin at time 0.</summary>
    /// <exception cref="InvalidOperationException">The input never changes.</exception>
    CornerAlone Alone { get; }

    /// <summary>How much later the rear axle of a vehicle with two has the same lateral acceleration, s; 0 where that follows from its side force, or both have it at once.</summary>
    double RearDelay => 0;

    /// <summary>Makes a cursor for one run.</summary>
    ICorneringCursor CreateCursor();

    /// <summary>
    /// Makes cursors for the two axles of a vehicle: the lateral acceleration <c>Y/m</c> of each comes from its own side force and the mass that it carries.
    /// </summary>
    (ICorneringCursor Front, ICorneringCursor Rear) CreateAxleCursors() => (CreateCursor(), CreateCursor());
}

/// <summary>Evaluates a cornering input along a run. Allocates nothing when used; not thread-safe: one per run.</summary>
public interface ICorneringCursor
{
    /// <summary>Says in which segment between two breakpoints the next evaluations lie, ends included.</summary>
    /// <param name="midpoint">A time strictly inside the segment, s.</param>
    void EnterSegment(double midpoint);

    /// <summary>Whether lateral acceleration and command keep their values throughout the segment entered last.</summary>
    bool IsHeld { get; }

    /// <summary>Lateral acceleration at the vehicle's centre of gravity, m/s²; positive in a left turn.</summary>
    /// <param name="time">Time in the segment entered last, s.</param>
    double LateralAcceleration(double time);

    /// <summary>
    /// What the driver or the file commands: the steering-wheel angle, rad, or the lateral acceleration itself, m/s².
    /// </summary>
    /// <param name="time">Time in the segment entered last, s.</param>
    double Command(double time);
}
