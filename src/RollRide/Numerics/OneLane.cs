using System.Runtime.CompilerServices;

namespace RollRide.Numerics;

/// <summary>A single number.</summary>
/// <param name="value">The number.</param>
internal readonly struct OneLane(double value) : ILanes<OneLane>
{
    /// <summary>The number.</summary>
    public readonly double Value = value;

    internal const double MantissaUnits = 1L << 52;
    internal const double ExponentBias = 1023;

    // A whole number added to it stands, with the bias of an exponent, in the last bits of the mantissa.
    internal const double BiasedUnits = MantissaUnits + ExponentBias;

    public static int Count => 1;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane operator +(in OneLane a, in OneLane b) => new(a.Value + b.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane operator -(in OneLane a, in OneLane b) => new(a.Value - b.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane operator *(in OneLane a, in OneLane b) => new(a.Value * b.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane operator /(in OneLane a, in OneLane b) => new(a.Value / b.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane operator -(in OneLane a) => new(-a.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane Sqrt(in OneLane a) => new(Math.Sqrt(a.Value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane CopySign(in OneLane size, in OneLane sign) => new(Math.CopySign(size.Value, sign.Value));

    public static OneLane Map(ReadOnlySpan<ISmoothFunction?> functions, in OneLane x, out OneLane slope)
    {
        var (value, first) = functions[0]!.At(x.Value);
        slope = new(first);
        return new(value);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane All(double value) => new(value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane Fma(in OneLane a, in OneLane b, in OneLane c) => new(Math.FusedMultiplyAdd(a.Value, b.Value, c.Value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane NegatedFma(in OneLane a, in OneLane b, in OneLane c) => new(Math.FusedMultiplyAdd(-a.Value, b.Value, c.Value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane Abs(in OneLane a) => new(Math.Abs(a.Value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane Max(in OneLane a, in OneLane b) => new(a.Value > b.Value ? a.Value : b.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane Min(in OneLane a, in OneLane b) => new(a.Value < b.Value ? a.Value : b.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane WhereGreater(in OneLane a, in OneLane b, in OneLane then, in OneLane otherwise) => a.Value > b.Value ? then : otherwise;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane Where(int lanes, in OneLane then, in OneLane otherwise) => (lanes & 1) != 0 ? then : otherwise;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Greater(in OneLane a, in OneLane b) => a.Value > b.Value ? 1 : 0;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane PowerOfTwo(in OneLane exponent) => new(BitConverter.Int64BitsToDouble(BitConverter.DoubleToInt64Bits(exponent.Value + BiasedUnits) << 52));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane RoughLog2(OneLane a) => new((BitConverter.DoubleToInt64Bits(a.Value) * (1 / MantissaUnits)) - ExponentBias);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static OneLane RoughExp2(OneLane a) => new(BitConverter.Int64BitsToDouble((long)((a.Value + ExponentBias) * MantissaUnits)));
}
