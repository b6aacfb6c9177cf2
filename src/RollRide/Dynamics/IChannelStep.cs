using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>A step that gives its channels at eight instants at once, which costs less than one after the other.</summary>
internal interface IChannelStep : IDenseStep
{
    /// <summary>The rule that suits the degree of its solution.</summary>
    GaussLobatto Rule { get; }

    /// <summary>The last of the motions: coordinates, velocities and accelerations come first among the channels.</summary>
    const Channel LastMotion = Channel.UnsprungRollAcceleration;

    /// <summary>The most instants at which motions are written together: they stay in the processor's nearest cache.</summary>
    const int MostTogether = 64;

    /// <summary>Writes the motions asked for at many instants, in SI units. Allocates nothing.</summary>
    /// <param name="sinceStart">Times since the step's start, s: a multiple of <see cref="GaussLobatto.Lanes"/>, at most <see cref="MostTogether"/>.</param>
    /// <param name="channels">Receives the values: an array for each <see cref="Channel"/>, in their order, or null; those that are no motions are left.</param>
    /// <param name="first">Where in its array the value at the first instant goes.</param>
    void WriteMotions(ReadOnlySpan<double> sinceStart, double[]?[] channels, int first);

    /// <summary>Writes every channel at eight instants, in SI units. Allocates nothing.</summary>
    /// <param name="times">The instants, s, in the step.</param>
    /// <param name="rows">
    /// A row of <see cref="GaussLobatto.Lanes"/> numbers for each <see cref="Channel"/>, in their order: channel <c>c</c> at instant
    /// <c>n</c> stands at <c>8 c + n</c>.
    /// </param>
    void WriteChannels(in Octet times, Span<double> rows);
}
