using System.Runtime.Intrinsics;
using RollRide.Dynamics;

namespace RollRide.Metrics;

/// <summary>A quantity computed from the channels, at several instants at once.</summary>
internal interface IQuantity
{
    /// <summary>The quantity in the lane of each instant.</summary>
    Vector512<double> Of(ChannelRows at);
}

/// <summary>A channel times a factor.</summary>
internal readonly struct Scaled(Channel channel, double factor) : IQuantity
{
    public Vector512<double> Of(ChannelRows at) => Vector512.Create(factor) * at[channel];
}

/// <summary>The size of a channel without its sign.</summary>
internal readonly struct Magnitude(Channel channel) : IQuantity
{
    public Vector512<double> Of(ChannelRows at) => Vector512.Abs(at[channel]);
}

/// <summary>The larger of a left and a right channel, each times a factor: the sides' largest with 1, the size of their least with −1.</summary>
internal readonly struct LargerSide(Channel left, double factor) : IQuantity
{
    public Vector512<double> Of(ChannelRows at)
    {
        var (one, other) = (Vector512.Create(factor) * at[left], Vector512.Create(factor) * at[left + 1]);
        return Vector512.ConditionalSelect(Vector512.GreaterThan(one, other), one, other);
    }
}

/// <summary>The load transfer <c>|FR − FL|/2</c>, N.</summary>
internal readonly struct LoadTransfer : IQuantity
{
    public Vector512<double> Of(ChannelRows at) =>
        Vector512.Create(0.5) * Vector512.Abs(at[Channel.TyreLoadRight] - at[Channel.TyreLoadLeft]);
}
