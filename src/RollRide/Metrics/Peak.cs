using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The largest value of a quantity and when it was reached, found on the continuous solution.</summary>
internal struct Peak<TQuantity>(TQuantity quantity)
    where TQuantity : struct, IQuantity
{
    // Relative to how far the step falls from its highest node. Where the solution agrees so well with the polynomial, it has its peak there
    // too; where the two differ by more than is usual for a smooth function, the step hides a kink.
    private const double Same = 1e-7, Predicted = 1e-5, Smooth = 1e-2;

    // Of the time of a peak with a kink, relative to the span between two nodes; the step falls but by a few hundredths of the peak over it.
    private const double KinkAccuracy = 1e-6;

    // Share of the mean slope next to an end that the slope at the end must keep to show that the peak lies beyond.
    private const double Outwards = 0.2;

    // As a share of the span searched: close enough for the polynomial's third derivative not to matter, far enough for rounding not to.
    private const double Beside = 0.02;

    // A peak more than twice as high as the highest node is none that the step resolves.
    private const double Resolved = 0.5;

    // Nothing to look at where no node is above.
    private double _screen = double.NegativeInfinity;

    /// <summary>The largest value so far.</summary>
    public double Value { get; private set; } = double.NegativeInfinity;

    /// <summary>When it was reached, s.</summary>
    public double Time { get; private set; } = double.NaN;

    /// <summary>Adds a step.</summary>
    /// <param name="step">The step.</param>
    /// <param name="values">The quantity at its nodes.</param>
    public void Add(StepView step, ReadOnlySpan<double> values)
    {
        var best = 0;
        for (var node = 1; node < values.Length; node++)
            best = values[node] > values[best] ? node : best;
        var highest = values[best];
        if (!(highest > _screen))
            return;
        Take(step.Time(best), highest);
        const int last = GaussLobatto.Count - 1;
        var (before, after) = (Math.Max(0, best - 1), Math.Min(last, best + 1));
        var fall = highest - Math.Min(values[before], values[after]);
        if (!(fall > 0 && highest + fall > Value))
            return;

        // Where an end of the step is highest, it rises within only if it does not rise beyond that end.
        var third = best == 0 ? 2 : last - 2;
        if ((best != 0 && best != last) || GaussLobatto.OutwardSlope(highest, highest - fall, values[third]) * GaussLobatto.Fractions[1] <= Outwards * fall)
            Search(step, values, best, fall);
    }

    /// <summary>Takes a value that was reached into account.</summary>
    /// <param name="time">When, s.</param>
    /// <param name="value">The value.</param>
    public void Take(double time, double value)
    {
        if (!(value > Value))
            return;
        (Value, Time) = (value, time);
        _screen = value >= 0 ? Resolved * value : double.NegativeInfinity;
    }

    private void Search(StepView step, ReadOnlySpan<double> values, int best, double fall)
    {
        var fractions = GaussLobatto.Fractions;
        var (from, to) = (fractions[Math.Max(0, best - 1)], fractions[Math.Min(GaussLobatto.Count - 1, best + 1)]);
        Span<double> slopes = stackalloc double[GaussLobatto.Count];
        GaussLobatto.WriteSlopes(values, slopes);
        var summit = GaussLobatto.Summit(slopes, from, to);
        var expected = GaussLobatto.Interpolate(values, summit);
        if (values[best] + (2 * (expected - values[best])) + (0.1 * fall) <= Value)
            return;

        var aside = Beside * (to - from);
        var found = TakeAt(step, summit);
        var error = Math.Abs(found - expected);
        if (error <= Same * fall)
            return;
        if (error <= Smooth * fall && summit - aside >= 0 && summit + aside <= 1)
        {
            // A step of Newton's: the polynomial gives the small third derivative, the solution itself the slope and the curvature.
            var (left, right) = (TakeAt(step, summit - aside), TakeAt(step, summit + aside));
            var (before, after) = (GaussLobatto.Interpolate(values, summit - aside), GaussLobatto.Interpolate(values, summit + aside));
            var slope = ((right - after) - (left - before)) / (2 * aside);
            var curvature = (left - (2 * found) + right) / (aside * aside);
            var move = -slope / curvature;
            if (curvature < 0 && Math.Abs(move) <= to - from && summit + move is >= 0 and <= 1)
            {
                var predicted = found + (0.5 * slope * move);
                if (Math.Abs(TakeAt(step, summit + move) - predicted) <= Predicted * fall)
                    return;
            }
        }

        var (time, value) = step.Highest(quantity, step.TimeAt(from), step.TimeAt(to), KinkAccuracy);
        Take(time, value);
    }

    private double TakeAt(StepView step, double fraction)
    {
        var time = step.TimeAt(fraction);
        var value = step.At(quantity, time);
        Take(time, value);
        return value;
    }
}
