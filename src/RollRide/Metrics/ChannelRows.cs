using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>All channels at up to eight instants side by side: a row for each channel, a lane for each instant.</summary>
internal sealed class ChannelRows
{
    private readonly LaneBuffer<FourLanes> _rows = new(2 * ChannelTable.Count, isLongLived: false);

    /// <summary>All rows, one after the other.</summary>
    public Span<double> Values => _rows.Scalars;

    /// <summary>The row of a channel.</summary>
    public Octet this[Channel channel]
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => new(_rows[2 * (int)channel].Values, _rows[(2 * (int)channel) + 1].Values);
    }

    /// <summary>The lanes of a channel one by one.</summary>
    public ReadOnlySpan<double> Lanes(Channel channel) => _rows.Scalars.Slice((int)channel * GaussLobatto.Lanes, GaussLobatto.Lanes);

    /// <summary>Copies one lane to all the others.</summary>
    public void Spread(int lane)
    {
        for (var row = 0; row < _rows.Length; row += 2)
            _rows[row] = _rows[row + 1] = FourLanes.All(_rows[row, lane]);
    }
}
