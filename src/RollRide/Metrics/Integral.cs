using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The integral of a quantity over time, gathered for each node of the steps by itself and added up only when asked for.</summary>
internal struct Integral
{
    private KeptOctet _nodes;

    /// <summary>The integral so far.</summary>
    public readonly double Value => GaussLobatto.Sum(_nodes);

    /// <summary>Adds a step.</summary>
    /// <param name="weights">Weights of its nodes, s.</param>
    /// <param name="values">The quantity at its nodes.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Add(Octet weights, Octet values) =>
        _nodes = Octet.Fma(weights, values, _nodes);

    /// <summary>Adds what was integrated elsewhere.</summary>
    public void Add(double value) => _nodes[0] += value;

    /// <summary>Adds the integral over another span of time.</summary>
    public void Merge(in Integral other) => _nodes = (Octet)_nodes + other._nodes;
}
