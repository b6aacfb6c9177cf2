namespace RollRide.Numerics;

/// <summary>
/// One or more numbers that go through the same arithmetic side by side, one number per lane. Every lane rounds as a single
/// number would, so a result does not depend on how many lanes there are, nor on its neighbours.
/// </summary>
/// <typeparam name="T">The implementing type.</typeparam>
/// <remarks>
/// Operands of arithmetic are handed over by reference, which costs nothing where a method is compiled in line: the processor then takes one
/// from memory within the operation itself instead of in an instruction of its own.
/// </remarks>
internal interface ILanes<T>
    where T : struct, ILanes<T>
{
    /// <summary>Sum.</summary>
    static abstract T operator +(in T a, in T b);

    /// <summary>Difference.</summary>
    static abstract T operator -(in T a, in T b);

    /// <summary>Product.</summary>
    static abstract T operator *(in T a, in T b);

    /// <summary>Quotient.</summary>
    static abstract T operator /(in T a, in T b);

    /// <summary>The opposite.</summary>
    static abstract T operator -(in T a);

    /// <summary>Number of lanes.</summary>
    static abstract int Count { get; }

    /// <summary>The same number in every lane.</summary>
    static abstract T All(double value);

    /// <summary><c>a b + c</c>, rounded once.</summary>
    static abstract T Fma(in T a, in T b, in T c);

    /// <summary><c>c − a b</c>, rounded once.</summary>
    static abstract T NegatedFma(in T a, in T b, in T c);

    /// <summary>The absolute value.</summary>
    static abstract T Abs(in T a);

    /// <summary>The square root.</summary>
    static abstract T Sqrt(in T a);

    /// <summary>The size of one number with the sign of another.</summary>
    static abstract T CopySign(in T size, in T sign);

    /// <summary>Applies a function of one variable in each lane, one lane after the other.</summary>
    /// <param name="functions">The function of each lane; null in a lane without one, which then holds no number.</param>
    /// <param name="x">The variable.</param>
    /// <param name="slope">The first derivative of the function.</param>
    static abstract T Map(ReadOnlySpan<ISmoothFunction?> functions, in T x, out T slope);

    /// <summary>The larger number; neither may be NaN.</summary>
    static abstract T Max(in T a, in T b);

    /// <summary>The smaller number; neither may be NaN.</summary>
    static abstract T Min(in T a, in T b);

    /// <summary>In each lane <paramref name="then"/> where <c>a &gt; b</c>, else <paramref name="otherwise"/>.</summary>
    static abstract T WhereGreater(in T a, in T b, in T then, in T otherwise);

    /// <summary>In each lane whose bit is set <paramref name="then"/>, else <paramref name="otherwise"/>.</summary>
    static abstract T Where(int lanes, in T then, in T otherwise);

    /// <summary>Bit <c>i</c> says whether <c>a &gt; b</c> in lane <c>i</c>.</summary>
    static abstract int Greater(in T a, in T b);

    /// <summary>2 to the power of a whole number between −1000 and 1000.</summary>
    static abstract T PowerOfTwo(in T exponent);

    /// <summary>
    /// The binary logarithm to within 0.09, by reading the exponent of a positive number and the first bits after it; about
    /// −1023 for zero.
    /// </summary>
    static abstract T RoughLog2(T a);

    /// <summary>The inverse of <see cref="RoughLog2"/>; the argument lies between −1000 and 1000.</summary>
    static abstract T RoughExp2(T a);
}
