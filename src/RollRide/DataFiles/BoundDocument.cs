using System.Collections.Frozen;

namespace RollRide.DataFiles;

/// <summary>Reads files whose content is a record.</summary>
public static class BoundDocument
{
    /// <summary>Reads a file.</summary>
    /// <typeparam name="T">The record of the root object.</typeparam>
    /// <param name="file">The file's path.</param>
    /// <exception cref="DataFileException">The file cannot be read, is not JSON, or does not hold such a record.</exception>
    public static BoundDocument<T> Read<T>(string file)
        where T : class => new(LocatedNode.Read(file), file);

    /// <summary>Reads a file's content from memory.</summary>
    /// <typeparam name="T">The record of the root object.</typeparam>
    /// <param name="utf8">The content, in UTF-8.</param>
    /// <param name="file">The name to give in faults.</param>
    /// <exception cref="DataFileException">The content is not JSON, or does not hold such a record.</exception>
    public static BoundDocument<T> Parse<T>(ReadOnlyMemory<byte> utf8, string file)
        where T : class => new(LocatedNode.Parse(utf8, file), file);
}

/// <summary>A file's content as a record, together with the place of each value in the file.</summary>
/// <remarks>As immutable and thread-safe as the record is.</remarks>
/// <typeparam name="T">The record of the root object.</typeparam>
public sealed class BoundDocument<T>
    where T : class
{
    private readonly FrozenDictionary<string, LocatedNode> _nodes;

    internal BoundDocument(LocatedNode root, string file)
    {
        File = file;
        Value = LocatedBinder.Bind<T>(root, file);
        // Keys are unique within an object, so paths are too; the first wins where a user's own name imitates a path.
        _nodes = WithDescendants(root).DistinctBy(node => node.Path).ToFrozenDictionary(node => node.Path);
    }

    /// <summary>The file's path, as given.</summary>
    public string File { get; }

    /// <summary>The content.</summary>
    public T Value { get; }

    /// <summary>A fault that points at a value of the file.</summary>
    /// <param name="path">
    /// The path, as in <see cref="LocatedNode.Path"/>. Where the file has no value there, the line is that of the nearest
    /// object or list around it.
    /// </param>
    /// <param name="reason">What is wrong and what is accepted.</param>
    public DataFileFault FaultAt(string path, string reason)
    {
        ArgumentNullException.ThrowIfNull(path);
        var written = _nodes.GetValueOrDefault(path);
        var around = path;
        while (!_nodes.ContainsKey(around)) around = around[..Math.Max(0, around.LastIndexOfAny(['.', '[']))];
        return new DataFileFault(File, _nodes[around].Line, path.Length == 0 ? null : path, written?.Text, reason);
    }

    private static IEnumerable<LocatedNode> WithDescendants(LocatedNode node) =>
        node.Children.SelectMany(WithDescendants).Prepend(node);
}
