using System.Runtime.InteropServices;

namespace RollRide.DataFiles;

/// <summary>A file of numbers that do not fit into the memory, gone once it is closed. Appended to by one thread, then read by any number.</summary>
public sealed class SpoolFile : IDisposable
{
    private readonly FileStream _file;
    private readonly string _owner;
    private readonly CancellationToken _cancellation;

    /// <summary>Makes the file.</summary>
    /// <param name="path">Its path; its folder exists.</param>
    /// <param name="owner">What cannot be written where it cannot, as the beginning of a sentence.</param>
    /// <param name="cancellation">Stops reading and writing.</param>
    internal SpoolFile(string path, string owner, CancellationToken cancellation)
    {
        (_owner, _cancellation) = (owner, cancellation);
        try
        {
            _file = new FileStream(path, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, bufferSize: 0, FileOptions.DeleteOnClose);
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of(owner, e);
        }
    }

    /// <summary>Adds values at the end.</summary>
    /// <param name="values">The values.</param>
    /// <exception cref="IOException">They cannot be written.</exception>
    public void Append(ReadOnlySpan<double> values)
    {
        _cancellation.ThrowIfCancellationRequested();
        try
        {
            _file.Write(MemoryMarshal.AsBytes(values));
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of(_owner, e);
        }
    }

    /// <summary>Reads values.</summary>
    /// <param name="first">Place of the first, counted in values from the beginning.</param>
    /// <param name="values">Takes them.</param>
    /// <exception cref="EndOfStreamException">So many were not appended.</exception>
    public void Read(long first, Span<double> values)
    {
        _cancellation.ThrowIfCancellationRequested();
        var bytes = MemoryMarshal.AsBytes(values);
        for (var at = first * sizeof(double); !bytes.IsEmpty;)
        {
            var count = RandomAccess.Read(_file.SafeFileHandle, bytes, at);
            if (count == 0)
                throw new EndOfStreamException($"Value {first} and those after it were not appended.");
            at += count;
            bytes = bytes[count..];
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();
}
