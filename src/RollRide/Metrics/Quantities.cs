using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The channels at one instant of each lane.</summary>
/// <param name="first">The first channel; the others follow in their order.</param>
/// <typeparam name="T">The lanes.</typeparam>
internal readonly ref struct Channels<T>(ref T first)
    where T : struct, ILanes<T>
{
    private readonly ref T _first = ref first;

    /// <summary>A channel.</summary>
    public ref T this[Channel channel]
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => ref Unsafe.Add(ref _first, (int)channel);
    }
}

/// <summary>A quantity that metrics are taken of, as a function of the channels at one instant, SI.</summary>
internal interface IQuantity
{
    /// <summary>The quantity.</summary>
    /// <param name="at">The channels.</param>
    T Of<T>(in Channels<T> at)
        where T : struct, ILanes<T>;
}

/// <summary>A channel, or its opposite.</summary>
/// <param name="channel">The channel.</param>
/// <param name="factor">1 or −1.</param>
internal readonly struct Value(Channel channel, double factor = 1) : IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Of<T>(in Channels<T> at)
        where T : struct, ILanes<T> => T.All(factor) * at[channel];
}

/// <summary>The size of a channel.</summary>
/// <param name="channel">The channel.</param>
internal readonly struct Size(Channel channel) : IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Of<T>(in Channels<T> at)
        where T : struct, ILanes<T> => T.Abs(at[channel]);
}

/// <summary>The square of a quantity.</summary>
/// <param name="quantity">The quantity.</param>
/// <typeparam name="TQuantity">Its kind.</typeparam>
internal readonly struct Square<TQuantity>(TQuantity quantity) : IQuantity
    where TQuantity : struct, IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Of<T>(in Channels<T> at)
        where T : struct, ILanes<T>
    {
        var value = quantity.Of(at);
        return value * value;
    }
}

/// <summary>The size of the relative roll <c>|φu − φs|</c>, rad.</summary>
internal readonly struct SuspensionRoll : IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Of<T>(in Channels<T> at)
        where T : struct, ILanes<T> => T.Abs(at[Channel.BodyRoll] - at[Channel.UnsprungRoll]);
}

/// <summary>The load transfer <c>|FR − FL|/2</c>, N.</summary>
internal readonly struct LoadTransfer : IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Of<T>(in Channels<T> at)
        where T : struct, ILanes<T> => T.All(0.5) * T.Abs(at[Channel.TyreLoadRight] - at[Channel.TyreLoadLeft]);
}

/// <summary>The power that both dampers turn into heat, W.</summary>
internal readonly struct DamperPower : IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Of<T>(in Channels<T> at)
        where T : struct, ILanes<T> =>
        (at[Channel.DamperForceLeft] * at[Channel.DamperVelocityLeft]) + (at[Channel.DamperForceRight] * at[Channel.DamperVelocityRight]);
}
