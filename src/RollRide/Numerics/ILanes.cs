using System.Numerics;

namespace RollRide.Numerics;

/// <summary>
/// One or more numbers that go through the same arithmetic side by side, one number a lane. Every lane rounds as a single
/// number would, so a result does not depend on how many lanes there are, nor on its neighbours.
/// </summary>
/// <typeparam name="T">The implementing type.</typeparam>
internal interface ILanes<T> :
    IAdditionOperators<T, T, T>,
    ISubtractionOperators<T, T, T>,
    IMultiplyOperators<T, T, T>,
    IDivisionOperators<T, T, T>
    where T : struct, ILanes<T>
{
    /// <summary>Number of lanes.</summary>
    static abstract int Count { get; }

    /// <summary>The same number in every lane.</summary>
    static abstract T All(double value);

    /// <summary><c>a b + c</c>, rounded once.</summary>
    static abstract T Fma(T a, T b, T c);

    /// <summary><c>c − a b</c>, rounded once.</summary>
    static abstract T NegatedFma(T a, T b, T c);

    /// <summary>The absolute value.</summary>
    static abstract T Abs(T a);

    /// <summary>The larger number; neither may be NaN.</summary>
    static abstract T Max(T a, T b);

    /// <summary>The smaller number; neither may be NaN.</summary>
    static abstract T Min(T a, T b);

    /// <summary>In each lane <paramref name="then"/> where <c>a &gt; b</c>, else <paramref name="otherwise"/>.</summary>
    static abstract T WhereGreater(T a, T b, T then, T otherwise);

    /// <summary>In each lane whose bit is set <paramref name="then"/>, else <paramref name="otherwise"/>.</summary>
    static abstract T Where(int lanes, T then, T otherwise);

    /// <summary>Bit <c>i</c> says whether <c>a &gt; b</c> in lane <c>i</c>.</summary>
    static abstract int Greater(T a, T b);

    /// <summary>
    /// The binary logarithm to within 0.09, by reading the exponent of a positive number and the first bits after it; about
    /// −1023 for zero.
    /// </summary>
    static abstract T RoughLog2(T a);

    /// <summary>The inverse of <see cref="RoughLog2"/>; the argument lies between −1000 and 1000.</summary>
    static abstract T RoughExp2(T a);
}
