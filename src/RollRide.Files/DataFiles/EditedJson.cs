using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace RollRide.DataFiles;

/// <summary>Changes a JSON text in some places and leaves every other byte as it is: comments, order, indentation, ends of lines.</summary>
/// <remarks>Mutable and not thread-safe: one per text.</remarks>
public sealed class EditedJson
{
    private readonly string _file;
    private readonly CancellationToken _cancellation;

    // Values still to be replaced: they move no other value out of the tree, so that many need one reading alone.
    private readonly Dictionary<LocatedNode, JsonNode?> _pending = [];
    private ReadOnlyMemory<byte> _utf8;
    private LocatedNode _root;

    private EditedJson(ReadOnlyMemory<byte> utf8, string file, CancellationToken cancellation)
    {
        (_utf8, _file, _cancellation) = (utf8, file, cancellation);
        _root = LocatedNode.Parse(utf8, file, cancellation);
    }

    /// <summary>Makes edits in their order, each in the text that those before it left.</summary>
    /// <param name="utf8">The text, in UTF-8. Comments and trailing commas are allowed.</param>
    /// <param name="file">The name to give in faults.</param>
    /// <param name="edits">The edits.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The text with the edits.</returns>
    /// <exception cref="DataFileException">The text is not JSON in UTF-8, or there is no place for an edit.</exception>
    public static ReadOnlyMemory<byte> Apply(ReadOnlyMemory<byte> utf8, string file, IEnumerable<JsonEdit> edits, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(edits);
        var text = new EditedJson(utf8, file, cancellation);
        foreach (var edit in edits)
            text.Apply(edit);
        text.ReplacePending();
        return text._utf8;
    }

    private void Apply(JsonEdit edit)
    {
        if (_root.At(edit.Path) is not { } node || edit.IsRemoval || _pending.Keys.Any(other => other != node && Overlap(other.Span, node.Span)))
            ReplacePending();
        if (edit.IsRemoval)
            Remove(edit.Path);
        else if (_root.At(edit.Path) is { } found)
            _pending[found] = edit.Value;
        else
            Insert(edit);
    }

    private static bool Overlap(TextSpan one, TextSpan other) => one.Start < other.End && other.Start < one.End;

    private void ReplacePending()
    {
        if (_pending.Count == 0)
            return;
        var text = new JsonLayout(_utf8);
        Splice([.. _pending.Select(change => new TextChange(
            change.Key.Span.Start, change.Key.Span.End,
            text.Of(change.Value, text.IndentAt(change.Key.Span.Start), Around(change.Key.Path) is { } around && text.HasTrailingComma(around))))]);
        _pending.Clear();
    }

    private void Remove(string path)
    {
        if (_root.At(path) is not { } node)
            return;
        var around = Around(path) ?? throw Fault(path, "the whole file cannot be taken out");
        Splice(new JsonLayout(_utf8).Removal(around, node));
    }

    private void Insert(JsonEdit edit)
    {
        var around = DeepestOf(edit.Path);
        var steps = JsonPath.Steps(edit.Path, around.Path) ?? throw Fault(edit.Path, "this is no path such as “vehicle.body.mass_kg” or “layouts[1].name”");
        var value = edit.Value?.DeepClone();
        for (var i = steps.Count - 1; i > 0; i--)
        {
            if (steps[i].Index is > 0)
                throw NoSuchItem(edit.Path, around.Path);
            value = steps[i].Key is { } inner ? new JsonObject { [inner] = value } : new JsonArray(value);
        }

        var (key, index) = steps[0];
        if (key is not null && around.Kind != LocatedKind.Object)
            throw Fault(edit.Path, $"{Name(around)} is no object in {{ }}, so that no key can be added there");
        if (key is null && (around.Kind != LocatedKind.List || index != around.Children.Length))
            throw NoSuchItem(edit.Path, around.Path);
        Splice(new JsonLayout(_utf8).Insertion(around, key, value));
    }

    /// <summary>The innermost value around a path at which nothing stands.</summary>
    private LocatedNode DeepestOf(string path)
    {
        var around = _root;
        while (around.Children.FirstOrDefault(child => JsonPath.IsBelow(path, child.Path)) is { } closer)
            around = closer;
        return around;
    }

    /// <summary>The object or list that holds the value at a path; null for the root.</summary>
    private LocatedNode? Around(string path)
    {
        LocatedNode? Below(LocatedNode node) => node.Children.Any(child => child.Path == path)
            ? node
            : node.Children.Where(child => path.StartsWith(child.Path, StringComparison.Ordinal)).Select(Below).FirstOrDefault(found => found is not null);
        return Below(_root);
    }

    private void Splice(IReadOnlyList<TextChange> changes)
    {
        var edited = new MemoryStream(_utf8.Length + 256);
        var copied = 0;
        foreach (var change in changes.OrderBy(change => change.Start).ThenBy(change => change.End))
        {
            edited.Write(_utf8.Span[copied..change.Start]);
            edited.Write(Encoding.UTF8.GetBytes(change.Text));
            copied = change.End;
        }

        edited.Write(_utf8.Span[copied..]);
        _utf8 = edited.GetBuffer().AsMemory(0, (int)edited.Length);
        _root = LocatedNode.Parse(_utf8, _file, _cancellation);
    }

    private DataFileException NoSuchItem(string path, string list) => Fault(path, $"there is no such item; a new one takes the next free number of {(list.Length == 0 ? "its list" : $"“{list}”")}");

    private DataFileException Fault(string path, string reason) => new(new DataFileFault(_file, null, path, null, reason));

    private static string Name(LocatedNode node) => node.Path.Length == 0 ? "the file" : $"“{node.Path}”";
}

/// <summary>Other text in the place of a stretch of a JSON text.</summary>
/// <param name="Start">Where the stretch begins, in bytes.</param>
/// <param name="End">Behind its last byte; where it begins for mere insertions.</param>
/// <param name="Text">What stands there afterwards.</param>
internal readonly record struct TextChange(int Start, int End, string Text);

/// <summary>The steps of a path, as <see cref="LocatedNode.Path"/> writes it.</summary>
internal static class JsonPath
{
    private const string QuotedEnd = "\"]";

    /// <summary>Whether a path leads into what stands at another.</summary>
    public static bool IsBelow(string path, string other) =>
        path.Length > other.Length && path.StartsWith(other, StringComparison.Ordinal) && path[other.Length] is '.' or '[';

    /// <summary>The steps from one place to another below it, at least one: each a key or a number in a list.</summary>
    /// <param name="path">The place below.</param>
    /// <param name="from">The place above; empty for the root.</param>
    /// <returns>Null where it is no path, or leads deeper than a text may be nested.</returns>
    public static IReadOnlyList<(string? Key, int? Index)>? Steps(string path, string from)
    {
        var steps = new List<(string? Key, int? Index)>();
        for (var rest = path[from.Length..]; rest.Length > 0;)
        {
            if (steps.Count == LocatedParser.DeepestNesting)
                return null;
            int end;
            if (rest.StartsWith("[\"", StringComparison.Ordinal))
            {
                // A name may hold the two characters that end it, but then something else follows them.
                end = rest.IndexOf(QuotedEnd, 2, StringComparison.Ordinal);
                while (end >= 0 && end + 2 < rest.Length && rest[end + 2] is not ('.' or '['))
                    end = rest.IndexOf(QuotedEnd, end + 1, StringComparison.Ordinal);
                if (end < 0)
                    return null;
                steps.Add((rest[2..end], null));
                end += QuotedEnd.Length;
            }
            else if (rest[0] == '[')
            {
                end = rest.IndexOf(']', StringComparison.Ordinal) + 1;
                if (end == 0 || !int.TryParse(rest.AsSpan(1, end - 2), NumberStyles.None, CultureInfo.InvariantCulture, out var index))
                    return null;
                steps.Add((null, index));
            }
            else
            {
                var start = rest[0] == '.' ? 1 : 0;
                end = rest.IndexOfAny(['.', '['], start) is >= 0 and var next ? next : rest.Length;
                if (end == start || (start == 0) != (steps.Count == 0 && from.Length == 0))
                    return null;
                steps.Add((rest[start..end], null));
            }

            rest = rest[end..];
        }

        return steps.Count > 0 ? steps : null;
    }
}
