using System.Formats.Tar;

namespace RollRide.DataFiles;

/// <summary>Opens files to be read. Only regular ones: a pipe or a device may keep its reader waiting for ever, or never end.</summary>
public static class InputFile
{
    private const int BufferSize = 1 << 16;

    /// <summary>Opens a file.</summary>
    /// <param name="path">The file's path.</param>
    /// <param name="cancellation">Stops the reading at the next block.</param>
    /// <exception cref="DataFileException">The file cannot be read, or is not a regular file.</exception>
    public static Stream Open(string path, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(path);
        try
        {
            if (KindOtherThanRegular(path) is { } kind)
                throw NotRegular(path, kind);
            var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, BufferSize);
            if (file.CanSeek)
                return new StoppableStream(file, cancellation);
            file.Dispose();
            throw NotRegular(path, "a pipe or a socket");
        }
        catch (Exception e) when (IsUnreadable(e))
        {
            throw UnreadableFile.Report(path, e);
        }
    }

    /// <summary>Reads a whole file.</summary>
    /// <param name="path">The file's path.</param>
    /// <param name="cancellation">Stops the reading at the next block.</param>
    /// <exception cref="DataFileException">The file cannot be read, is not a regular file, or is larger than a list of bytes can be (2 GB).</exception>
    public static byte[] ReadAllBytes(string path, CancellationToken cancellation = default)
    {
        using var file = Open(path, cancellation);
        try
        {
            if (file.Length > Array.MaxLength)
                throw new IOException("it is larger than 2 GB");

            // The files of /proc have no length and yet a content.
            using var content = new MemoryStream((int)file.Length);
            file.CopyTo(content, BufferSize);
            return content.Length == content.Capacity ? content.GetBuffer() : content.ToArray();
        }
        catch (Exception e) when (IsUnreadable(e))
        {
            throw UnreadableFile.Report(path, e);
        }
    }

    /// <summary>Whether an exception is about a file that cannot be opened or read.</summary>
    internal static bool IsUnreadable(Exception exception) => exception is IOException or UnauthorizedAccessException or ArgumentException;

    private static DataFileException NotRegular(string path, string kind) =>
        new(new DataFileFault(path, null, null, null, $"this is {kind}; a regular file is expected"));

    /// <summary>
    /// What a file is that is no regular one; null for a regular file, for one that is not there, and for an open pipe that another
    /// process handed over (<c>/dev/stdin</c>).
    /// </summary>
    internal static string? KindOtherThanRegular(string path)
    {
        if (Directory.Exists(path))
            return "a folder";

        // Pipes and devices have no length, so only files of no length need a closer look. (That of a link is of the link itself.)
        var file = Target(path);
        if (OperatingSystem.IsWindows() || !file.Exists || file.Length > 0)
            return null;
        return EntryType(file.FullName) switch
        {
            TarEntryType.Fifo => "a named pipe",
            TarEntryType.CharacterDevice or TarEntryType.BlockDevice => "a device",
            _ => null,
        };
    }

    /// <summary>The file of a path, or what it leads to if it is a link.</summary>
    internal static FileInfo Target(string path)
    {
        var file = new FileInfo(path);
        return file.LinkTarget is null ? file : file.ResolveLinkTarget(returnFinalTarget: true) as FileInfo ?? file;
    }

    /// <summary>The kind of a file without content. The framework tells it only where it archives the file; null where it cannot, as with a socket, which cannot be opened either.</summary>
    private static TarEntryType? EntryType(string path)
    {
        try
        {
            using var archive = new MemoryStream();
            using (var writer = new TarWriter(archive, leaveOpen: true))
                writer.WriteEntry(path, "entry");
            archive.Position = 0;
            using var reader = new TarReader(archive);
            return reader.GetNextEntry()?.EntryType;
        }
        catch (IOException)
        {
            return null;
        }
    }
}
