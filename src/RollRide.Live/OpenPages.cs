namespace RollRide.Live;

/// <summary>
/// Counts the pages that are open, and tells when the last one has closed. Time is counted in ticks that passed while the process ran: one that was
/// stopped for an hour and goes on has not waited for an hour.
/// </summary>
internal sealed class OpenPages
{
    /// <summary>Ticks without a page after which all have closed: 15 s, longer than a page takes to come back when it is loaded anew.</summary>
    public const int TicksToClose = 60;

    /// <summary>Ticks in which the first page is awaited: 10 min.</summary>
    public const int TicksToOpen = 2400;

    private readonly Lock _lock = new();
    private int _open;
    private int _waited;
    private bool _hasOpened;

    /// <summary>Whether no page is left to be served.</summary>
    public bool HaveClosed
    {
        get
        {
            lock (_lock)
                return _waited >= (_hasOpened ? TicksToClose : TicksToOpen);
        }
    }

    /// <summary>A tick has passed.</summary>
    public void CountTick()
    {
        lock (_lock)
            _waited = _open > 0 ? 0 : _waited + 1;
    }

    /// <summary>A page has opened; it closes when the result is disposed.</summary>
    public IDisposable Open()
    {
        lock (_lock)
            (_open, _waited, _hasOpened) = (_open + 1, 0, true);
        return new Page(this);
    }

    private sealed class Page(OpenPages pages) : IDisposable
    {
        public void Dispose()
        {
            lock (pages._lock)
                pages._open--;
        }
    }
}
