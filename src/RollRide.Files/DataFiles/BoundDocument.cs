using System.Collections.Immutable;

namespace RollRide.DataFiles;

/// <summary>Reads files whose content is a record.</summary>
public static class BoundDocument
{
    /// <summary>Reads a file.</summary>
    /// <typeparam name="T">The record of the root object.</typeparam>
    /// <param name="file">The file's path.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The file cannot be read, is not JSON, or does not hold such a record.</exception>
    public static BoundDocument<T> Read<T>(string file, CancellationToken cancellation = default)
        where T : class => Parse<T>(InputFile.ReadAllBytes(file, cancellation), file, cancellation);

    /// <summary>Reads a file's content from memory.</summary>
    /// <typeparam name="T">The record of the root object.</typeparam>
    /// <param name="utf8">The content, in UTF-8.</param>
    /// <param name="file">The name to give in faults.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The content is not JSON, or does not hold such a record.</exception>
    public static BoundDocument<T> Parse<T>(ReadOnlyMemory<byte> utf8, string file, CancellationToken cancellation = default)
        where T : class => new(LocatedNode.Parse(utf8, file, cancellation), utf8, file);
}

/// <summary>A file's content as a record, together with the place of each value in the file.</summary>
/// <remarks>As immutable and thread-safe as the record is.</remarks>
/// <typeparam name="T">The record of the root object.</typeparam>
public sealed class BoundDocument<T>
    where T : class
{
    private readonly Dictionary<LocatedNode, object> _values = [];

    internal BoundDocument(LocatedNode root, ReadOnlyMemory<byte> utf8, string file)
    {
        (File, Utf8, Root) = (file, utf8, root);
        Value = LocatedBinder.Bind<T>(root, file, ImmutableDictionary<LocatedNode, object>.Empty, _values);
    }

    private BoundDocument(BoundDocument<T> other, ReadOnlySpan<KeyValuePair<string, double>> numbers)
    {
        (File, Utf8, Root) = (other.File, other.Utf8, other.Root.WithNumbers(numbers));
        Value = LocatedBinder.Bind<T>(Root, File, other._values);
    }

    /// <summary>The file's path, as given.</summary>
    public string File { get; }

    /// <summary>The content.</summary>
    public T Value { get; }

    /// <summary>The text that was read, without the numbers put into it afterwards.</summary>
    internal ReadOnlyMemory<byte> Utf8 { get; }

    /// <summary>The values of the file, each with its place.</summary>
    internal LocatedNode Root { get; }

    /// <summary>A fault that points at a value of the file.</summary>
    /// <param name="path">
    /// The path, as in <see cref="LocatedNode.Path"/>. Where the file has no value there, the line is that of the nearest
    /// object or list around it.
    /// </param>
    /// <param name="reason">What is wrong and what is accepted.</param>
    public DataFileFault FaultAt(string path, string reason)
    {
        ArgumentNullException.ThrowIfNull(path);
        var written = Root.At(path);
        var (around, node) = (path, written);
        while (node is null)
        {
            around = around[..Math.Max(0, around.LastIndexOfAny(['.', '[']))];
            node = Root.At(around);
        }

        return new DataFileFault(File, node.Line, path.Length == 0 ? null : path, written?.Text, reason);
    }

    /// <summary>The path of the value that holds a quantity.</summary>
    /// <param name="path">The path of the part that has it, or parts that have it.</param>
    /// <param name="quantity">The key without its unit, in any case: <c>upperJoint</c> for <c>upperJoint_mm</c>.</param>
    /// <returns>The path; null where no key of the part is of that quantity, or several are.</returns>
    internal string? PathOf(string path, string quantity)
    {
        if (Root.At(path) is not { } part)
            return null;
        var found = Below(part).Where(node => node.Key is { } key && string.Equals(UnitSuffix.StemOf(key), quantity, StringComparison.OrdinalIgnoreCase)).Take(2).ToArray();
        return found is [var only] ? only.Path : null;
    }

    private static IEnumerable<LocatedNode> Below(LocatedNode node) => node.Children.SelectMany(child => Below(child).Prepend(child));

    /// <summary>The same file with other numbers at some paths; see <see cref="LocatedNode.WithNumbers"/>. What stays is not bound again.</summary>
    /// <param name="numbers">The numbers by path.</param>
    /// <exception cref="DataFileException">The numbers are outside their limits.</exception>
    internal BoundDocument<T> WithNumbers(ReadOnlySpan<KeyValuePair<string, double>> numbers) => new(this, numbers);
}
