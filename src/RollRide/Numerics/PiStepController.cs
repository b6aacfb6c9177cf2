namespace RollRide.Numerics;

/// <summary>
/// Chooses the next step from the errors of this step and the one before (a PI controller), so that the step size settles
/// instead of alternating between too long and too short; for as many runs side by side as there are lanes. Not thread-safe.
/// </summary>
/// <remarks>
/// K. Gustafsson, Control theoretic techniques for stepsize selection in explicit Runge-Kutta methods, ACM Trans. Math.
/// Softw. 17, 1991; form and constants as E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential Equations I,
/// 2nd ed. 1993, section II.4, and E. Hairer, G. Wanner, volume II, 1996, section IV.2 (from memory). An error is in units of the tolerance: a step passes at 1 or less.
/// Powers are taken to a few per cent only, which the safety factor covers.
/// </remarks>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class PiStepController<T>
    where T : struct, ILanes<T>
{
    /// <summary>Aims a little below the tolerance, because a rejected step costs more than a slightly short one.</summary>
    private const double Safety = 0.9;

    /// <summary>Exponent of the error of a method of order 5 with an estimate of order 4: the local error goes as h⁵.</summary>
    private const double PlainExponent = 1.0 / 5;

    /// <summary>Weight of the error before: damps oscillation of the step where stability, not accuracy, limits it, and where a kink was just passed. With half of it twice as many steps are rejected.</summary>
    private const double PreviousErrorExponent = 0.08;

    /// <summary>Exponent of the present error, reduced so that both together act about as the plain one.</summary>
    private const double PresentErrorExponent = PlainExponent - 0.75 * PreviousErrorExponent;

    /// <summary>A step shrinks at most to this fraction: a single bad error estimate says little about how much is needed.</summary>
    private const double LargestShrink = 0.2;

    /// <summary>A step grows at most by this factor: a very small error estimate may be luck.</summary>
    private const double LargestGrowth = 5;

    /// <summary>An error below this is remembered as this, so that one lucky step does not hold back the next.</summary>
    private const double SmallestRememberedError = 1e-4;

    private readonly LaneBuffer<T> _previousError = new(1);
    private int _rejected;

    /// <summary>Forgets the past, as at a kink of the right-hand side.</summary>
    /// <param name="lanes">A bit for each lane that forgets.</param>
    public void Restart(int lanes)
    {
        _previousError[0] = T.Where(lanes, T.All(SmallestRememberedError), _previousError[0]);
        _rejected &= ~lanes;
    }

    /// <summary>The steps to follow.</summary>
    /// <param name="step">The steps tried, s.</param>
    /// <param name="error">Their errors over tolerance; may be no numbers where a step was rejected.</param>
    /// <param name="accepted">A bit for each lane whose step was accepted; in the others it is to be tried again, shorter.</param>
    public T Next(in T step, in T error, int accepted)
    {
        // Directly after a rejection the step does not grow, or it would run into the same obstacle again.
        var largest = T.Where(_rejected, T.All(1), T.All(LargestGrowth));
        // A processor gives a result that is no number either sign; with its sign it would pass for a tiny error.
        var logarithm = T.RoughLog2(T.Abs(error));
        var power = T.Fma(T.RoughLog2(_previousError[0]), T.All(PreviousErrorExponent), logarithm * T.All(-PresentErrorExponent));
        var onward = T.Min(T.Max(T.All(Safety) * T.RoughExp2(power), T.All(LargestShrink)), largest);
        var back = T.Max(T.All(Safety) * T.RoughExp2(logarithm * T.All(-PlainExponent)), T.All(LargestShrink));
        _previousError[0] = T.Where(accepted, T.Max(error, T.All(SmallestRememberedError)), _previousError[0]);
        _rejected = ~accepted;
        return step * T.Where(accepted, onward, back);
    }
}
