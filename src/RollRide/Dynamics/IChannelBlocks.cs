using System.Runtime.Intrinsics;
using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>A step that can evaluate all channels at eight instants at once.</summary>
internal interface IChannelBlocks : IDenseStep
{
    /// <summary>Evaluates every channel at eight instants, in SI units. Allocates nothing.</summary>
    /// <param name="times">The instants, s, in the step.</param>
    /// <param name="channels">Receives eight values a channel, channel after channel (<see cref="Channel"/>).</param>
    void WriteChannels(Vector512<double> times, Span<double> channels);
}
