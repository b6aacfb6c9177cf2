namespace RollRide.Numerics;

/// <summary>Is shown every accepted step of an integration, in order of time.</summary>
public interface IStepObserver
{
    /// <summary>
    /// Looks at one accepted step. The step is valid only during the call, and the system is still in the segment
    /// that the step lies in, so its right-hand side may be evaluated anywhere in the step.
    /// </summary>
    /// <param name="step">The step, with the solution everywhere in it.</param>
    void Observe(IDenseStep step);
}

/// <summary>One step of an integration, over which the solution is known as a continuous function.</summary>
public interface IDenseStep
{
    /// <summary>Time at the start of the step, s.</summary>
    double Start { get; }

    /// <summary>Time at the end of the step, s.</summary>
    double End { get; }

    /// <summary>Evaluates the continuous solution. Allocates nothing.</summary>
    /// <param name="time">Time, s, from <see cref="Start"/> to <see cref="End"/>.</param>
    /// <param name="state">Receives the states.</param>
    void StateAt(double time, Span<double> state);
}
