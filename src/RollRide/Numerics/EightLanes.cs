using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace RollRide.Numerics;

/// <summary>Eight numbers side by side; on a processor with shorter vectors the runtime takes them in parts.</summary>
/// <param name="values">The numbers.</param>
[method: MethodImpl(LaneMath.Operation)]
internal readonly struct EightLanes(Vector512<double> values) : ILanes<EightLanes>
{
    /// <summary>The numbers.</summary>
    public readonly Vector512<double> Values = values;

    public static int Count => Vector512<double>.Count;

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes operator +(in EightLanes a, in EightLanes b) => new(a.Values + b.Values);

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes operator -(in EightLanes a, in EightLanes b) => new(a.Values - b.Values);

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes operator *(in EightLanes a, in EightLanes b) => new(a.Values * b.Values);

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes operator /(in EightLanes a, in EightLanes b) => new(a.Values / b.Values);

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes operator -(in EightLanes a) => new(-a.Values);

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes Sqrt(in EightLanes a) => new(Vector512.Sqrt(a.Values));

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes CopySign(in EightLanes size, in EightLanes sign) => new(Vector512.CopySign(size.Values, sign.Values));

    public static EightLanes Map(ReadOnlySpan<ISmoothFunction?> functions, in EightLanes x, out EightLanes slope) => LaneMath.Map(functions, x, out slope);

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes All(double value) => new(Vector512.Create(value));

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes Fma(in EightLanes a, in EightLanes b, in EightLanes c) => new(Vector512.FusedMultiplyAdd(a.Values, b.Values, c.Values));

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes NegatedFma(in EightLanes a, in EightLanes b, in EightLanes c) => new(NegatedFma(a.Values, b.Values, c.Values));

    /// <summary>As one instruction where the processor has it: otherwise the sign takes one of its own.</summary>
    [MethodImpl(LaneMath.Operation)]
    private static Vector512<double> NegatedFma(Vector512<double> a, Vector512<double> b, Vector512<double> c) =>
        Avx512F.IsSupported ? Avx512F.FusedMultiplyAddNegated(a, b, c) : Vector512.FusedMultiplyAdd(-a, b, c);

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes Abs(in EightLanes a) => new(Vector512.Abs(a.Values));

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes Max(in EightLanes a, in EightLanes b) => new(Vector512.MaxNative(a.Values, b.Values));

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes Min(in EightLanes a, in EightLanes b) => new(Vector512.MinNative(a.Values, b.Values));

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes WhereGreater(in EightLanes a, in EightLanes b, in EightLanes then, in EightLanes otherwise) =>
        new(Vector512.ConditionalSelect(Vector512.GreaterThan(a.Values, b.Values), then.Values, otherwise.Values));

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes Where(int lanes, in EightLanes then, in EightLanes otherwise)
    {
        var bits = Vector512.Create(1L, 2, 4, 8, 16, 32, 64, 128);
        return new(Vector512.ConditionalSelect(Vector512.Equals(Vector512.Create((long)lanes) & bits, bits).AsDouble(), then.Values, otherwise.Values));
    }

    [MethodImpl(LaneMath.Operation)]
    public static int Greater(in EightLanes a, in EightLanes b) => (int)Vector512.GreaterThan(a.Values, b.Values).ExtractMostSignificantBits();

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes PowerOfTwo(in EightLanes exponent) => new(((exponent.Values + Vector512.Create(OneLane.BiasedUnits)).AsInt64() << 52).AsDouble());

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes RoughLog2(EightLanes a) => new(
        (Vector512.ConvertToDouble(a.Values.AsInt64()) * Vector512.Create(1 / OneLane.MantissaUnits)) - Vector512.Create(OneLane.ExponentBias));

    [MethodImpl(LaneMath.Operation)]
    public static EightLanes RoughExp2(EightLanes a) => new(
        Vector512.ConvertToInt64((a.Values + Vector512.Create(OneLane.ExponentBias)) * Vector512.Create(OneLane.MantissaUnits)).AsDouble());
}
