using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace RollRide.Numerics;

/// <summary>
/// Eight numbers side by side, in two vectors of four: such vectors are in the program's machine code and on nearly every processor, whereas
/// one vector of eight is compiled, slowly, each time the program starts on a processor that has none.
/// </summary>
/// <param name="lower">The first four numbers.</param>
/// <param name="upper">The last four.</param>
internal readonly struct Octet(Vector256<double> lower, Vector256<double> upper)
{
    /// <summary>How many numbers there are.</summary>
    public const int Count = 8;

    /// <summary>A bit for each place.</summary>
    public const uint Everywhere = (1U << Count) - 1;

    /// <summary>The first four numbers.</summary>
    public readonly Vector256<double> Lower = lower;

    /// <summary>The last four numbers.</summary>
    public readonly Vector256<double> Upper = upper;

    /// <summary>0 to 7.</summary>
    public static Octet Indices => new(Vector256.Create(0, 1, 2, 3.0), Vector256.Create(4, 5, 6, 7.0));

    /// <summary>One of the numbers.</summary>
    /// <param name="lane">Which one, 0 to 7.</param>
    public double this[int lane]
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)lane, (uint)Count);
            return Unsafe.Add(ref Unsafe.As<Octet, double>(ref Unsafe.AsRef(in this)), lane);
        }
    }

    /// <summary>The same number eight times.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet All(double value) => new(Vector256.Create(value), Vector256.Create(value));

    /// <summary>Eight numbers in their order.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet Of(ReadOnlySpan<double> values) =>
        new(Vector256.Create(values), Vector256.Create(values[Vector256<double>.Count..]));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet operator +(Octet a, Octet b) => new(a.Lower + b.Lower, a.Upper + b.Upper);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet operator -(Octet a, Octet b) => new(a.Lower - b.Lower, a.Upper - b.Upper);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet operator -(Octet a) => new(-a.Lower, -a.Upper);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet operator *(Octet a, Octet b) => new(a.Lower * b.Lower, a.Upper * b.Upper);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet operator /(Octet a, double b) => new(a.Lower / b, a.Upper / b);

    /// <summary><c>a b + c</c>, rounded once.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet Fma(Octet a, Octet b, Octet c) =>
        new(Vector256.FusedMultiplyAdd(a.Lower, b.Lower, c.Lower), Vector256.FusedMultiplyAdd(a.Upper, b.Upper, c.Upper));

    /// <summary>The size of each number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet Abs(Octet a) => new(Vector256.Abs(a.Lower), Vector256.Abs(a.Upper));

    /// <summary>The greater one in each place; neither may be no number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet Max(Octet a, Octet b) => new(Vector256.MaxNative(a.Lower, b.Lower), Vector256.MaxNative(a.Upper, b.Upper));

    /// <summary>The smaller one in each place; neither may be no number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet Min(Octet a, Octet b) => new(Vector256.MinNative(a.Lower, b.Lower), Vector256.MinNative(a.Upper, b.Upper));

    /// <summary>The next whole number below each number, or itself.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet Floor(Octet a) => new(Vector256.Floor(a.Lower), Vector256.Floor(a.Upper));

    /// <summary>A bit for each place where the first is greater.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Greater(Octet a, Octet b) => Bits(Vector256.GreaterThan(a.Lower, b.Lower), Vector256.GreaterThan(a.Upper, b.Upper));

    /// <summary>A bit for each place where the first is greater or both are the same.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint GreaterOrSame(Octet a, Octet b) =>
        Bits(Vector256.GreaterThanOrEqual(a.Lower, b.Lower), Vector256.GreaterThanOrEqual(a.Upper, b.Upper));

    /// <summary>A bit for each place where both are the same.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Same(Octet a, Octet b) => Bits(Vector256.Equals(a.Lower, b.Lower), Vector256.Equals(a.Upper, b.Upper));

    /// <summary>In each place a number of the one or of the other, by whether two numbers are the same.</summary>
    /// <param name="a">Compared with <paramref name="b"/>.</param>
    /// <param name="b">Compared with <paramref name="a"/>.</param>
    /// <param name="then">Where they are the same.</param>
    /// <param name="otherwise">Where they are not.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Octet WhereSame(Octet a, Octet b, Octet then, Octet otherwise) => new(
        Vector256.ConditionalSelect(Vector256.Equals(a.Lower, b.Lower), then.Lower, otherwise.Lower),
        Vector256.ConditionalSelect(Vector256.Equals(a.Upper, b.Upper), then.Upper, otherwise.Upper));

    /// <summary>Writes the numbers.</summary>
    /// <param name="values">Receives them; at least eight long.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void CopyTo(Span<double> values)
    {
        Lower.CopyTo(values);
        Upper.CopyTo(values[Vector256<double>.Count..]);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static uint Bits(Vector256<double> lower, Vector256<double> upper) =>
        lower.ExtractMostSignificantBits() | (upper.ExtractMostSignificantBits() << Vector256<double>.Count);
}
