using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace RollRide.Numerics;

/// <summary>
/// A row of lanes that starts on a boundary of the processor's cache, so that no access to eight lanes touches two lines of it.
/// Not checked against its length: the loops over it are the whole cost of a run.
/// </summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class LaneBuffer<T>
    where T : struct, ILanes<T>
{
    private const int CacheLine = 64;

    private readonly double[] _values;
    private readonly int _first;

    /// <summary>Makes a buffer of zeros.</summary>
    /// <param name="length">Number of elements.</param>
    public LaneBuffer(int length)
    {
        Length = length;

        // Pinned, so that the alignment lasts; a single lane touches one line wherever it lies.
        _values = GC.AllocateArray<double>((length * Stride) + (CacheLine / sizeof(double)), pinned: T.Count > 1);
        var address = Marshal.UnsafeAddrOfPinnedArrayElement(_values, 0);
        _first = (int)((CacheLine - (address % CacheLine)) % CacheLine) / sizeof(double);
    }

    /// <summary>Numbers in an element: one a lane, and more where a lane holds a derivative too.</summary>
    private static int Stride => Unsafe.SizeOf<T>() / sizeof(double);

    /// <summary>Number of elements.</summary>
    public int Length { get; }

    /// <summary>All numbers, lane after lane in element after element.</summary>
    public Span<double> Scalars => _values.AsSpan(_first, Length * Stride);

    /// <summary>All elements.</summary>
    public Span<T> Elements => MemoryMarshal.CreateSpan(ref this[0], Length);

    /// <summary>An element.</summary>
    public ref T this[int index]
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => ref Unsafe.Add(ref Unsafe.As<double, T>(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_values), _first)), index);
    }

    /// <summary>One lane of all elements, whatever the number of lanes.</summary>
    /// <param name="lane">The lane.</param>
    public LaneColumn Column(int lane) => new(_values, _first + lane, Stride);

    /// <summary>One lane of an element.</summary>
    public ref double this[int index, int lane]
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_values), _first + (index * Stride) + lane);
    }
}

/// <summary>One lane of a <see cref="LaneBuffer{T}"/>.</summary>
/// <param name="values">All numbers of the buffer.</param>
/// <param name="first">Where the lane's first number stands.</param>
/// <param name="stride">How far it is to the next one.</param>
internal readonly struct LaneColumn(double[] values, int first, int stride)
{
    /// <summary>The lane's number in an element.</summary>
    public double this[int index]
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => values[first + (index * stride)];
    }
}
