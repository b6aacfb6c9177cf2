using System.Runtime.CompilerServices;

namespace RollRide.Numerics;

/// <summary>
/// Elementary functions made of the lanes' own operations, and access to single lanes. The runtime's vector functions are not used: they
/// round differently beside other neighbours.
/// </summary>
internal static class LaneMath
{
    /// <summary>
    /// How an operation on several lanes is compiled: into whatever uses it; and at once with all care where that is not compiled with care yet, for no code of it is made ahead of time.
    /// </summary>
    public const MethodImplOptions Operation = MethodImplOptions.AggressiveInlining | MethodImplOptions.AggressiveOptimization;

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
        Exponential(T.Min(T.Abs(x), T.All(SaturatedTanh)) * T.All(2), out var power, out var series);
        var m = T.Fma(power, series, power - T.All(1));
        tanh = T.CopySign(m / (m + T.All(2)), x);
    }

    /// <summary>A number to a power, to a few roundings; not a number unless it is above 0. Their logarithms together must stay below 690.</summary>
    /// <remarks>
    /// With <c>x = 2ᵏ m</c> and m between 0.66 and 1.51 it is <c>exp(y (k ln 2 + 2 artanh s))</c>, <c>s = (m − 1)/(m + 1)</c>: the series of the artanh is short. Of 1 it is
    /// exactly 1.
    /// </remarks>
    /// <param name="x">The number.</param>
    /// <param name="exponent">The exponent <c>y</c>.</param>
    /// <param name="power">Receives the power.</param>
    public static void Power<T>(in T x, in T exponent, out T power)
        where T : struct, ILanes<T>
    {
        var k = (T.RoughLog2(x) + T.All(WholeNumbers)) - T.All(WholeNumbers);
        var m = x * T.PowerOfTwo(-k);
        var s = (m - T.All(1)) / (m + T.All(1));
        var square = s * s;
        var fourth = square * square;
        var eighth = fourth * fourth;
        var low = T.Fma(Odd<T>(2, square), fourth, Odd<T>(0, square));
        var middle = T.Fma(Odd<T>(6, square), fourth, Odd<T>(4, square));
        var high = T.Fma(Odd<T>(10, square), fourth, Odd<T>(8, square));
        var logarithm = T.Fma(k, T.All(Ln2), T.Fma(T.Fma(high, eighth, middle), eighth, low) * (s + s));
        Exponential(logarithm * exponent, out var two, out var series);
        power = T.WhereGreater(x, default, T.Fma(two, series, two), T.All(double.NaN));
    }

    /// <summary><c>exp x = 2ⁿ (1 + series)</c>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Exponential<T>(in T x, out T power, out T series)
        where T : struct, ILanes<T>
    {
        var n = T.Fma(x, T.All(1 / Ln2), T.All(WholeNumbers)) - T.All(WholeNumbers);
        var f = T.NegatedFma(n, T.All(Ln2Low), T.NegatedFma(n, T.All(Ln2High), x));
        var square = f * f;
        var fourth = square * square;
        var low = T.Fma(Pair<T>(3, f), square, Pair<T>(1, f));
        var middle = T.Fma(Pair<T>(7, f), square, Pair<T>(5, f));
        var high = T.Fma(Pair<T>(11, f), square, Pair<T>(9, f));
        series = T.Fma(T.Fma(T.Fma(T.All(InverseFactorials[13]), fourth, high), fourth, middle), fourth, low) * f;
        power = T.PowerOfTwo(n);
    }

    /// <summary><c>1/(2n + 1) + s²/(2n + 3)</c>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Odd<T>(int n, in T square)
        where T : struct, ILanes<T> => T.Fma(square, T.All(1.0 / ((2 * n) + 3)), T.All(1.0 / ((2 * n) + 1)));

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
