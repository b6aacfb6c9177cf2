namespace RollRide.Dynamics.Series;

/// <summary>Finds where a quantity, given as a polynomial over a step, first reaches a bound. Allocates nothing.</summary>
internal static class KinkSearch
{
    /// <summary>
    /// A quantity that starts on its bound, to rounding, and leaves: the shortest step, s, so that the run goes on. What the
    /// force is wrong by in that time is its change of slope times so little velocity that it does not count.
    /// </summary>
    public const double ShortestStep = 1e-9;

    /// <summary>Bounds reached within this time, s, are reached together, as by both sides in pure heave.</summary>
    public const double SameInstant = 1e-12;

    private const int NewtonSteps = 60;

    private const int TurnSteps = 5;

    /// <summary>Parts of a step looked at one by one where a quantity turns round in it more than once.</summary>
    private const int Parts = 16;

    /// <summary>The first time in the step at which a quantity reaches a bound; +∞ if it does not.</summary>
    /// <param name="g">The quantity: coefficients of the powers of the time since the step's start, the constant first; at least two.</param>
    /// <param name="low">The lower bound.</param>
    /// <param name="high">The upper bound.</param>
    /// <param name="step">Length of the step, s.</param>
    /// <param name="rising">Whether it is the upper bound that is reached.</param>
    public static double FirstReach(ReadOnlySpan<double> g, double low, double high, double step, out bool rising)
    {
        var (end, endRate) = Evaluate(g, step);
        rising = end > high || (!(end < low) && g[1] > 0);
        var bound = rising ? high : low;
        var sign = rising ? 1 : -1;
        var shortest = Math.Min(ShortestStep, step);
        var leaves = sign * (end - bound) > 0;

        // On the bound already, to rounding, and on its way out.
        if (sign * (g[0] - bound) >= 0 && sign * g[1] >= 0)
            return leaves ? shortest : double.PositiveInfinity;
        if (leaves && sign * (g[0] - bound) < 0 && sign * g[1] > 0 && sign * endRate > 0)
            return Math.Max(shortest, Crossing(g, bound, sign, 0, step));

        // It turns round inside the step: does it reach the bound there?
        if (!leaves && sign * (g[0] - bound) < 0)
        {
            var turn = Turn(g, step, endRate);
            return sign * (Evaluate(g, turn).Value - bound) < 0 ? double.PositiveInfinity : Math.Max(shortest, Crossing(g, bound, sign, 0, turn));
        }

        // It turns round more than once, or comes from the bound: the first part of the step at whose end it is outside, having been inside.
        var wasInside = sign * (g[0] - bound) < 0;
        for (var part = 1; part <= Parts; part++)
        {
            var isInside = sign * (Evaluate(g, step * part / Parts).Value - bound) < 0;
            if (wasInside && !isInside)
                return Math.Max(shortest, Crossing(g, bound, sign, step * (part - 1) / Parts, step * part / Parts));
            wasInside |= isInside;
        }

        return leaves ? shortest : double.PositiveInfinity;
    }

    /// <summary>
    /// Where the polynomial turns round: where its rate passes through zero, by the chord. A small error of the place is a far smaller
    /// one of the value.
    /// </summary>
    private static double Turn(ReadOnlySpan<double> g, double step, double endRate)
    {
        var (from, fromRate, to, toRate) = (0.0, g[1], step, endRate);
        var time = 0.0;
        for (var i = 0; i < TurnSteps; i++)
        {
            time = from + ((to - from) * fromRate / (fromRate - toRate));
            var rate = Evaluate(g, time).Rate;
            if (rate > 0 == fromRate > 0)
                (from, fromRate, toRate) = (time, rate, 0.5 * toRate);
            else
                (to, toRate, fromRate) = (time, rate, 0.5 * fromRate);
        }

        return time;
    }

    /// <summary>Where the polynomial reaches a bound that it is inside of at one end and outside of at the other.</summary>
    private static double Crossing(ReadOnlySpan<double> g, double bound, int sign, double inside, double outside)
    {
        var (inValue, outValue) = (Evaluate(g, inside).Value, Evaluate(g, outside).Value);
        var time = inside + ((outside - inside) * Math.Clamp((bound - inValue) / (outValue - inValue), 0, 1));
        var (low, high) = (inside, outside);
        for (var i = 0; i < NewtonSteps; i++)
        {
            var (value, rate) = Evaluate(g, time);
            var excess = sign * (value - bound);
            if (excess > 0)
                high = time;
            else
                low = time;
            var next = time - ((value - bound) / rate);
            if (!(next > low && next < high))
                next = 0.5 * (low + high);
            if (Math.Abs(next - time) <= SameInstant * 1e-2)
                return next;
            time = next;
        }

        return time;
    }

    private static (double Value, double Rate) Evaluate(ReadOnlySpan<double> g, double time)
    {
        var (value, rate) = (g[^1], 0.0);
        for (var k = g.Length - 2; k >= 0; k--)
        {
            rate = Math.FusedMultiplyAdd(rate, time, value);
            value = Math.FusedMultiplyAdd(value, time, g[k]);
        }

        return (value, rate);
    }
}
