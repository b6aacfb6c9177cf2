using System.Numerics;
using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The largest value of a quantity and when it was reached, found on the continuous solution.</summary>
internal struct Peak<TQuantity>(TQuantity quantity)
    where TQuantity : struct, IQuantity
{
    // Relative to how far the step falls from its highest node. Where the solution agrees so well with the polynomial, it has its peak there
    // too; where the two differ by more than is usual for a smooth function, the step hides a kink.
    private const double Same = 1e-7, Predicted = 1e-5, Smooth = 1e-2;

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
    public void Add(StepSamples step)
    {
        var values = quantity.Of(step.Nodes);
        if (Octet.Greater(values, Octet.All(_screen)) == 0)
            return;

        // Beside its highest node a step rises by less than it falls from there.
        var reach = values + (values - Octet.All(GaussLobatto.Least(values)));
        if (Octet.Greater(reach, Octet.All(Value)) != 0)
            Look(step, values);
    }

    /// <summary>Takes the later of two spans of time into account.</summary>
    public void Merge(in Peak<TQuantity> later) => Take(later.Time, later.Value);

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

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Look(StepSamples step, in Octet values)
    {
        var rule = step.Rule;
        var last = rule.Count - 1;
        var highest = -GaussLobatto.Least(-values);
        var best = BitOperations.TrailingZeroCount(Octet.Same(values, Octet.All(highest)) & rule.Mask);
        Take(step.Time(best), highest);
        var (before, after) = (Math.Max(0, best - 1), Math.Min(last, best + 1));
        var fall = highest - Math.Min(values[before], values[after]);
        if (!(fall > 0 && highest + fall > Value))
            return;

        // Where an end of the step is highest, it rises within only if it does not rise beyond that end.
        var third = best == 0 ? 2 : last - 2;
        if ((best != 0 && best != last) || rule.OutwardSlope(highest, highest - fall, values[third]) * rule.Fractions[1] <= Outwards * fall)
            Search(step, values, best, fall);
    }

    /// <summary>Searches for a peak between the neighbours of the highest node.</summary>
    private void Search(StepSamples step, in Octet values, int best, double fall)
    {
        var rule = step.Rule;
        var (from, to) = (rule.Fractions[Math.Max(0, best - 1)], rule.Fractions[Math.Min(rule.Count - 1, best + 1)]);
        var summit = rule.Summit(rule.Slopes(values), from, to);
        var aside = Beside * (to - from);
        var expected = rule.Interpolate(values, Octet.Of([summit, summit - aside, summit + aside, 0, 0, 0, 0, 0]));
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
}
