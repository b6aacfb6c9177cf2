using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>A step that gives its channels at all nodes of a rule at once, which costs less than node by node.</summary>
internal interface IChannelStep : IDenseStep
{
    /// <summary>The rule at whose nodes it gives them.</summary>
    GaussLobatto Rule { get; }

    /// <summary>Writes every channel at the nodes, in SI units. Allocates nothing.</summary>
    /// <param name="rows">
    /// A row of <see cref="GaussLobatto.Lanes"/> numbers for each <see cref="Channel"/>, in their order: node <c>n</c> of channel <c>c</c>
    /// stands at <c>8 c + n</c>. Lanes beyond the last node repeat the value of any node.
    /// </param>
    void WriteChannels(Span<double> rows);
}
