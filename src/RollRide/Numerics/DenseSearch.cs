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
    /// The largest value of a function that rises to a single maximum in the span, by golden section; the ends count too.
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
        return Maximum(new Asked(f), a, b, accuracy);
    }

    /// <summary>As <see cref="Maximum(Func{double, double}, double, double, double)"/>, for a function that is a struct: allocates nothing.</summary>
    internal static (double Time, double Value) Maximum<TFunction>(in TFunction f, double a, double b, double accuracy)
        where TFunction : struct, ITimeFunction
    {
        CheckSpan(a, b);
        const double Golden = 0.6180339887498949; // (√5 − 1)/2
        double low = a, high = b;
        double left = high - Golden * (high - low), right = low + Golden * (high - low);
        double atLeft = f.At(left), atRight = f.At(right);
        while (high - low > accuracy * (b - a) && low < left && left < right && right < high)
        {
            if (atLeft > atRight)
            {
                (high, right, atRight) = (right, left, atLeft);
                left = high - Golden * (high - low);
                atLeft = f.At(left);
            }
            else
            {
                (low, left, atLeft) = (left, right, atRight);
                right = low + Golden * (high - low);
                atRight = f.At(right);
            }
        }

        var best = atLeft > atRight ? (Time: left, Value: atLeft) : (Time: right, Value: atRight);
        foreach (double end in (ReadOnlySpan<double>)[a, b])
        {
            double value = f.At(end);
            if (value > best.Value) best = (end, value);
        }

        return best;
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
