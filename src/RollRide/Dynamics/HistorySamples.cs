namespace RollRide.Dynamics;

/// <summary>
/// The samples of a run, channel by channel: in memory, or, of a run longer than a block where there is a spool, in blocks in the spool.
/// Filled by one thread; then read by any number.
/// </summary>
internal sealed class HistorySamples
{
    /// <summary>Samples in a block: some 15 MB with all channels.</summary>
    public const int BlockLength = 1 << 15;

    private readonly int _block;
    private readonly int[] _recorded;
    private readonly double[]?[] _channels = new double[]?[ChannelTable.Count];
    private readonly IHistorySpool? _spool;
    private int _inBlock;

    public HistorySamples(IEnumerable<Channel> channels, int count, Func<IHistorySpool>? spool)
    {
        _block = spool is null ? count : Math.Min(count, BlockLength);
        _recorded = [.. channels.Select(channel => (int)channel)];
        _spool = count > _block ? spool!() : null;

        // Not cleared: every sample is written, or the history is refused.
        foreach (var channel in _recorded)
            _channels[channel] = GC.AllocateUninitializedArray<double>(_block);
    }

    /// <summary>Adds the values of all channels at one instant.</summary>
    /// <param name="values">One per channel, recorded or not.</param>
    public void Add(ReadOnlySpan<double> values)
    {
        foreach (var c in _recorded)
            _channels[c]![_inBlock] = values[c];
        if (++_inBlock == _block)
            EndBlock();
    }

    /// <summary>Ends the filling.</summary>
    public void End()
    {
        if (_inBlock > 0)
            EndBlock();
        if (_spool is null)
            return;
        foreach (var c in _recorded)
            _channels[c] = [];
    }

    /// <summary>Reads samples of a channel.</summary>
    /// <exception cref="InvalidOperationException">The channel was not recorded.</exception>
    public void Read(Channel channel, int first, Span<double> values)
    {
        var held = Held(channel);
        if (_spool is null)
        {
            held.AsSpan(first, values.Length).CopyTo(values);
            return;
        }

        for (var slot = Array.IndexOf(_recorded, (int)channel); !values.IsEmpty;)
        {
            var (block, at) = Math.DivRem(first, _block);
            var here = values[..Math.Min(values.Length, _block - at)];
            _spool.Read(((((long)block * _recorded.Length) + slot) * _block) + at, here);
            first += here.Length;
            values = values[here.Length..];
        }
    }

    /// <summary>The first samples of a channel.</summary>
    /// <exception cref="InvalidOperationException">The channel was not recorded.</exception>
    public ReadOnlySpan<double> First(Channel channel, int count)
    {
        if (_spool is null)
            return Held(channel).AsSpan(0, count);
        var values = new double[count];
        Read(channel, 0, values);
        return values;
    }

    private double[] Held(Channel channel) => _channels[(int)channel] ?? throw new InvalidOperationException($"{channel} was not recorded.");

    // The last block is written whole too: then every sample's place follows from its number.
    private void EndBlock()
    {
        _inBlock = 0;
        if (_spool is null)
            return;
        foreach (var c in _recorded)
            _spool.Append(_channels[c]);
    }
}
