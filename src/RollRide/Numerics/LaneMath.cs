using System.Runtime.CompilerServices;

namespace RollRide.Numerics;

/// <summary>
/// Elementary functions made of the lanes' own operations, and access to single lanes. The runtime's vector functions are not used: they
/// round differently beside other neighbours.
/// </summary>
internal static class LaneMath
{
    /// <summary>Beyond this argument the hyperbolic tangent is 1 to rounding.</summary>
    private const double SaturatedTanh = 20;

    // 1/n! for the series of sine and cosine (odd and even n), and 1/n for that of the exponential in nested form.
    private static readonly double[] InverseFactorials = Series();

    /// <summary>One lane of a number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ref double Lane<T>(ref T lanes, int lane)
        where T : struct, ILanes<T> => ref Unsafe.Add(ref Unsafe.As<T, double>(ref lanes), lane);

    /// <summary>One lane of a number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Get<T>(in T lanes, int lane)
        where T : struct, ILanes<T> => Lane(ref Unsafe.AsRef(in lanes), lane);

    /// <summary>A bit for every lane.</summary>
    public static int Everywhere<T>()
        where T : struct, ILanes<T> => (1 << T.Count) - 1;

    /// <summary>Applies a function lane by lane.</summary>
    public static T Map<T>(ReadOnlySpan<ISmoothFunction?> functions, in T x, out T slope)
        where T : struct, ILanes<T>
    {
        slope = default;
        var values = default(T);
        for (var lane = 0; lane < T.Count; lane++)
            (Lane(ref values, lane), Lane(ref slope, lane)) = functions[lane]?.At(Get(x, lane)) ?? (double.NaN, double.NaN);
        return values;
    }

    /// <summary>Sine and cosine of an angle from −π to π, rad, to a few roundings.</summary>
    /// <remarks>Taylor series of a quarter of the angle, then the formulas of the double angle twice.</remarks>
    public static void SinCos<T>(in T angle, out T sin, out T cos)
        where T : struct, ILanes<T>
    {
        var quarter = angle * T.All(0.25);
        var square = quarter * quarter;
        var s = T.All(InverseFactorials[15]);
        var c = T.All(InverseFactorials[16]);
        for (var n = 13; n > 0; n -= 2)
        {
            s = T.NegatedFma(s, square, T.All(InverseFactorials[n]));
            c = T.NegatedFma(c, square, T.All(InverseFactorials[n + 1]));
        }

        s *= quarter;
        c = T.NegatedFma(c, square, T.All(1));
        sin = (s + s) * c;
        cos = T.NegatedFma(s + s, s, T.All(1));
        (sin, cos) = ((sin + sin) * cos, T.NegatedFma(sin + sin, sin, T.All(1)));
    }

    /// <summary>The hyperbolic tangent, to a few roundings of itself.</summary>
    /// <remarks>
    /// With <c>m = exp(2|x|) − 1</c> it is <c>m/(m + 2)</c>. The series gives m of a hundred and twenty-eighth of <c>2|x|</c>; seven times
    /// <c>m ← m (m + 2)</c> doubles the argument.
    /// </remarks>
    public static T Tanh<T>(in T x)
        where T : struct, ILanes<T>
    {
        var share = T.Min(T.Abs(x), T.All(SaturatedTanh)) * T.All(1.0 / 64);
        var m = T.All(InverseFactorials[12]);
        for (var n = 11; n > 0; n--)
            m = T.Fma(m, share, T.All(InverseFactorials[n]));
        m *= share;
        for (var doubling = 0; doubling < 7; doubling++)
            m *= m + T.All(2);
        return T.CopySign(m / (m + T.All(2)), x);
    }

    private static double[] Series()
    {
        var inverse = new double[17];
        inverse[0] = 1;
        for (var n = 1; n < inverse.Length; n++)
            inverse[n] = inverse[n - 1] / n;
        return inverse;
    }
}
