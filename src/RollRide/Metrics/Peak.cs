using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The largest value of a quantity and when it was reached, found on the continuous solution.</summary>
internal struct Peak()
{
    /// <summary>Share of the mean rise next to an end of a step that the slope at the end must keep to show that the peak lies beyond.</summary>
    public const double Outwards = 0.2;

    // Relative to the fall of the step from its highest node, which is a few per cent of the peak. Up to the first difference between solution and polynomial both have the
    // same peak; beyond the last the solution has a kink within the step. What a Newton step adds to what was found is believed up to Near, and beyond that if the solution
    // there is as predicted.
    private const double Same = 1e-7, Near = 1e-6, Predicted = 1e-5, Smooth = 1e-2;

    // Accuracy of the time of a peak with a kink, relative to the span between two nodes, over which the step falls by a few per cent of the peak.
    private const double KinkAccuracy = 1e-5;

    // Distance for a difference quotient as a share of the span searched: small against the polynomial's own error in curvature, large against rounding.
    private const double Beside = 0.005;

    // A step does not resolve a peak more than twice as high as its highest node.
    public const double Resolved = 0.5;

    /// <summary>The largest value so far.</summary>
    public double Value { get; set; } = double.NegativeInfinity;

    /// <summary>When it was reached, s.</summary>
    public double Time { get; private set; } = double.NaN;

    /// <summary>Adds a step.</summary>
    /// <param name="step">The step.</param>
    /// <param name="quantity">The quantity.</param>
    /// <param name="values">The quantity at its nodes.</param>
    public void Add<TQuantity>(StepView step, in TQuantity quantity, ReadOnlySpan<double> values)
        where TQuantity : struct, IQuantity
    {
        var best = Best(values);
        var highest = values[best];
        if (Value > 0 && !(highest > Resolved * Value))
            return;
        Take(step.Time(best), highest);
        Search(step, quantity, values);
    }

    /// <summary>Looks for a peak between the nodes of a step, the highest of which has been taken already.</summary>
    /// <param name="step">The step.</param>
    /// <param name="quantity">The quantity.</param>
    /// <param name="values">The quantity at its nodes.</param>
    public void Search<TQuantity>(StepView step, in TQuantity quantity, ReadOnlySpan<double> values)
        where TQuantity : struct, IQuantity
    {
        const int last = GaussLobatto.Count - 1;
        var best = Best(values);
        var highest = values[best];
        var (before, after) = (Math.Max(0, best - 1), Math.Min(last, best + 1));
        var fall = highest - Math.Min(values[before], values[after]);
        if (!(fall > 0 && highest + fall > Value))
            return;

        // Where an end of the step is highest and the slope there rises outwards, the peak lies outside the step.
        var third = best == 0 ? 2 : last - 2;
        if ((best == 0 || best == last)
            && GaussLobatto.OutwardRise(new OneLane(highest), new OneLane(highest - fall), new OneLane(values[third])).Value > Outwards * fall)
        {
            return;
        }

        Span<OneLane> known = stackalloc OneLane[GaussLobatto.Count], polynomial = stackalloc OneLane[GaussLobatto.Count];
        for (var node = 0; node < known.Length; node++)
            known[node] = new(values[node]);
        GaussLobatto.WriteCoefficients(known, polynomial);
        var (from, to) = (GaussLobatto.Fractions[before], GaussLobatto.Fractions[after]);
        var summit = GaussLobatto.Summit(polynomial, from, to);
        var expected = At(polynomial, summit);
        if (summit <= from || summit >= to || highest + (2 * (expected - highest)) + (0.1 * fall) <= Value)
            return;

        var found = TakeAt(step, quantity, summit);
        var error = found - expected;
        if (Math.Abs(error) <= Same * fall)
            return;
        if (Math.Abs(error) <= Smooth * fall)
        {
            // A step of Newton's: at its summit the polynomial has no slope, so that of the solution is how its error changes; the curvature is the polynomial's.
            var aside = summit + (Beside * (to - from) * (summit < 0.5 ? 1 : -1));
            var slope = (TakeAt(step, quantity, aside) - At(polynomial, aside) - error) / (aside - summit);
            var move = -slope / GaussLobatto.Curvature(polynomial, summit);
            var rise = 0.5 * slope * move;
            if (rise >= 0 && summit + move is >= 0 and <= 1)
            {
                if (rise <= Near * fall)
                {
                    Take(step.TimeAt(summit + move), found + rise);
                    return;
                }

                if (Math.Abs(TakeAt(step, quantity, summit + move) - (found + rise)) <= Predicted * fall)
                    return;
            }
        }

        var (time, value) = step.Highest(quantity, step.TimeAt(from), step.TimeAt(to), KinkAccuracy);
        Take(time, value);
    }

    private static int Best(ReadOnlySpan<double> values)
    {
        var best = 0;
        for (var node = 1; node < values.Length; node++)
            best = values[node] > values[best] ? node : best;
        return best;
    }

    private static double At(ReadOnlySpan<OneLane> polynomial, double place) => GaussLobatto.At(polynomial, new OneLane(place)).Value;

    private void Take(double time, double value)
    {
        if (value > Value)
            (Value, Time) = (value, time);
    }

    private double TakeAt<TQuantity>(StepView step, in TQuantity quantity, double fraction)
        where TQuantity : struct, IQuantity
    {
        var time = step.TimeAt(fraction);
        var value = step.At(quantity, time);
        Take(time, value);
        return value;
    }
}
