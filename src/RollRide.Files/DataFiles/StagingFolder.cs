namespace RollRide.DataFiles;

/// <summary>The hidden folder inside an output folder in which its new files wait until all of them are written.</summary>
/// <remarks>
/// <c>written</c> holds the files that are not yet in place, <c>replaced</c> the older ones that made room, <c>commit</c> the names in the
/// order in which they are put in place: it is there from the moment in which all are written, so that whoever finds the folder of a run
/// that was killed knows whether its files are whole. <c>lock</c> is held by the run that writes.
/// </remarks>
internal sealed class StagingFolder : IDisposable
{
    private const string Prefix = ".unfinished-";

    private readonly string _output;
    private readonly string _path;
    private readonly FileStream _lock;

    /// <summary>Makes a folder.</summary>
    /// <param name="output">Full path of the output folder, which exists.</param>
    /// <exception cref="IOException">It cannot be made.</exception>
    public StagingFolder(string output)
    {
        (_output, _path) = (output, NewPath(output));
        Directory.CreateDirectory(_path);
        try
        {
            _lock = Hold(_path, FileMode.CreateNew);
            Directory.CreateDirectory(Written(""));
            Directory.CreateDirectory(Replaced(""));
        }
        catch
        {
            _lock?.Dispose();
            Directory.Delete(_path, recursive: true);
            throw;
        }
    }

    private StagingFolder(string output, string path, FileStream held) => (_output, _path, _lock) = (output, path, held);

    /// <summary>A path for a new hidden folder.</summary>
    /// <param name="output">Full path of the output folder.</param>
    public static string NewPath(string output) => Path.Combine(output, $"{Prefix}{Path.GetRandomFileName()}");

    /// <summary>The hidden folders in an output folder: of runs that were killed, or are writing there now.</summary>
    /// <param name="output">The output folder; it need not exist.</param>
    public static IReadOnlyList<string> AllIn(string output) =>
        Directory.Exists(output) ? [.. Directory.EnumerateDirectories(output, $"{Prefix}*").Order(StringComparer.Ordinal)] : [];

    /// <summary>
    /// Whether a hidden folder has a lock, held or not. It has none if an early version made it, or if its run was killed just as it made or
    /// removed the folder.
    /// </summary>
    /// <param name="path">The hidden folder.</param>
    public static bool HasLock(string path) => File.Exists(LockOf(path));

    /// <summary>Takes over the folder of a run that was killed; null where its run may still be alive.</summary>
    /// <param name="path">The hidden folder.</param>
    public static StagingFolder? TakeOver(string path)
    {
        try
        {
            return new StagingFolder(Path.GetDirectoryName(path)!, path, Hold(path, FileMode.Open));
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            // Held by its run, not ours to touch, or without a lock.
            return null;
        }
    }

    /// <summary>Whether all files were written, so that those still here can be put in place.</summary>
    public bool IsWhole => File.Exists(Marker);

    private string Marker => Path.Combine(_path, "commit");

    /// <summary>Path of a file that is not yet in place.</summary>
    public string Written(string name) => Path.Combine(_path, "written", name);

    /// <summary>A path for a file that is never put in place.</summary>
    public string NewSpool() => Path.Combine(_path, $"spool-{Path.GetRandomFileName()}");

    /// <summary>Notes that all files are written.</summary>
    /// <param name="names">Their names, in the order in which they are put in place.</param>
    /// <param name="renaming">Is told of the renaming just before it.</param>
    public void BeginCommit(IReadOnlyList<string> names, Action? renaming)
    {
        var unfinished = Marker + ".unfinished";
        File.WriteAllLines(unfinished, names);
        renaming?.Invoke();
        File.Move(unfinished, Marker);
    }

    /// <summary>Puts a file in place, in one step, and keeps the older one of that name.</summary>
    public void Place(string name)
    {
        var target = Path.Combine(_output, name);
        if (File.Exists(target))
            File.Replace(Written(name), target, Replaced(name), ignoreMetadataErrors: true);
        else
            File.Move(Written(name), target);
    }

    /// <summary>Puts the files in place that are not.</summary>
    public void PlaceRest()
    {
        foreach (var name in File.ReadAllLines(Marker).Where(name => File.Exists(Written(name))))
            Place(name);
    }

    /// <summary>Takes the files that are in place out again, and puts the older ones back.</summary>
    public void WithdrawAll()
    {
        if (!IsWhole)
            return;
        foreach (var name in File.ReadAllLines(Marker).Where(name => !File.Exists(Written(name))))
        {
            var target = Path.Combine(_output, name);
            File.Move(target, Written(name));
            if (File.Exists(Replaced(name)))
                File.Move(Replaced(name), target);
        }

        File.Delete(Marker);
    }

    /// <summary>Lets go of the folder and leaves it as it is.</summary>
    public void Leave() => _lock.Dispose();

    /// <summary>Removes the folder with all that is in it.</summary>
    public void Dispose()
    {
        // Without its marker, what is left if this is broken off is thrown away by the next run and never put in place.
        if (Directory.Exists(_path)) File.Delete(Marker);
        _lock.Dispose();
        if (Directory.Exists(_path)) Directory.Delete(_path, recursive: true);
    }

    private string Replaced(string name) => Path.Combine(_path, "replaced", name);

    private static string LockOf(string path) => Path.Combine(path, "lock");

    private static FileStream Hold(string path, FileMode mode) => new(LockOf(path), mode, FileAccess.ReadWrite, FileShare.None);
}
