using System.Security.Cryptography;
using System.Text.Json.Nodes;

namespace RollRide.DataFiles;

/// <summary>A set of result files that appear in their folder together, or, when anything fails or is stopped, not at all.</summary>
/// <remarks>
/// Files are written aside, in a <see cref="StagingFolder"/> inside the output folder, and <see cref="Commit"/> moves them into place, each in
/// one step over an older one. The summary comes last and names the checksums of the others, so that a folder in which new files stand
/// beside an old summary can be told. A run killed at that point is finished by the next one (<see cref="LeftoverRun"/>).
/// <see cref="Dispose"/> without a commit removes whatever was written, and the output folder itself when this object created it; so does the
/// end of the process. Mutable and not thread-safe: one per set.
/// </remarks>
public sealed class OutputFolder : IDisposable
{
    private readonly List<string> _names = [];
    private readonly JsonObject _checksums = [];
    private readonly string _path;
    private readonly CancellationToken _cancellation;
    private readonly NewFolders? _newFolders;
    private readonly StagingFolder? _staging;
    private readonly List<SpoolFile> _spools = [];
    private readonly Lock _ending = new();
    private string? _summary;
    private bool _committed;

    /// <summary>Opens the folder, creating it and its parents when they do not exist.</summary>
    /// <param name="path">The folder's path.</param>
    /// <param name="cancellation">Stops the writing at the next block of a file, and the commit before it begins.</param>
    /// <exception cref="IOException">The folder cannot be created or written, or is a file.</exception>
    public OutputFolder(string path, CancellationToken cancellation = default)
    {
        (_path, _cancellation) = (path, cancellation);
        FullPath = Path.GetFullPath(path);
        try
        {
            _newFolders = new NewFolders(FullPath);
            _staging = new StagingFolder(FullPath);
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            Dispose();
            throw WriteFault.Of($"The output folder “{path}”", e);
        }

        AppDomain.CurrentDomain.ProcessExit += OnProcessExit;
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
            if (File.Exists(folder)) throw new IOException($"“{folder}” is a file, not a folder");
            var probe = StagingFolder.NewPath(folder);
            Directory.CreateDirectory(probe);
            Directory.Delete(probe);
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of($"The output folder “{path}”", e);
        }
    }

    /// <summary>The folder's full path.</summary>
    public string FullPath { get; }

    /// <summary>The names of the files added so far, the summary first.</summary>
    public IReadOnlyList<string> Names => _summary is null ? _names : [_summary, .. _names];

    /// <summary>Is told of every renaming just before it: a test ends there as a kill would.</summary>
    internal Action? Renaming { private get; init; }

    /// <summary>The files written aside.</summary>
    internal StagingFolder Staging => _staging!;

    /// <summary>Opens a file for numbers that would not fit into the memory; it is gone when this object is disposed. Thread-safe.</summary>
    /// <exception cref="IOException">The folder cannot be written.</exception>
    public SpoolFile OpenSpool()
    {
        lock (_ending)
        {
            var spool = new SpoolFile(Staging.NewSpool(), $"The output folder “{_path}”", _cancellation);
            _spools.Add(spool);
            return spool;
        }
    }

    /// <summary>Writes a text file aside: UTF-8 without byte-order mark, lines ended by "\n".</summary>
    /// <param name="name">The file's name, without a folder.</param>
    /// <param name="write">Writes the content.</param>
    /// <exception cref="ArgumentException">The name is not a plain file name, or was added before.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The writing was stopped.</exception>
    public void Add(string name, Action<TextWriter> write)
    {
        ArgumentNullException.ThrowIfNull(write);
        _names.Add(RequireNew(name));
        Write(name, path => AtomicFile.WriteText(path, write, _cancellation));
        using var written = File.OpenRead(Staging.Written(name));
        _checksums[name] = Convert.ToHexStringLower(SHA256.HashData(written));
    }

    /// <summary>Writes a file of bytes aside.</summary>
    /// <param name="name">The file's name, without a folder.</param>
    /// <param name="bytes">The content.</param>
    /// <exception cref="ArgumentException">The name is not a plain file name, or was added before.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public void AddBytes(string name, ReadOnlyMemory<byte> bytes)
    {
        _names.Add(RequireNew(name));
        Write(name, path => File.WriteAllBytes(path, bytes.Span));
        _checksums[name] = Convert.ToHexStringLower(SHA256.HashData(bytes.Span));
    }

    /// <summary>
    /// Writes the summary aside, once all other files are: to its JSON are added, under <c>files</c>, the names of the others with their
    /// SHA-256.
    /// </summary>
    /// <param name="name">The file's name, without a folder.</param>
    /// <param name="write">Writes the content, a JSON object.</param>
    /// <returns>The text written.</returns>
    /// <exception cref="ArgumentException">The name is not a plain file name, or was added before.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public string AddSummary(string name, Action<TextWriter> write)
    {
        ArgumentNullException.ThrowIfNull(write);
        using var content = new StringWriter();
        write(content);
        var json = JsonNode.Parse(content.ToString())!.AsObject();
        json["files"] = _checksums.DeepClone();
        var text = JsonText.Of(json);
        _summary = RequireNew(name);
        Write(name, path => AtomicFile.WriteText(path, output => output.Write(text), _cancellation));
        return text;
    }

    /// <summary>Puts all files in place, over older ones of the same names, the summary last; other files in the folder stay.</summary>
    /// <exception cref="IOException">A file cannot be put in place; then none is, and the older ones are back.</exception>
    /// <exception cref="InvalidOperationException">The set was committed before.</exception>
    /// <exception cref="OperationCanceledException">It was stopped before the first file was put in place.</exception>
    public void Commit()
    {
        lock (_ending)
        {
            if (_committed) throw new InvalidOperationException("The files were put in place before.");
            _cancellation.ThrowIfCancellationRequested();
            string? placing = null;
            try
            {
                string[] inOrder = _summary is null ? [.. _names] : [.. _names, _summary];
                Staging.BeginCommit(inOrder, Renaming);
                foreach (var name in inOrder)
                {
                    placing = name;
                    Renaming?.Invoke();
                    Staging.Place(name);
                }
            }
            catch (Exception e) when (WriteFault.Is(e))
            {
                Staging.WithdrawAll();
                throw WriteFault.Of(placing is null ? $"The output folder “{_path}”" : $"“{placing}” in the output folder “{_path}”", e);
            }

            _committed = true;
            _newFolders?.Keep();
        }
    }

    /// <summary>Removes what was written aside, and the folders created, unless the set was committed.</summary>
    public void Dispose()
    {
        lock (_ending)
        {
            AppDomain.CurrentDomain.ProcessExit -= OnProcessExit;
            _spools.ForEach(spool => spool.Dispose());
            _staging?.Dispose();
            _newFolders?.Dispose();
        }
    }

    // A process that is ended while somebody still writes: what is there then goes too, but a commit under way is finished first.
    private void OnProcessExit(object? sender, EventArgs e)
    {
        try
        {
            Dispose();
        }
        catch (Exception exception) when (WriteFault.Is(exception))
        {
            // The next run finds what is left.
        }
    }

    private void Write(string name, Action<string> write)
    {
        try
        {
            write(Staging.Written(name));
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of($"“{name}” in the output folder “{_path}”", e);
        }
    }

    private string RequireNew(string name)
    {
        if (string.IsNullOrWhiteSpace(name) || name is "." or ".." || Path.GetFileName(name) != name)
            throw new ArgumentException($"“{name}” is not a plain file name.", nameof(name));
        return Names.Contains(name, StringComparer.OrdinalIgnoreCase) ? throw new ArgumentException($"“{name}” was added before.", nameof(name)) : name;
    }
}
