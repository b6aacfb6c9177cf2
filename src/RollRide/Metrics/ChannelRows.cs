using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>All channels at up to eight instants side by side: a row for each channel, a lane for each instant.</summary>
internal sealed class ChannelRows
{
    private readonly double[] _values = new double[ChannelTable.Count * GaussLobatto.Lanes];

    /// <summary>All rows, one after the other.</summary>
    public Span<double> Values => _values;

    /// <summary>The row of a channel.</summary>
    public Vector512<double> this[Channel channel] =>
        Vector512.LoadUnsafe(ref MemoryMarshal.GetArrayDataReference(_values), (nuint)((int)channel * GaussLobatto.Lanes));

    /// <summary>The lanes of a channel one by one.</summary>
    public ReadOnlySpan<double> Lanes(Channel channel) => _values.AsSpan((int)channel * GaussLobatto.Lanes, GaussLobatto.Lanes);

    /// <summary>Copies one lane to all the others.</summary>
    public void Spread(int lane)
    {
        var rows = MemoryMarshal.Cast<double, Vector512<double>>(_values.AsSpan());
        for (var row = 0; row < rows.Length; row++)
            rows[row] = Vector512.Create(_values[(row * GaussLobatto.Lanes) + lane]);
    }
}
