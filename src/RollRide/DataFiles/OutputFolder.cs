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
    private readonly List<string> _names = [];
    private readonly string _path;
    private readonly NewFolders? _newFolders;
    private readonly string _staging;
    private readonly string _written;
    private readonly string _replaced;
    private bool _committed;

    /// <summary>Opens the folder, creating it and its parents when they do not exist.</summary>
    /// <param name="path">The folder's path.</param>
    /// <exception cref="IOException">The folder cannot be created or written, or is a file.</exception>
    public OutputFolder(string path)
    {
        _path = path;
        FullPath = Path.GetFullPath(path);
        _staging = Path.Combine(FullPath, $"{Unfinished}{Path.GetRandomFileName()}");
        _written = Path.Combine(_staging, "written");
        _replaced = Path.Combine(_staging, "replaced");
        try
        {
            _newFolders = new NewFolders(FullPath);
            Directory.CreateDirectory(_written);
            Directory.CreateDirectory(_replaced);
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            Dispose();
            throw WriteFault.Of($"The output folder '{path}'", e);
        }
    }

    /// <summary>Finds out whether a folder, or the nearest one above it that is there, can be written: before long work, not after it.</summary>
    /// <param name="path">The folder's path.</param>
    /// <exception cref="IOException">It cannot be written, or is a file.</exception>
    public static void RequireWritable(string path)
    {
        try
        {
            var folder = Path.GetFullPath(path);
            while (!Path.Exists(folder) && Path.GetDirectoryName(folder) is { } parent)
                folder = parent;
            if (File.Exists(folder)) throw new IOException($"'{folder}' is a file, not a folder");
            var probe = Path.Combine(folder, $"{Unfinished}{Path.GetRandomFileName()}");
            Directory.CreateDirectory(probe);
            Directory.Delete(probe);
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of($"The output folder '{path}'", e);
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
        Write(name, path => AtomicFile.WriteText(path, write));
    }

    /// <summary>Writes a file of bytes aside.</summary>
    /// <param name="name">The file's name, without a folder.</param>
    /// <param name="bytes">The content.</param>
    /// <exception cref="ArgumentException">The name is not a plain file name, or was added before.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public void AddBytes(string name, ReadOnlyMemory<byte> bytes) => Write(name, path => File.WriteAllBytes(path, bytes.Span));

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
        catch (Exception e) when (WriteFault.Is(e))
        {
            foreach (var name in placed) Withdraw(name);
            throw WriteFault.Of($"'{placed.Peek()}' in the output folder '{_path}'", e);
        }

        _committed = true;
        _newFolders?.Keep();
    }

    /// <summary>Removes what was written aside, and the folders created, unless the set was committed.</summary>
    public void Dispose()
    {
        if (Directory.Exists(_staging)) Directory.Delete(_staging, recursive: true);
        _newFolders?.Dispose();
    }

    private void Write(string name, Action<string> write)
    {
        var path = Stage(name);
        try
        {
            write(path);
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of($"'{name}' in the output folder '{_path}'", e);
        }
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
