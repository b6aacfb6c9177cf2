namespace RollRide.DataFiles;

/// <summary>A set of result files that appear in their folder together, or, when anything fails or is stopped, not at all.</summary>
/// <remarks>
/// Nothing can be promised when the process is killed: a hidden folder is left, and a kill just while the files are moved leaves some of
/// them in place, with the older ones in the hidden folder. <see cref="Leftovers"/> finds it.
/// Mutable and not thread-safe: one per set. Files are written aside, in a hidden folder inside the output folder, and
/// <see cref="Commit"/> moves them into place. <see cref="Dispose"/> without a commit removes whatever was written, and the
/// output folder itself when this object created it.
/// </remarks>
public sealed class OutputFolder : IDisposable
{
    private const string Unfinished = ".unfinished-";
    private readonly Stack<string> _createdFolders = new();
    private readonly List<string> _names = [];
    private readonly string _staging;
    private readonly string _written;
    private readonly string _replaced;
    private bool _committed;

    /// <summary>Opens the folder, creating it and its parents when they do not exist.</summary>
    /// <param name="path">The folder's path.</param>
    /// <exception cref="IOException">The folder cannot be created or written, or is a file.</exception>
    public OutputFolder(string path)
    {
        FullPath = Path.GetFullPath(path);
        if (File.Exists(FullPath))
            throw new IOException($"The output folder '{path}' cannot be written: this is a file; give a folder.");
        _staging = Path.Combine(FullPath, $"{Unfinished}{Path.GetRandomFileName()}");
        _written = Path.Combine(_staging, "written");
        _replaced = Path.Combine(_staging, "replaced");
        try
        {
            CreateMissing(FullPath);
            Directory.CreateDirectory(_written);
            Directory.CreateDirectory(_replaced);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Dispose();
            throw new IOException($"The output folder '{path}' cannot be written: {e.Message}", e);
        }
    }

    /// <summary>The folder's full path.</summary>
    public string FullPath { get; }

    /// <summary>The names of the files added so far, in order.</summary>
    public IReadOnlyList<string> Names => _names;

    /// <summary>Writes a text file aside: UTF-8 without byte-order mark, lines ended by "\n".</summary>
    /// <param name="name">The file's name, without a folder.</param>
    /// <param name="write">Writes the content.</param>
    /// <exception cref="ArgumentException">The name is not a plain file name, or was added before.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public void Add(string name, Action<TextWriter> write)
    {
        ArgumentNullException.ThrowIfNull(write);
        AtomicFile.WriteText(Stage(name), write);
    }

    /// <summary>Writes a file of bytes aside.</summary>
    /// <param name="name">The file's name, without a folder.</param>
    /// <param name="bytes">The content.</param>
    /// <exception cref="ArgumentException">The name is not a plain file name, or was added before.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public void AddBytes(string name, ReadOnlyMemory<byte> bytes) => File.WriteAllBytes(Stage(name), bytes.Span);

    /// <summary>Puts all files in place, over older ones of the same names; other files in the folder stay.</summary>
    /// <exception cref="IOException">A file cannot be put in place; then none is, and the older ones are back.</exception>
    /// <exception cref="InvalidOperationException">The set was committed before.</exception>
    public void Commit()
    {
        if (_committed) throw new InvalidOperationException("The files were put in place before.");
        var placed = new Stack<string>();
        try
        {
            foreach (var name in _names)
            {
                placed.Push(name);
                Place(name);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            foreach (var name in placed) Withdraw(name);
            throw new IOException($"'{placed.Peek()}' cannot be put into the folder '{FullPath}': {e.Message}", e);
        }

        _committed = true;
    }

    /// <summary>Removes what was written aside, and the folders created, unless the set was committed.</summary>
    public void Dispose()
    {
        if (Directory.Exists(_staging)) Directory.Delete(_staging, recursive: true);
        if (_committed) return;
        while (_createdFolders.TryPop(out var folder))
        {
            // Somebody else may have put files there meanwhile: they are not ours to remove.
            if (Directory.Exists(folder) && !Directory.EnumerateFileSystemEntries(folder).Any()) Directory.Delete(folder);
        }
    }

    private void CreateMissing(string folder)
    {
        if (Directory.Exists(folder)) return;
        if (Path.GetDirectoryName(folder) is { } parent) CreateMissing(parent);
        Directory.CreateDirectory(folder);
        _createdFolders.Push(folder);
    }

    private string Stage(string name)
    {
        if (string.IsNullOrWhiteSpace(name) || name is "." or ".." || Path.GetFileName(name) != name)
            throw new ArgumentException($"'{name}' is not a plain file name.", nameof(name));
        if (_names.Contains(name, StringComparer.OrdinalIgnoreCase))
            throw new ArgumentException($"'{name}' was added before.", nameof(name));
        _names.Add(name);
        return Path.Combine(_written, name);
    }

    /// <summary>Hidden folders of runs that were killed in an output folder, or are writing there now.</summary>
    /// <param name="path">The output folder's path; it need not exist.</param>
    public static IReadOnlyList<string> Leftovers(string path) =>
        Directory.Exists(path) ? [.. Directory.EnumerateDirectories(path, $"{Unfinished}*").Order(StringComparer.Ordinal)] : [];

    private void Place(string name)
    {
        var target = Path.Combine(FullPath, name);
        if (File.Exists(target)) File.Move(target, Path.Combine(_replaced, name));
        File.Move(Path.Combine(_written, name), target);
    }

    private void Withdraw(string name)
    {
        var target = Path.Combine(FullPath, name);
        var written = Path.Combine(_written, name);
        var replaced = Path.Combine(_replaced, name);
        if (!File.Exists(written)) File.Move(target, written);
        if (File.Exists(replaced)) File.Move(replaced, target);
    }
}
