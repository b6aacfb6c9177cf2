namespace RollRide.Numerics;

/// <summary>
/// The Gauss–Lobatto rule of five points on a unit step: for integrals, and for the polynomial through the values at its nodes. It integrates
/// polynomials of degree seven exactly, and so the square of a continuous solution of order 4 nearly so.
/// </summary>
/// <remarks>Nodes and weights as M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, table 25.6 (from memory).</remarks>
internal static class GaussLobatto
{
    /// <summary>Number of nodes.</summary>
    public const int Count = 5;

    // Each round of the search for a slope's zero looks at eight points and keeps the seventh part it lies in; after these rounds a
    // straight line settles the rest to about 1e-6 of the span.
    private const int Rounds = 3, Parts = 7;

    private static readonly double[] Nodes = [0, 0.5 * (1 - 0.6546536707079771), 0.5, 0.5 * (1 + 0.6546536707079771), 1];
    private static readonly double[] NodeWeights = [1.0 / 20, 49.0 / 180, 16.0 / 45, 49.0 / 180, 1.0 / 20];
    private static readonly double[] Barycentric = BarycentricWeights();
    private static readonly double[] Differentiation = DifferentiationMatrix();

    /// <summary>The nodes as fractions of the step, from 0 to 1.</summary>
    public static ReadOnlySpan<double> Fractions => Nodes;

    /// <summary>Weights of the nodes in the mean over the step.</summary>
    public static ReadOnlySpan<double> Weights => NodeWeights;

    /// <summary>The slope at an end of the step, outwards, of the parabola through three values.</summary>
    /// <param name="end">The value at that end.</param>
    /// <param name="next">The value at the node next to it.</param>
    /// <param name="third">The value at the node after that.</param>
    public static double OutwardSlope(double end, double next, double third)
    {
        var (gap, gapAfter) = (Nodes[1], Nodes[2] - Nodes[1]);
        var (rise, riseAfter) = ((end - next) / gap, (next - third) / gapAfter);
        return rise + ((rise - riseAfter) * gap / (gap + gapAfter));
    }

    /// <summary>The slopes at the nodes of the polynomial through its values there.</summary>
    /// <param name="values">The values at the nodes.</param>
    /// <param name="slopes">Receives the slopes, by the fraction of the step.</param>
    public static void WriteSlopes(ReadOnlySpan<double> values, Span<double> slopes)
    {
        for (var at = 0; at < Count; at++)
        {
            slopes[at] = 0;
            for (var of = 0; of < Count; of++)
                slopes[at] += Differentiation[(at * Count) + of] * values[of];
        }
    }

    /// <summary>
    /// How much each node counts in the polynomial at a place: its value there is the sum over the nodes of the node's value times its share.
    /// </summary>
    /// <param name="place">The place, a fraction of the step.</param>
    /// <param name="shares">Receives the share of each node.</param>
    public static void WriteShares<T>(in T place, Span<T> shares)
        where T : struct, ILanes<T>
    {
        // Each share is the node's constant times the product of the distances from all the other nodes.
        var product = T.All(1);
        for (var node = 0; node < Count; node++)
        {
            shares[node] = product * T.All(Barycentric[node]);
            product *= place - T.All(Nodes[node]);
        }

        product = T.All(1);
        for (var node = Count - 1; node >= 0; node--)
        {
            shares[node] *= product;
            product *= place - T.All(Nodes[node]);
        }
    }

    /// <summary>The polynomial at a place.</summary>
    /// <param name="values">Its values at the nodes.</param>
    /// <param name="place">The place, a fraction of the step.</param>
    public static double Interpolate(ReadOnlySpan<double> values, double place)
    {
        Span<OneLane> shares = stackalloc OneLane[Count];
        WriteShares(new OneLane(place), shares);
        var sum = 0.0;
        for (var node = 0; node < Count; node++)
            sum += shares[node].Value * values[node];
        return sum;
    }

    /// <summary>Where the polynomial is highest between two nodes, of which neither is higher than one in between: where its slope first falls through zero.</summary>
    /// <param name="slopes">Its slopes at the nodes.</param>
    /// <param name="from">Start of the span, a fraction of the step.</param>
    /// <param name="to">End of the span.</param>
    /// <returns>The place, a fraction of the step; an end of the span where the slope does not fall through zero.</returns>
    public static double Summit(ReadOnlySpan<double> slopes, double from, double to)
    {
        var (start, end) = (0.0, 0.0);
        for (var round = 0; round < Rounds; round++)
        {
            var (low, width) = (from, (to - from) / Parts);
            var falls = false;
            for (var part = 0; part <= Parts && !falls; part++)
            {
                var place = part == Parts ? to : low + (part * width);
                var slope = Interpolate(slopes, place);
                falls = slope <= 0;
                if (falls && part == 0)
                    return from;
                if (falls)
                    (end, to) = (slope, place);
                else
                    (start, from) = (slope, place);
            }

            if (!falls)
                return to;
        }

        return from + ((to - from) * start / (start - end));
    }

    // J.-P. Berrut, L. N. Trefethen, "Barycentric Lagrange Interpolation", SIAM Review 46, 2004, sections 3 and 9.3 (from memory).
    private static double[] BarycentricWeights()
    {
        var weights = new double[Count];
        for (var i = 0; i < Count; i++)
        {
            var product = 1.0;
            for (var j = 0; j < Count; j++)
                product *= j == i ? 1 : Nodes[i] - Nodes[j];
            weights[i] = 1 / product;
        }

        return weights;
    }

    private static double[] DifferentiationMatrix()
    {
        var matrix = new double[Count * Count];
        for (var at = 0; at < Count; at++)
        {
            for (var of = 0; of < Count; of++)
            {
                if (of == at)
                    continue;
                var slope = Barycentric[of] / Barycentric[at] / (Nodes[at] - Nodes[of]);
                matrix[(at * Count) + of] = slope;
                matrix[(at * Count) + at] -= slope;
            }
        }

        return matrix;
    }
}
