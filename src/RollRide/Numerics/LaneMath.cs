using System.Runtime.CompilerServices;

namespace RollRide.Numerics;

/// <summary>
/// Elementary functions made of the lanes' own operations, and access to single lanes. The runtime's vector functions are not used: they
/// round differently beside other neighbours.
/// </summary>
internal static class LaneMath
{
    /// <summary>Beyond this argument the hyperbolic tangent is 1 to rounding.</summary>
    public const double SaturatedTanh = 20;

    // ln 2 in two parts: a multiple of the first by a number up to 58 is exact.
    private const double Ln2 = 0.6931471805599453, Ln2High = 0.69314718036912382, Ln2Low = 1.9082149292705877e-10;

    // Added to a number and taken away again, it leaves the nearest whole number.
    private const double WholeNumbers = 6755399441055744;

    // 1/n!
    private static readonly double[] InverseFactorials = Series();

    /// <summary>One lane of a number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ref double Lane<T>(ref T lanes, int lane)
        where T : struct, ILanes<T> => ref Unsafe.Add(ref Unsafe.As<T, double>(ref lanes), lane);

    /// <summary>One lane of a number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Get<T>(in T lanes, int lane)
        where T : struct, ILanes<T> => Lane(ref Unsafe.AsRef(in lanes), lane);

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

    /// <summary>Sine of an angle from −π/2 to π/2, rad, to a few roundings.</summary>
    public static void Sin<T>(in T angle, out T sin)
        where T : struct, ILanes<T>
    {
        var square = angle * angle;
        var s = T.All(InverseFactorials[21]);
        for (var n = 19; n > 0; n -= 2)
            s = T.NegatedFma(s, square, T.All(InverseFactorials[n]));
        sin = s * angle;
    }

    /// <summary>The hyperbolic tangent, to a few roundings of itself.</summary>
    /// <remarks>
    /// With <c>m = exp(2|x|) − 1</c> it is <c>m/(m + 2)</c>; and <c>m = 2ⁿ (exp f − 1) + 2ⁿ − 1</c> with <c>2|x| = n ln 2 + f</c>, so that the series
    /// for f between −0.35 and 0.35 is short. Its terms are summed in pairs, which the processor works out at the same time.
    /// </remarks>
    public static void Tanh<T>(in T x, out T tanh)
        where T : struct, ILanes<T>
    {
        var twice = T.Min(T.Abs(x), T.All(SaturatedTanh)) * T.All(2);
        var n = T.Fma(twice, T.All(1 / Ln2), T.All(WholeNumbers)) - T.All(WholeNumbers);
        var f = T.NegatedFma(n, T.All(Ln2Low), T.NegatedFma(n, T.All(Ln2High), twice));
        var square = f * f;
        var fourth = square * square;
        var low = T.Fma(Pair<T>(3, f), square, Pair<T>(1, f));
        var middle = T.Fma(Pair<T>(7, f), square, Pair<T>(5, f));
        var high = T.Fma(Pair<T>(11, f), square, Pair<T>(9, f));
        var series = T.Fma(T.Fma(T.Fma(T.All(InverseFactorials[13]), fourth, high), fourth, middle), fourth, low) * f;
        var power = T.PowerOfTwo(n);
        var m = T.Fma(power, series, power - T.All(1));
        tanh = T.CopySign(m / (m + T.All(2)), x);
    }

    /// <summary><c>1/n! + f/(n + 1)!</c>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Pair<T>(int n, in T f)
        where T : struct, ILanes<T> => T.Fma(f, T.All(InverseFactorials[n + 1]), T.All(InverseFactorials[n]));

    private static double[] Series()
    {
        var inverse = new double[22];
        inverse[0] = 1;
        for (var n = 1; n < inverse.Length; n++)
            inverse[n] = inverse[n - 1] / n;
        return inverse;
    }
}
