namespace RollRide.Numerics;

/// <summary>
/// One or more numbers that go through the same arithmetic side by side, one number a lane. Every lane rounds as a single
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

    /// <summary>
    /// The binary logarithm to within 0.09, by reading the exponent of a positive number and the first bits after it; about
    /// −1023 for zero.
    /// </summary>
    static abstract T RoughLog2(T a);

    /// <summary>The inverse of <see cref="RoughLog2"/>; the argument lies between −1000 and 1000.</summary>
    static abstract T RoughExp2(T a);
}
