using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace RollRide.Numerics;

/// <summary>Eight numbers side by side; on a processor with shorter vectors the runtime takes them in parts.</summary>
/// <param name="values">The numbers.</param>
internal readonly struct EightLanes(Vector512<double> values) : ILanes<EightLanes>
{
    /// <summary>The numbers.</summary>
    public readonly Vector512<double> Values = values;

    public static int Count => Vector512<double>.Count;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes operator +(EightLanes a, EightLanes b) => new(a.Values + b.Values);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes operator -(EightLanes a, EightLanes b) => new(a.Values - b.Values);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes operator *(EightLanes a, EightLanes b) => new(a.Values * b.Values);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes operator /(EightLanes a, EightLanes b) => new(a.Values / b.Values);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes All(double value) => new(Vector512.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes Fma(EightLanes a, EightLanes b, EightLanes c) => new(Vector512.FusedMultiplyAdd(a.Values, b.Values, c.Values));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes NegatedFma(EightLanes a, EightLanes b, EightLanes c) => new(Vector512.FusedMultiplyAdd(-a.Values, b.Values, c.Values));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes Abs(EightLanes a) => new(Vector512.Abs(a.Values));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes Max(EightLanes a, EightLanes b) => new(Vector512.MaxNative(a.Values, b.Values));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes Min(EightLanes a, EightLanes b) => new(Vector512.MinNative(a.Values, b.Values));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes WhereGreater(EightLanes a, EightLanes b, EightLanes then, EightLanes otherwise) =>
        new(Vector512.ConditionalSelect(Vector512.GreaterThan(a.Values, b.Values), then.Values, otherwise.Values));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes Where(int lanes, EightLanes then, EightLanes otherwise)
    {
        var bits = Vector512.Create(1L, 2, 4, 8, 16, 32, 64, 128);
        return new(Vector512.ConditionalSelect(Vector512.Equals(Vector512.Create((long)lanes) & bits, bits).AsDouble(), then.Values, otherwise.Values));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Greater(EightLanes a, EightLanes b) => (int)Vector512.GreaterThan(a.Values, b.Values).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes RoughLog2(EightLanes a) => new(
        (Vector512.ConvertToDouble(a.Values.AsInt64()) * Vector512.Create(1 / OneLane.MantissaUnits)) - Vector512.Create(OneLane.ExponentBias));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static EightLanes RoughExp2(EightLanes a) => new(
        Vector512.ConvertToInt64((a.Values + Vector512.Create(OneLane.ExponentBias)) * Vector512.Create(OneLane.MantissaUnits)).AsDouble());
}
