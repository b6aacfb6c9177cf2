using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace RollRide.Metrics;

/// <summary>The largest value of a quantity and when it was reached, found on the continuous solution.</summary>
internal struct Peak<TQuantity>(TQuantity quantity)
    where TQuantity : struct, IQuantity
{
    // Relative to how far the step falls from its highest node. Where the solution agrees so well with the polynomial, it has its peak there
    // too; where the two differ by more than is usual for a smooth function, the step hides a kink.
    private const double Same = 1e-7, Predicted = 1e-5, Smooth = 1e-2;

    // As a share of the span searched: close enough for the polynomial's third derivative not to matter, far enough for rounding not to.
    private const double Beside = 0.02;

    /// <summary>The largest value so far.</summary>
    public double Value { get; private set; } = double.NegativeInfinity;

    /// <summary>When it was reached, s.</summary>
    public double Time { get; private set; } = double.NaN;

    /// <summary>Adds a step.</summary>
    public void Add(StepSamples step)
    {
        var values = quantity.Of(step.Nodes);

        // Beside its highest node a step rises by less than it falls from there.
        var reach = values + (values - Vector512.Create(Least(values)));
        if (Vector512.GreaterThanAny(reach, Vector512.Create(Value)))
            Look(step, values);
    }

    /// <summary>Takes the later of two spans of time into account.</summary>
    public void Merge(in Peak<TQuantity> later)
    {
        if (later.Value > Value)
            (Value, Time) = (later.Value, later.Time);
    }

    private static double Least(Vector512<double> values)
    {
        var four = Vector256.MinNative(values.GetLower(), values.GetUpper());
        var two = Vector128.MinNative(four.GetLower(), four.GetUpper());
        return Math.Min(two[0], two[1]);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Look(StepSamples step, Vector512<double> values)
    {
        var last = step.Rule.Count - 1;
        var best = 0;
        for (var node = 1; node <= last; node++)
        {
            if (values[node] > values[best])
                best = node;
        }

        Take(step.Time(best), values[best]);
        var (before, after) = (Math.Max(0, best - 1), Math.Min(last, best + 1));
        var fall = values[best] - Math.Min(values[before], values[after]);
        if (!(fall > 0 && values[best] + fall > Value))
            return;

        // Where an end of the step is highest, it rises beyond only if it falls towards that end.
        var fractions = step.Rule.Fractions;
        var slopes = step.Rule.Slopes(values);
        var outward = (fractions[after] - fractions[before]) * (best == 0 ? -slopes[0] : best == last ? slopes[last] : 0);
        if (outward <= 0.2 * fall)
            Search(step, values, slopes, best, fall);
    }

    /// <summary>Searches for a peak between the neighbours of the highest node.</summary>
    private void Search(StepSamples step, Vector512<double> values, Vector512<double> slopes, int best, double fall)
    {
        var rule = step.Rule;
        var (from, to) = (rule.Fractions[Math.Max(0, best - 1)], rule.Fractions[Math.Min(rule.Count - 1, best + 1)]);
        var summit = rule.Summit(slopes, from, to);
        var aside = Beside * (to - from);
        var expected = rule.Interpolate(values, Vector512.Create(summit, summit - aside, summit + aside, 0, 0, 0, 0, 0));
        if (values[best] + (2 * (expected[0] - values[best])) + (0.1 * fall) <= Value)
            return;

        var found = TakeAt(step, summit);
        var error = Math.Abs(found - expected[0]);
        if (error <= Same * fall)
            return;
        if (error <= Smooth * fall && summit - aside >= 0 && summit + aside <= 1)
        {
            // A step of Newton's: the polynomial gives the small third derivative, the solution itself the slope and the curvature.
            var (left, right) = (TakeAt(step, summit - aside), TakeAt(step, summit + aside));
            var slope = ((right - expected[2]) - (left - expected[1])) / (2 * aside);
            var curvature = (left - (2 * found) + right) / (aside * aside);
            var move = -slope / curvature;
            if (curvature < 0 && Math.Abs(move) <= to - from && summit + move is >= 0 and <= 1)
            {
                var predicted = found + (0.5 * slope * move);
                if (Math.Abs(TakeAt(step, summit + move) - predicted) <= Predicted * fall)
                    return;
            }
        }

        var (time, value) = step.Highest(quantity, step.TimeAt(from), step.TimeAt(to));
        Take(time, value);
    }

    private double TakeAt(StepSamples step, double fraction)
    {
        var time = step.TimeAt(fraction);
        var value = step.Value(quantity, time);
        Take(time, value);
        return value;
    }

    private void Take(double time, double value)
    {
        if (value > Value)
            (Value, Time) = (value, time);
    }
}
