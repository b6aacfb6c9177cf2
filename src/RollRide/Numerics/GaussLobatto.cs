using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace RollRide.Numerics;

/// <summary>
/// A Gauss–Lobatto rule on a step of time: the nodes at which to look at it, both ends among them, the weights of an integral over
/// it, and the polynomial through the nodes. Values at the nodes stand side by side in the lanes of one vector; lanes beyond the
/// last node hold any finite value, best one of a node's. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// M. Abramowitz, I. Stegun, Handbook of Mathematical Functions, 1964, section 25.4.32 and table 25.6 (from memory; recomputed, and the
/// test checks the degree). The width is fixed, and so is the order in which lanes are added: the figures do not depend on how wide
/// the machine's own vectors are.
/// </remarks>
internal sealed class GaussLobatto
{
    /// <summary>Lanes of a vector, and the most nodes a rule can have.</summary>
    public const int Lanes = Octet.Count;

    // Each round of the search for a slope's zero looks at eight points and keeps the seventh part it lies in; after these rounds a
    // straight line settles the rest to about 1e-6 of the span.
    private const int Rounds = 3;

    private static readonly KeptOctet Sevenths = Octet.Indices / 7;

    private readonly double[] _fractions;
    private readonly double[] _weights;
    private readonly double[] _barycentric;
    private readonly KeptOctet[] _differentiation;
    private readonly KeptOctet _places;
    private readonly KeptOctet _paddedWeights;

    private GaussLobatto(double[] innerAbscissae, double[] innerWeights)
    {
        // From (−1, 1) to the unit span.
        Count = innerAbscissae.Length + 2;
        _fractions = new double[Count];
        _fractions[^1] = 1;
        for (var i = 0; i < innerAbscissae.Length; i++)
            _fractions[i + 1] = 0.5 * (1 + innerAbscissae[i]);
        _places = Padded(_fractions, 1);
        _weights = new double[Count];
        _weights[0] = _weights[^1] = 1.0 / (Count * (Count - 1));
        for (var i = 0; i < innerWeights.Length; i++)
            _weights[i + 1] = 0.5 * innerWeights[i];
        _paddedWeights = Padded(_weights, 0);
        Mask = (1U << Count) - 1;

        // J.-P. Berrut, L. N. Trefethen, "Barycentric Lagrange Interpolation", SIAM Review 46, 2004, sections 3 and 9.3 (from memory).
        _barycentric = new double[Count];
        for (var i = 0; i < Count; i++)
        {
            var product = 1.0;
            for (var j = 0; j < Count; j++)
                product *= j == i ? 1 : _fractions[i] - _fractions[j];
            _barycentric[i] = 1 / product;
        }

        var slopes = new double[Count, Count];
        for (var at = 0; at < Count; at++)
        {
            for (var of = 0; of < Count; of++)
            {
                if (of == at)
                    continue;
                slopes[of, at] = _barycentric[of] / _barycentric[at] / (_fractions[at] - _fractions[of]);
                slopes[at, at] -= slopes[of, at];
            }
        }

        _differentiation = new KeptOctet[Count];
        for (var of = 0; of < Count; of++)
            _differentiation[of] = Padded(MemoryMarshal.CreateReadOnlySpan(ref slopes[of, 0], Count), 0);
    }

    /// <summary>Five nodes; exact to degree 7.</summary>
    public static GaussLobatto Five { get; } = new(
        [-0.6546536707079771, 0, 0.6546536707079771],
        [49.0 / 90, 32.0 / 45, 49.0 / 90]);

    /// <summary>Eight nodes; exact to degree 13.</summary>
    public static GaussLobatto Eight { get; } = new(
        [-0.8717401485096066, -0.5917001814331423, -0.20929921790247887, 0.20929921790247887, 0.5917001814331423, 0.8717401485096066],
        [0.21070422714350604, 0.34112269248350436, 0.41245879465870388, 0.41245879465870388, 0.34112269248350436, 0.21070422714350604]);

    /// <summary>Number of nodes.</summary>
    public int Count { get; }

    /// <summary>The nodes as fractions of the step, 0 and 1 among them, ascending.</summary>
    public ReadOnlySpan<double> Fractions => _fractions;

    /// <summary>The nodes as fractions of the step; lanes beyond the last node repeat it.</summary>
    public Octet Places
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => _places;
    }

    /// <summary>Weights of the nodes in the mean over the step; 0 in the lanes beyond the last node.</summary>
    public Octet Weights
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => _paddedWeights;
    }

    /// <summary>The same, one by one.</summary>
    public ReadOnlySpan<double> MeanWeights => _weights;

    /// <summary>A bit for each lane that holds a node.</summary>
    public uint Mask { get; }

    /// <summary>Adds the lanes of a vector, always in the same order.</summary>
    /// <param name="lanes">The vector.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Sum(Octet lanes)
    {
        var four = lanes.Lower + lanes.Upper;
        var two = four.GetLower() + four.GetUpper();
        return two[0] + two[1];
    }

    /// <summary>The smallest lane of a vector.</summary>
    /// <param name="lanes">The vector.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Least(Octet lanes)
    {
        var four = Vector256.MinNative(lanes.Lower, lanes.Upper);
        var two = Vector128.MinNative(four.GetLower(), four.GetUpper());
        return double.MinNative(two[0], two[1]);
    }

    /// <summary>The slope at an end of the step, outwards and per step, of the parabola through the last three nodes there.</summary>
    /// <param name="end">Value at the end.</param>
    /// <param name="next">Value at the node next to it.</param>
    /// <param name="third">Value at the node after that.</param>
    public double OutwardSlope(double end, double next, double third)
    {
        var (gap, gapAfter) = (_fractions[1], _fractions[2] - _fractions[1]);
        var (rise, riseAfter) = ((end - next) / gap, (next - third) / gapAfter);
        return rise + ((rise - riseAfter) * gap / (gap + gapAfter));
    }

    /// <summary>The slopes of the polynomial at the nodes, per step, from its values there.</summary>
    /// <param name="values">The values at the nodes.</param>
    public KeptOctet Slopes(in Octet values)
    {
        var slopes = default(Octet);
        for (var node = 0; node < _differentiation.Length; node++)
            slopes = Octet.Fma(_differentiation[node], Octet.All(values[node]), slopes);
        return slopes;
    }

    /// <summary>
    /// How much each node counts in the polynomial at up to eight places at once: its value there is the sum over the nodes of the
    /// node's value times its share.
    /// </summary>
    /// <param name="places">The places, as fractions of the step.</param>
    /// <param name="shares">Receives a vector a node, with a lane for each place; length <see cref="Count"/> or more.</param>
    public void Shares(in Octet places, Span<KeptOctet> shares)
    {
        // Each share is the node's constant times the product of the distances from all the other nodes.
        var product = Octet.All(1);
        for (var node = 0; node < _fractions.Length; node++)
        {
            shares[node] = product * Octet.All(_barycentric[node]);
            product *= places - Octet.All(_fractions[node]);
        }

        product = Octet.All(1);
        for (var node = _fractions.Length - 1; node >= 0; node--)
        {
            shares[node] = shares[node] * product;
            product *= places - Octet.All(_fractions[node]);
        }
    }

    /// <summary>The polynomial at up to eight places at once.</summary>
    /// <param name="values">Its values at the nodes.</param>
    /// <param name="places">The places, as fractions of the step.</param>
    public KeptOctet Interpolate(in Octet values, in Octet places)
    {
        Span<KeptOctet> shares = stackalloc KeptOctet[Lanes];
        Shares(places, shares);
        var sum = default(Octet);
        for (var node = 0; node < _fractions.Length; node++)
            sum = Octet.Fma(shares[node], Octet.All(values[node]), sum);
        return sum;
    }

    /// <summary>Where the polynomial is highest between two nodes, of which neither is higher than one in between: where its slope first falls through zero.</summary>
    /// <param name="slopes">Its slopes at the nodes, of <see cref="Slopes"/>.</param>
    /// <param name="from">Start of the span, a fraction of the step.</param>
    /// <param name="to">End of the span.</param>
    /// <returns>The place, a fraction of the step; an end of the span where the slope does not fall through zero.</returns>
    public double Summit(in Octet slopes, double from, double to)
    {
        var (start, end) = (0.0, 0.0);
        for (var round = 0; round < Rounds; round++)
        {
            var places = Octet.All(from) + (Octet.All(to - from) * Sevenths);
            var slope = Interpolate(slopes, places);
            var falling = BitOperations.TrailingZeroCount(Octet.GreaterOrSame(default, slope));
            if (falling is 0 or >= Lanes)
                return falling == 0 ? from : to;
            (from, to) = (places[falling - 1], places[falling]);
            (start, end) = (slope[falling - 1], slope[falling]);
        }

        return from + ((to - from) * start / (start - end));
    }

    private static KeptOctet Padded(ReadOnlySpan<double> values, double padding)
    {
        Span<double> lanes = stackalloc double[Lanes];
        lanes.Fill(padding);
        values.CopyTo(lanes);
        return Octet.Of(lanes);
    }
}
