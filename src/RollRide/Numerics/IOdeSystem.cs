namespace RollRide.Numerics;

/// <summary>A system of first-order ordinary differential equations, <c>ẏ = f(t, y)</c>.</summary>
/// <remarks>Implementations own their work arrays and are not thread-safe: make one per run.</remarks>
public interface IOdeSystem
{
    /// <summary>The number of states.</summary>
    int Dimension { get; }

    /// <summary>The name of a state as an engineer reads it, with its unit, for messages.</summary>
    /// <param name="index">Index of the state, 0 to <see cref="Dimension"/> − 1.</param>
    string StateName(int index);

    /// <summary>
    /// Tells the system that the evaluations that follow lie within one segment between two breakpoints, ends
    /// included, so that a function with a kink or jump at an end uses the branch that holds inside.
    /// </summary>
    /// <param name="start">Start of the segment, s.</param>
    /// <param name="end">End of the segment, s; greater than <paramref name="start"/>.</param>
    void EnterSegment(double start, double end);

    /// <summary>Evaluates the right-hand side. Allocates nothing.</summary>
    /// <param name="time">Time, s, within the segment entered last.</param>
    /// <param name="state">The states; length <see cref="Dimension"/>.</param>
    /// <param name="derivative">Receives their time derivatives; length <see cref="Dimension"/>.</param>
    void Derivatives(double time, ReadOnlySpan<double> state, Span<double> derivative);
}

/// <summary>Systems of first-order ordinary differential equations of one form, one in each lane, with parameters of its own.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal interface IOdeSystem<T>
    where T : struct, ILanes<T>
{
    /// <summary>The number of states.</summary>
    int Dimension { get; }

    /// <summary>The name of a state as an engineer reads it, with its unit, for messages.</summary>
    string StateName(int index);

    /// <summary>Tells a lane the segment between two breakpoints in which it is evaluated from now on, ends included.</summary>
    void EnterSegment(int lane, double start, double end);

    /// <summary>Evaluates the right-hand side of every lane. Allocates nothing.</summary>
    /// <param name="time">Time, s.</param>
    /// <param name="state">The states; length <see cref="Dimension"/>.</param>
    /// <param name="derivative">Receives their time derivatives; length <see cref="Dimension"/>.</param>
    void Derivatives(in T time, ReadOnlySpan<T> state, Span<T> derivative);

    /// <summary>Whether <see cref="TakeFault"/> can give a reason at all.</summary>
    bool HasFaults { get; }

    /// <summary>Takes the reason why a lane could not be evaluated, where the system knows more than that a number was not finite; null otherwise.</summary>
    Exception? TakeFault(int lane);
}
