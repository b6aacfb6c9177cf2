using System.Text;

namespace RollRide.DataFiles;

/// <summary>Writes a file whole or not at all.</summary>
/// <remarks>
/// The content goes to a temporary file in the same folder, which then takes the file's name in one step; when anything
/// fails, the temporary file is removed and an older file of that name stays as it was.
/// </remarks>
public static class AtomicFile
{
    // The default of 1024 makes a call of the operating system for every few rows of a table.
    private const int BufferSize = 1 << 16;

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes a text file: UTF-8 without byte-order mark, lines ended by "\n".</summary>
    /// <param name="path">The file's path; its folder exists.</param>
    /// <param name="write">Writes the content.</param>
    /// <param name="overwrites">Whether a file that is there is replaced.</param>
    /// <exception cref="IOException">The file cannot be written, something stands there that is no regular file, or a file is there that is not to be replaced.</exception>
    public static void Write(string path, Action<TextWriter> write, bool overwrites = true)
    {
        ArgumentNullException.ThrowIfNull(write);
        if (InputFile.KindOtherThanRegular(path) is { } kind)
            throw new IOException($"The file “{path}” cannot be written: this is {kind}; a regular file is expected.");

        // What a link leads to is replaced, not the link.
        Replace(InputFile.Target(path).FullName, temporary => WriteText(temporary, write), overwrites);
    }

    internal static void WriteText(string path, Action<TextWriter> write, CancellationToken cancellation = default)
    {
        using var file = new StoppableStream(new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.Read, bufferSize: 0), cancellation);
        using var writer = new StreamWriter(file, Utf8, BufferSize) { NewLine = "\n" };
        write(writer);
    }

    private static void Replace(string path, Action<string> write, bool overwrites)
    {
        var temporary = $"{path}.{Path.GetRandomFileName()}";
        try
        {
            write(temporary);
            File.Move(temporary, path, overwrites);
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of($"The file “{path}”", e);
        }
        finally
        {
            if (File.Exists(temporary)) File.Delete(temporary);
        }
    }
}
