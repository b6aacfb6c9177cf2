using System.Collections.Immutable;
using System.Globalization;

namespace RollRide.DataFiles;

/// <summary>A value of a JSON file that knows where it stands.</summary>
/// <remarks>Immutable and thread-safe.</remarks>
public sealed class LocatedNode
{
    internal LocatedNode(LocatedKind kind, string path, string? key, int line, int column)
    {
        Kind = kind;
        Path = path;
        Key = key;
        Line = line;
        Column = column;
    }

    /// <summary>What kind of value it is.</summary>
    public LocatedKind Kind { get; }

    /// <summary>The way to it from the root, such as <c>vehicle.body.mass_kg</c> or <c>layouts[1].name</c>; empty for the root.</summary>
    public string Path { get; }

    /// <summary>Its key in the object around it; null for the root and for items of a list.</summary>
    public string? Key { get; }

    /// <summary>The line on which the value starts, counted from 1.</summary>
    public int Line { get; }

    /// <summary>The column at which the value starts, in characters counted from 1.</summary>
    public int Column { get; }

    /// <summary>Where it stands in the text; empty for a value that was not read from one.</summary>
    internal TextSpan Span { get; init; }

    /// <summary>A single value as text: a number as written, a text without quotes and escapes; null for objects and lists.</summary>
    public string? Text { get; internal init; }

    /// <summary>The members of an object or the items of a list, in the order of the file; empty for a single value.</summary>
    public ImmutableArray<LocatedNode> Children { get; internal init; } = [];

    /// <summary>Reads a JSON file.</summary>
    /// <param name="file">The file's path.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The file cannot be read, or is not JSON; see <see cref="Parse"/>.</exception>
    public static LocatedNode Read(string file, CancellationToken cancellation = default) =>
        Parse(InputFile.ReadAllBytes(file, cancellation), file, cancellation);

    /// <summary>Reads JSON from memory. Comments (<c>//</c>, <c>/* */</c>) and trailing commas are allowed.</summary>
    /// <param name="utf8">The content, in UTF-8.</param>
    /// <param name="file">The name to give in faults.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The content is not JSON in UTF-8, or an object has a key twice.</exception>
    public static LocatedNode Parse(ReadOnlyMemory<byte> utf8, string file, CancellationToken cancellation = default) =>
        new LocatedParser(utf8, file, cancellation).Parse();

    /// <summary>The member of an object with a key, or null when it has none.</summary>
    /// <param name="key">The key.</param>
    public LocatedNode? Find(string key)
    {
        foreach (var child in Children)
        {
            if (child.Key == key)
                return child;
        }

        return null;
    }

    /// <summary>
    /// The first value at a path, here or below. Keys are unique within an object, so paths are too; the first wins where a user's own name
    /// imitates a path.
    /// </summary>
    /// <param name="path">The path, as in <see cref="Path"/>.</param>
    internal LocatedNode? At(string path)
    {
        if (Path == path)
            return this;
        if (!path.StartsWith(Path, StringComparison.Ordinal))
            return null;
        foreach (var child in Children)
        {
            if (child.At(path) is { } found)
                return found;
        }

        return null;
    }

    /// <summary>The same content with other numbers at some paths. Values in which nothing changes stay the same ones.</summary>
    /// <param name="numbers">
    /// The numbers by path, below this value. A key that is not in the file is added, with the objects around it, and stands on the
    /// line of the object that holds it.
    /// </param>
    internal LocatedNode WithNumbers(ReadOnlySpan<KeyValuePair<string, double>> numbers)
    {
        var isOnTheWay = false;
        foreach (var (path, number) in numbers)
        {
            if (path == Path)
                return new LocatedNode(LocatedKind.Number, Path, Key, Line, Column) { Text = number.ToString("R", CultureInfo.InvariantCulture) };
            isOnTheWay |= path.StartsWith(Path, StringComparison.Ordinal);
        }

        if (!isOnTheWay || Kind is not (LocatedKind.Object or LocatedKind.List))
            return this;
        var children = new List<LocatedNode>(Children.Length + 1);
        foreach (var child in Children)
            children.Add(child.WithNumbers(numbers));
        if (Kind == LocatedKind.Object)
            AddMissing(children, numbers);
        return new LocatedNode(Kind, Path, Key, Line, Column) { Children = [.. children] };
    }

    private void AddMissing(List<LocatedNode> children, ReadOnlySpan<KeyValuePair<string, double>> numbers)
    {
        var start = Path.Length == 0 ? 0 : Path.Length + 1;
        foreach (var (path, _) in numbers)
        {
            if (path.Length <= start || !path.StartsWith(Path, StringComparison.Ordinal) || (start > 0 && path[Path.Length] != '.'))
                continue;
            var below = path.AsSpan(start);
            var key = below[..(below.IndexOf('.') is >= 0 and var end ? end : below.Length)];
            if (!key.Contains('[') && !HaveKey(children, key))
                children.Add(new LocatedNode(LocatedKind.Object, path[..(start + key.Length)], key.ToString(), Line, Column).WithNumbers(numbers));
        }
    }

    private static bool HaveKey(List<LocatedNode> children, ReadOnlySpan<char> key)
    {
        foreach (var child in children)
        {
            if (key.SequenceEqual(child.Key))
                return true;
        }

        return false;
    }
}

/// <summary>A stretch of a JSON text, in bytes from its beginning.</summary>
/// <param name="Opening">Where the key of the value begins, or the value itself where it has none.</param>
/// <param name="Start">Where the value begins.</param>
/// <param name="End">Behind its last byte.</param>
internal readonly record struct TextSpan(int Opening, int Start, int End);
