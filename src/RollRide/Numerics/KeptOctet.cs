using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace RollRide.Numerics;

/// <summary>
/// An <see cref="Octet"/> as objects keep it: methods of a type that holds vectors are left out of the program's machine code, since their
/// length might be another one there, and compiled at each start.
/// </summary>
[InlineArray(Octet.Count)]
internal struct KeptOctet
{
    private double _first;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static implicit operator Octet(in KeptOctet kept) => new(
        Vector256.LoadUnsafe(in kept._first),
        Vector256.LoadUnsafe(in kept._first, (nuint)Vector256<double>.Count));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static implicit operator KeptOctet(in Octet octet)
    {
        Unsafe.SkipInit(out KeptOctet kept);
        octet.Lower.StoreUnsafe(ref kept._first);
        octet.Upper.StoreUnsafe(ref kept._first, (nuint)Vector256<double>.Count);
        return kept;
    }
}
