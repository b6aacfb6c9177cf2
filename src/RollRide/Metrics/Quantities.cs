using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>A quantity computed from the channels, at several instants at once.</summary>
internal interface IQuantity
{
    /// <summary>The quantity in the lane of each instant.</summary>
    Octet Of(ChannelRows at);
}

/// <summary>A channel times a factor.</summary>
internal readonly struct Scaled(Channel channel, double factor) : IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Octet Of(ChannelRows at) => Octet.All(factor) * at[channel];
}

/// <summary>The size of a channel without its sign.</summary>
internal readonly struct Magnitude(Channel channel) : IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Octet Of(ChannelRows at) => Octet.Abs(at[channel]);
}

/// <summary>The load transfer <c>|FR − FL|/2</c>, N.</summary>
internal readonly struct LoadTransfer : IQuantity
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Octet Of(ChannelRows at) =>
        Octet.All(0.5) * Octet.Abs(at[Channel.TyreLoadRight] - at[Channel.TyreLoadLeft]);
}
