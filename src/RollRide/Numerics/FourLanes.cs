using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using X86Fma = System.Runtime.Intrinsics.X86.Fma;

namespace RollRide.Numerics;

/// <summary>Four numbers side by side, for a processor without vectors of eight.</summary>
/// <param name="values">The numbers.</param>
[method: MethodImpl(LaneMath.Operation)]
internal readonly struct FourLanes(Vector256<double> values) : ILanes<FourLanes>
{
    /// <summary>The numbers.</summary>
    public readonly Vector256<double> Values = values;

    private const double HalfUnits = 1L << 32;

    public static int Count => Vector256<double>.Count;

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes operator +(in FourLanes a, in FourLanes b) => new(a.Values + b.Values);

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes operator -(in FourLanes a, in FourLanes b) => new(a.Values - b.Values);

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes operator *(in FourLanes a, in FourLanes b) => new(a.Values * b.Values);

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes operator /(in FourLanes a, in FourLanes b) => new(a.Values / b.Values);

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes operator -(in FourLanes a) => new(-a.Values);

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes Sqrt(in FourLanes a) => new(Vector256.Sqrt(a.Values));

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes CopySign(in FourLanes size, in FourLanes sign) => new(Vector256.CopySign(size.Values, sign.Values));

    public static FourLanes Map(ReadOnlySpan<ISmoothFunction?> functions, in FourLanes x, out FourLanes slope) => LaneMath.Map(functions, x, out slope);

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes All(double value) => new(Vector256.Create(value));

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes Fma(in FourLanes a, in FourLanes b, in FourLanes c) => new(Vector256.FusedMultiplyAdd(a.Values, b.Values, c.Values));

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes NegatedFma(in FourLanes a, in FourLanes b, in FourLanes c) => new(NegatedFma(a.Values, b.Values, c.Values));

    /// <summary>As one instruction where the processor has it: otherwise the sign takes one of its own.</summary>
    [MethodImpl(LaneMath.Operation)]
    private static Vector256<double> NegatedFma(Vector256<double> a, Vector256<double> b, Vector256<double> c) =>
        X86Fma.IsSupported ? X86Fma.MultiplyAddNegated(a, b, c) : Vector256.FusedMultiplyAdd(-a, b, c);

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes Abs(in FourLanes a) => new(Vector256.Abs(a.Values));

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes Max(in FourLanes a, in FourLanes b) => new(Vector256.MaxNative(a.Values, b.Values));

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes Min(in FourLanes a, in FourLanes b) => new(Vector256.MinNative(a.Values, b.Values));

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes WhereGreater(in FourLanes a, in FourLanes b, in FourLanes then, in FourLanes otherwise) =>
        new(Select(Vector256.GreaterThan(a.Values, b.Values), then.Values, otherwise.Values));

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes Where(int lanes, in FourLanes then, in FourLanes otherwise)
    {
        var bits = Vector256.Create(1L, 2, 4, 8);
        return new(Select(Vector256.Equals(Vector256.Create((long)lanes) & bits, bits).AsDouble(), then.Values, otherwise.Values));
    }

    /// <summary>By a mask that is all ones or all zeros in each lane, as one instruction takes it.</summary>
    [MethodImpl(LaneMath.Operation)]
    private static Vector256<double> Select(Vector256<double> mask, Vector256<double> then, Vector256<double> otherwise) =>
        Avx.IsSupported ? Avx.BlendVariable(otherwise, then, mask) : Vector256.ConditionalSelect(mask, then, otherwise);

    [MethodImpl(LaneMath.Operation)]
    public static int Greater(in FourLanes a, in FourLanes b) => (int)Vector256.GreaterThan(a.Values, b.Values).ExtractMostSignificantBits();

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes PowerOfTwo(in FourLanes exponent) => new(((exponent.Values + Vector256.Create(OneLane.BiasedUnits)).AsInt64() << 52).AsDouble());

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes RoughLog2(FourLanes a) => new(
        (Vector256.ConvertToDouble(a.Values.AsInt64()) * Vector256.Create(1 / OneLane.MantissaUnits)) - Vector256.Create(OneLane.ExponentBias));

    [MethodImpl(LaneMath.Operation)]
    public static FourLanes RoughExp2(FourLanes a)
    {
        // The conversion to a whole number, which such a processor has for single numbers only: either half is brought to the last bits of a mantissa.
        var number = (a.Values + Vector256.Create(OneLane.ExponentBias)) * Vector256.Create(OneLane.MantissaUnits);
        var units = Vector256.Create(OneLane.MantissaUnits);
        var upper = Vector256.Floor(number * Vector256.Create(1 / HalfUnits));
        var lower = number - (upper * Vector256.Create(HalfUnits));
        return new((((upper + units).AsInt64() << 32) | ((lower + units).AsInt64() & Vector256.Create((1L << 32) - 1))).AsDouble());
    }
}
