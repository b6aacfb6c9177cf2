namespace RollRide.Live;

/// <summary>
/// Tells when a file has changed, by its length and time: looking at a few files four times a second costs nothing, sees also a file that an editor
/// replaces by another, and works on network drives, where the system reports no change.
/// </summary>
/// <param name="files">The files' paths; which ones may change with their content.</param>
internal sealed class FileWatch(Func<IReadOnlyList<string>> files)
{
    // Files no longer named stay known: they may be named again by the same scenario, read anew.
    private readonly Dictionary<string, Stamp> _known = Look(files()).ToDictionary(stamp => stamp.Path);
    private Stamp[] _last = [];

    /// <summary>
    /// Whether a file has changed since the last change that was told. A file still being written is told of when it has come to rest; one that was
    /// not looked at before has not changed.
    /// </summary>
    public bool HasChanged()
    {
        var now = Look(files());
        var isAtRest = now.SequenceEqual(_last);
        _last = now;
        if (!isAtRest)
            return false;
        var changed = Array.Exists(now, stamp => _known.TryGetValue(stamp.Path, out var before) && before != stamp);
        foreach (var stamp in now)
            _known[stamp.Path] = stamp;
        return changed;
    }

    private static Stamp[] Look(IReadOnlyList<string> paths) => [.. paths.Select(Look)];

    private static Stamp Look(string path)
    {
        try
        {
            var file = new FileInfo(path);
            if (file.LinkTarget is not null)
                file = (FileInfo)(file.ResolveLinkTarget(returnFinalTarget: true) ?? file);
            return file.Exists ? new Stamp(path, file.Length, file.LastWriteTimeUtc) : new Stamp(path, 0, default);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new Stamp(path, 0, default);
        }
    }

    private readonly record struct Stamp(string Path, long Length, DateTime Written);
}
