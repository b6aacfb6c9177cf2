using MathNet.Numerics.RootFinding;

namespace RollRide.Numerics;

/// <summary>Finds instants on a continuous function of time, such as a component of a dense solution.</summary>
public static class DenseSearch
{
    private const double RelativeAccuracy = 1e-12;
    private const int MaximumIterations = 200;

    /// <summary>
    /// The instant at which a function passes through zero, by Brent's method, to about 1e-12 of the span.
    /// </summary>
    /// <param name="f">A continuous function of time.</param>
    /// <param name="a">Start of the span, s.</param>
    /// <param name="b">End of the span, s; after <paramref name="a"/>.</param>
    /// <returns>One zero in the span, s.</returns>
    /// <exception cref="ArgumentException">The function has the same sign at both ends, or the span is not in order.</exception>
    public static double Crossing(Func<double, double> f, double a, double b)
    {
        ArgumentNullException.ThrowIfNull(f);
        CheckSpan(a, b);
        double atA = f(a), atB = f(b);
        if (atA == 0) return a;
        if (atB == 0) return b;
        if (!((atA < 0 && atB > 0) || (atA > 0 && atB < 0)))
        {
            throw new ArgumentException(FormattableString.Invariant($"The function does not change sign between {a:R} s ({atA:R}) and {b:R} s ({atB:R})."), nameof(f));
        }

        // Brent stops when the value itself is below the accuracy, so the function is scaled to the order of one and time to 0…1.
        double scale = Math.Max(Math.Abs(atA), Math.Abs(atB));
        return a + (b - a) * Brent.FindRoot(u => f(a + (b - a) * u) / scale, 0, 1, RelativeAccuracy, MaximumIterations);
    }

    /// <summary>
    /// The largest value of a function that rises to a single maximum in the span; the ends count too.
    /// With several maxima it finds one of them: give a span around one sample that is larger than its neighbours.
    /// </summary>
    /// <remarks>
    /// A smooth maximum is flat, so rounding limits the time to about 1e-8 of the width of the peak; the value is exact to
    /// rounding. (MathNet's golden section widens the span or refuses when an end is the largest, so this is our own.)
    /// </remarks>
    /// <param name="f">A continuous function of time.</param>
    /// <param name="a">Start of the span, s.</param>
    /// <param name="b">End of the span, s; after <paramref name="a"/>.</param>
    /// <param name="accuracy">Accuracy of the time, relative to the span.</param>
    /// <returns>Time of the maximum, s, and its value.</returns>
    /// <exception cref="ArgumentException">The span is not in order.</exception>
    public static (double Time, double Value) Maximum(Func<double, double> f, double a, double b, double accuracy = RelativeAccuracy)
    {
        ArgumentNullException.ThrowIfNull(f);
        CheckSpan(a, b);
        var middle = 0.5 * (a + b);
        var best = MaximumWithin(new Asked(f), (a, b), (middle, f(middle)), accuracy);
        foreach (double end in (ReadOnlySpan<double>)[a, b])
        {
            double value = f(end);
            if (value > best.Value) best = (end, value);
        }

        return best;
    }

    /// <summary>As <see cref="Maximum"/>, but for the ends, from a place that is known, and of a function that is a struct: allocates nothing.</summary>
    /// <remarks>
    /// R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 5 (from memory): the top of the parabola through the three highest places, or the golden
    /// section of the longer side where that lies outside or the places do not close in.
    /// </remarks>
    internal static (double Time, double Value) MaximumWithin<TFunction>(in TFunction f, (double From, double To) span, (double Time, double Value) known, double accuracy)
        where TFunction : struct, ITimeFunction
    {
        const double Golden = 0.3819660112501051; // (3 − √5)/2
        var (a, b) = span;
        double closest = 0.5 * accuracy * (b - a) + 1e-15 * Math.Max(Math.Abs(a), Math.Abs(b));
        double best = known.Time, second = best, third = best;
        double atBest = known.Value, atSecond = atBest, atThird = atBest;
        double move = 0, moveBefore = 0;
        while (true)
        {
            double middle = 0.5 * (a + b);
            if (Math.Abs(best - middle) <= 2 * closest - 0.5 * (b - a)) return (best, atBest);
            double r = (best - second) * (atBest - atThird), q = (best - third) * (atBest - atSecond);
            double p = (best - third) * q - (best - second) * r, scale = 2 * (q - r);
            double before = moveBefore, top = best + p / -scale;
            moveBefore = move;
            if (Math.Abs(before) > closest && Math.Abs(top - best) < 0.5 * Math.Abs(before) && top > a && top < b)
            {
                move = top - best;
                if (top - a < 2 * closest || b - top < 2 * closest) move = Math.CopySign(closest, middle - best);
            }
            else
            {
                moveBefore = best < middle ? b - best : a - best;
                move = Golden * moveBefore;
            }

            double place = best + (Math.Abs(move) >= closest ? move : Math.CopySign(closest, move)), at = f.At(place);
            if (at >= atBest)
            {
                (a, b) = place >= best ? (best, b) : (a, best);
                (third, atThird, second, atSecond, best, atBest) = (second, atSecond, best, atBest, place, at);
                continue;
            }

            (a, b) = place < best ? (place, b) : (a, place);
            if (at >= atSecond || second == best)
                (third, atThird, second, atSecond) = (second, atSecond, place, at);
            else if (at >= atThird || third == best || third == second)
                (third, atThird) = (place, at);
        }
    }

    private static void CheckSpan(double a, double b)
    {
        Require.Finite(a, "s");
        Require.Finite(b, "s");
        if (b <= a) throw new ArgumentOutOfRangeException(nameof(b), b, FormattableString.Invariant($"b must be after a, {a:R} s."));
    }

    private readonly struct Asked(Func<double, double> f) : ITimeFunction
    {
        public double At(double time) => f(time);
    }
}

/// <summary>A function of time.</summary>
internal interface ITimeFunction
{
    /// <summary>Its value.</summary>
    /// <param name="time">Time, s.</param>
    double At(double time);
}
