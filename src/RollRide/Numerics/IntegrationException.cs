namespace RollRide.Numerics;

/// <summary>The equations could not be integrated further; the message says when and which state is to blame.</summary>
public sealed class IntegrationException : ArithmeticException
{
    /// <summary>Makes the exception.</summary>
    /// <param name="message">What happened, in an engineer's words.</param>
    /// <param name="time">Time reached, s.</param>
    /// <param name="stateName">Name of the state to blame.</param>
    /// <param name="stepSize">The step tried last, s.</param>
    public IntegrationException(string message, double time, string stateName, double stepSize)
        : base(message)
    {
        Time = time;
        StateName = stateName;
        StepSize = stepSize;
    }

    /// <summary>Time reached, s.</summary>
    public double Time { get; }

    /// <summary>Name of the state that is not finite or whose error is largest.</summary>
    public string StateName { get; }

    /// <summary>The step tried last, s; zero if none was tried.</summary>
    public double StepSize { get; }

    /// <summary>An integration that had to stop.</summary>
    /// <param name="reason">Why.</param>
    /// <param name="time">Time reached, s.</param>
    /// <param name="stateName">Name of the state to blame.</param>
    /// <param name="step">The step tried last, s.</param>
    internal static IntegrationException Stopped(string reason, double time, string stateName, double step) => new(
        FormattableString.Invariant($"The simulation stopped at t = {time:G9} s: {reason} (step size {step:G3} s)."), time, stateName, step);
}
