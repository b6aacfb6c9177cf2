using System.Runtime.Intrinsics;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>All channels at up to eight instants side by side: a row for each channel, a lane for each instant.</summary>
internal sealed class ChannelRows
{
    private readonly LaneBuffer<EightLanes> _rows = new(ChannelTable.Count, isLongLived: false);

    /// <summary>All rows, one after the other.</summary>
    public Span<double> Values => _rows.Scalars;

    /// <summary>The row of a channel.</summary>
    public Vector512<double> this[Channel channel] => _rows[(int)channel].Values;

    /// <summary>The lanes of a channel one by one.</summary>
    public ReadOnlySpan<double> Lanes(Channel channel) => _rows.Scalars.Slice((int)channel * GaussLobatto.Lanes, GaussLobatto.Lanes);

    /// <summary>Copies one lane to all the others.</summary>
    public void Spread(int lane)
    {
        for (var row = 0; row < _rows.Length; row++)
            _rows[row] = EightLanes.All(_rows[row, lane]);
    }
}
