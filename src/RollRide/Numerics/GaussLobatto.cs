using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

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

    // Steps of the search for a slope's zero: each at least halves the span or doubles the digits.
    private const int MostSearches = 60;

    private static readonly double[] Nodes = [0, 0.5 * (1 - 0.6546536707079771), 0.5, 0.5 * (1 + 0.6546536707079771), 1];
    private static readonly double[] NodeWeights = [1.0 / 20, 49.0 / 180, 16.0 / 45, 49.0 / 180, 1.0 / 20];
    private static readonly double[] Barycentric = BarycentricWeights();
    private static readonly double[] FromValues = CoefficientMatrix();

    /// <summary>The nodes as fractions of the step, from 0 to 1.</summary>
    public static ReadOnlySpan<double> Fractions => Nodes;

    /// <summary>Weights of the nodes in the mean over the step.</summary>
    public static ReadOnlySpan<double> Weights => NodeWeights;

    /// <summary>The slope at an end of the step, outwards, of the parabola through three values, times the distance to the second one.</summary>
    /// <param name="end">The value at that end.</param>
    /// <param name="next">The value at the node next to it.</param>
    /// <param name="third">The value at the node after that.</param>
    public static T OutwardRise<T>(in T end, in T next, in T third)
        where T : struct, ILanes<T>
    {
        var (gap, gapAfter) = (Nodes[1], Nodes[2] - Nodes[1]);
        var rise = end - next;
        var before = (next - third) * T.All(gap / gapAfter);
        return T.Fma(rise - before, T.All(gap / (gap + gapAfter)), rise);
    }

    /// <summary>Coefficients of the polynomial through the values at the nodes: <c>c0 + c1 u + c2 u² + c3 u³ + c4 u⁴</c>, u a fraction of the step.</summary>
    /// <param name="values">The values at the nodes.</param>
    /// <param name="coefficients">Receives the coefficients.</param>
    public static void WriteCoefficients<T>(ReadOnlySpan<T> values, Span<T> coefficients)
        where T : struct, ILanes<T>
    {
        for (var power = 0; power < Count; power++)
        {
            var sum = T.All(FromValues[power * Count]) * values[0];
            for (var node = 1; node < Count; node++)
                sum = T.Fma(T.All(FromValues[(power * Count) + node]), values[node], sum);
            coefficients[power] = sum;
        }
    }

    /// <summary>The polynomial at a place, written out: this is called for each sample.</summary>
    /// <param name="coefficients">Its coefficients.</param>
    /// <param name="place">The place, a fraction of the step.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T At<T>(ReadOnlySpan<T> coefficients, in T place)
        where T : struct, ILanes<T>
    {
        ref var first = ref MemoryMarshal.GetReference(coefficients[..Count]);
        var sum = T.Fma(Unsafe.Add(ref first, 4), place, Unsafe.Add(ref first, 3));
        sum = T.Fma(sum, place, Unsafe.Add(ref first, 2));
        sum = T.Fma(sum, place, Unsafe.Add(ref first, 1));
        return T.Fma(sum, place, first);
    }

    /// <summary>Where a polynomial is highest between two places, of which neither is higher than one in between: where its slope falls through zero.</summary>
    /// <param name="coefficients">Its coefficients.</param>
    /// <param name="from">Start of the span, a fraction of the step.</param>
    /// <param name="to">End of the span.</param>
    /// <returns>The place, a fraction of the step; an end of the span where the slope does not fall through zero.</returns>
    public static double Summit(ReadOnlySpan<OneLane> coefficients, double from, double to)
    {
        var (c1, c2, c3, c4) = (coefficients[1].Value, 2 * coefficients[2].Value, 3 * coefficients[3].Value, 4 * coefficients[4].Value);
        if (Slope(from) <= 0)
            return from;
        if (Slope(to) > 0)
            return to;

        // Newton's method, halving the span where it leaves it.
        var place = 0.5 * (from + to);
        for (var i = 0; i < MostSearches && to - from > 1e-9; i++)
        {
            var slope = Slope(place);
            (from, to) = slope > 0 ? (place, to) : (from, place);
            var next = place - (slope / Curvature(coefficients, place));
            if (Math.Abs(next - place) < 1e-9)
                return next;
            place = next > from && next < to ? next : 0.5 * (from + to);
        }

        return place;

        double Slope(double u) => c1 + (u * (c2 + (u * (c3 + (u * c4)))));
    }

    /// <summary>The second derivative of a polynomial at a place.</summary>
    /// <param name="coefficients">Its coefficients.</param>
    /// <param name="place">The place, a fraction of the step.</param>
    public static double Curvature(ReadOnlySpan<OneLane> coefficients, double place) =>
        (2 * coefficients[2].Value) + (place * ((6 * coefficients[3].Value) + (place * 12 * coefficients[4].Value)));

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

    /// <summary>Row by row, what each node's value adds to each coefficient: the Lagrange polynomials multiplied out.</summary>
    private static double[] CoefficientMatrix()
    {
        var matrix = new double[Count * Count];
        for (var node = 0; node < Count; node++)
        {
            var product = new double[Count];
            product[0] = Barycentric[node];
            for (var other = 0; other < Count; other++)
            {
                for (var power = Count - 1; other != node && power >= 0; power--)
                    product[power] = (power > 0 ? product[power - 1] : 0) - (Nodes[other] * product[power]);
            }

            for (var power = 0; power < Count; power++)
                matrix[(power * Count) + node] = product[power];
        }

        return matrix;
    }
}
