namespace RollRide.Numerics;

/// <summary>
/// Chooses the next step from the errors of this step and the one before (a PI controller), so that the step size settles
/// instead of alternating between too long and too short. Not thread-safe: one per run.
/// </summary>
/// <remarks>
/// K. Gustafsson, Control theoretic techniques for stepsize selection in explicit Runge-Kutta methods, ACM Trans. Math.
/// Softw. 17, 1991; form and constants as E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential Equations I,
/// 2nd ed. 1993, section II.4, and E. Hairer, G. Wanner, volume II, 1996, section IV.2 (from memory). An error is in units of the tolerance: a step passes at 1 or less.
/// </remarks>
public sealed class PiStepController
{
    /// <summary>Aims a little below the tolerance, because a rejected step costs more than a slightly short one.</summary>
    private const double Safety = 0.9;

    /// <summary>Exponent of the error of a method of order 5 with an estimate of order 4: the local error goes as h⁵.</summary>
    private const double PlainExponent = 1.0 / 5;

    /// <summary>Weight of the error before: damps oscillation of the step where stability, not accuracy, limits it.</summary>
    private const double PreviousErrorExponent = 0.04;

    /// <summary>Exponent of the present error, reduced so that both together act about as the plain one.</summary>
    private const double PresentErrorExponent = PlainExponent - 0.75 * PreviousErrorExponent;

    /// <summary>A step shrinks at most to this fraction: a single bad error estimate says little about how much is needed.</summary>
    private const double LargestShrink = 0.2;

    /// <summary>A step grows at most by this factor: a very small error estimate may be luck.</summary>
    private const double LargestGrowth = 5;

    /// <summary>An error below this is remembered as this, so that one lucky step does not hold back the next.</summary>
    private const double SmallestRememberedError = 1e-4;

    private double _previousError = SmallestRememberedError;
    private bool _rejected;

    /// <summary>Forgets the past, as at a kink of the right-hand side.</summary>
    public void Restart()
    {
        _previousError = SmallestRememberedError;
        _rejected = false;
    }

    /// <summary>The step to follow an accepted step.</summary>
    /// <param name="step">The accepted step, s.</param>
    /// <param name="error">Its error over tolerance, 0 to 1.</param>
    public double AfterAccepted(double step, double error)
    {
        double factor = Safety * Math.Pow(error, -PresentErrorExponent) * Math.Pow(_previousError, PreviousErrorExponent);
        // Directly after a rejection the step does not grow, or it would run into the same obstacle again.
        factor = Math.Clamp(factor, LargestShrink, _rejected ? 1 : LargestGrowth);
        _previousError = Math.Max(error, SmallestRememberedError);
        _rejected = false;
        return step * factor;
    }

    /// <summary>The step to try instead of a rejected one.</summary>
    /// <param name="step">The rejected step, s.</param>
    /// <param name="error">Its error over tolerance, above 1, or not finite.</param>
    public double AfterRejected(double step, double error)
    {
        _rejected = true;
        return double.IsFinite(error)
            ? step * Math.Max(LargestShrink, Safety * Math.Pow(error, -PlainExponent))
            : step * LargestShrink;
    }
}
