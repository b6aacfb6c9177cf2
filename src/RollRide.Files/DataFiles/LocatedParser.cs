using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Text.Unicode;

namespace RollRide.DataFiles;

/// <summary>Reads one JSON text into <see cref="LocatedNode"/>s.</summary>
internal sealed partial class LocatedParser
{
    private static readonly JsonReaderOptions Options = new()
    {
        CommentHandling = JsonCommentHandling.Skip,
        AllowTrailingCommas = true,
        MaxDepth = DeepestNesting,
    };

    /// <summary>How many objects and lists may stand within each other: a scenario has eight, and each level takes some of the stack.</summary>
    internal const int DeepestNesting = 64;

    private const string NextMember = "'}' or a comma and the next key in double quotes with a colon";

    private readonly ReadOnlyMemory<byte> _utf8;
    private readonly int _preamble;
    private readonly string _file;
    private readonly CancellationToken _cancellation;
    private readonly ImmutableArray<int> _lineStarts;
    private readonly FaultList _faults = new();

    // What was read last, and the objects and lists still open: they say what was expected where the text goes wrong.
    private readonly Stack<(JsonTokenType Opening, int Line)> _open = new();
    private JsonTokenType _last;
    private int _lastLine;

    // Where the last value began: the next one stands behind it, so that no part of a line is counted twice.
    private (int Line, int Offset, int Column) _counted = (1, 0, 1);

    public LocatedParser(ReadOnlyMemory<byte> utf8, string file, CancellationToken cancellation)
    {
        _cancellation = cancellation;
        _preamble = utf8.Span.StartsWith(Encoding.UTF8.Preamble) ? Encoding.UTF8.Preamble.Length : 0;
        _utf8 = utf8[_preamble..];
        _file = file;
        _lineStarts = StartsOfLines(_utf8.Span);
    }

    public LocatedNode Parse()
    {
        RequireUtf8();
        var reader = new Utf8JsonReader(_utf8.Span, Options);
        try
        {
            Advance(ref reader);
            var root = ReadValue(ref reader, path: "", key: null);
            // Only comments may follow; anything else makes this throw.
            reader.Read();
            _faults.ThrowIfAny();
            return root;
        }
        catch (JsonException e)
        {
            // The exception counts lines in its own way; the reader stands where the text goes wrong, or just before.
            var offset = (int)reader.BytesConsumed;
            while (offset < _utf8.Length && char.IsWhiteSpace((char)_utf8.Span[offset])) offset++;
            throw new DataFileException(new DataFileFault(_file, LineAt(offset), null, null, WhatIsWrongAt(offset)), e);
        }
    }

    private void RequireUtf8()
    {
        if (Utf8.IsValid(_utf8.Span)) return;
        // No character has a line end within it, so each line is right or wrong by itself.
        var line = 0;
        while (line + 1 < _lineStarts.Length && Utf8.IsValid(_utf8.Span[_lineStarts[line].._lineStarts[line + 1]])) line++;
        throw new DataFileException(new DataFileFault(_file, line + 1, null, null, "the text is not UTF-8; save the file as UTF-8"));
    }

    private void Advance(ref Utf8JsonReader reader)
    {
        _cancellation.ThrowIfCancellationRequested();
        reader.Read();
        _last = reader.TokenType;
        _lastLine = LineAt((int)reader.TokenStartIndex);
    }

    private LocatedNode ReadValue(ref Utf8JsonReader reader, string path, string? key, int? opening = null)
    {
        var offset = (int)reader.TokenStartIndex;
        var line = LineAt(offset);
        var column = ColumnAt(line, offset);
        (LocatedKind Kind, string? Text, ImmutableArray<LocatedNode> Children) read = reader.TokenType switch
        {
            JsonTokenType.StartObject => (LocatedKind.Object, null, ReadMembers(ref reader, path, line)),
            JsonTokenType.StartArray => (LocatedKind.List, null, ReadItems(ref reader, path, line)),
            JsonTokenType.Number => (LocatedKind.Number, Encoding.UTF8.GetString(reader.ValueSpan), []),
            JsonTokenType.String => (LocatedKind.Text, TextOf(ref reader, path, line), []),
            JsonTokenType.True => (LocatedKind.Boolean, "true", []),
            JsonTokenType.False => (LocatedKind.Boolean, "false", []),
            _ => (LocatedKind.Null, "null", []),
        };
        return new LocatedNode(read.Kind, path, key, line, column)
        {
            Text = read.Text,
            Children = read.Children,
            Span = new TextSpan(_preamble + (opening ?? offset), _preamble + offset, _preamble + (int)reader.BytesConsumed),
        };
    }

    private int ColumnAt(int line, int offset)
    {
        var (from, column) = line == _counted.Line ? (_counted.Offset, _counted.Column) : (_lineStarts[line - 1], 1);
        _counted = (line, offset, column + Encoding.UTF8.GetCharCount(_utf8.Span[from..offset]));
        return _counted.Column;
    }

    private ImmutableArray<LocatedNode> ReadMembers(ref Utf8JsonReader reader, string path, int line)
    {
        var members = ImmutableArray.CreateBuilder<LocatedNode>();
        var keyLines = new Dictionary<string, int>();
        _open.Push((JsonTokenType.StartObject, line));
        for (Advance(ref reader); reader.TokenType != JsonTokenType.EndObject; Advance(ref reader))
        {
            var opening = (int)reader.TokenStartIndex;
            var keyLine = LineAt(opening);
            var key = TextOf(ref reader, path, keyLine);
            var memberPath = MemberPath(path, key);
            if (!keyLines.TryAdd(key, keyLine))
            {
                _faults.Add(new DataFileFault(_file, keyLine, memberPath, null, string.Create(
                    CultureInfo.InvariantCulture, $"the key stands here twice, first on line {keyLines[key]}; give it once")));
            }

            Advance(ref reader);
            members.Add(ReadValue(ref reader, memberPath, key, opening));
        }

        _open.Pop();
        return members.ToImmutable();
    }

    private ImmutableArray<LocatedNode> ReadItems(ref Utf8JsonReader reader, string path, int line)
    {
        var items = ImmutableArray.CreateBuilder<LocatedNode>();
        _open.Push((JsonTokenType.StartArray, line));
        for (Advance(ref reader); reader.TokenType != JsonTokenType.EndArray; Advance(ref reader))
            items.Add(ReadValue(ref reader, string.Create(CultureInfo.InvariantCulture, $"{path}[{items.Count}]"), key: null));
        _open.Pop();
        return items.ToImmutable();
    }

    private string TextOf(ref Utf8JsonReader reader, string path, int line)
    {
        try
        {
            return reader.GetString()!;
        }
        catch (InvalidOperationException e)
        {
            const string Reason = "the text has half of a character escaped with \\u; write the character itself";
            throw new DataFileException(new DataFileFault(_file, line, path.Length > 0 ? path : null, null, Reason), e);
        }
    }

    // Keys of our own are plain; a name that a user chose may have spaces and dots, and is quoted to keep the path readable.
    internal static string MemberPath(string path, string key)
    {
        if (!PlainKey().IsMatch(key)) return $"{path}[\"{key}\"]";
        return path.Length == 0 ? key : $"{path}.{key}";
    }

    [GeneratedRegex(@"\A[\w$-]+\z")]
    private static partial Regex PlainKey();

    private string WhatIsWrongAt(int offset)
    {
        if (offset >= _utf8.Length)
        {
            return _open.TryPeek(out var open)
                ? string.Create(CultureInfo.InvariantCulture, $"the file ends before the “{Bracket(open.Opening)}” of line {open.Line} is closed")
                : "the file is empty; a value is expected";
        }

        if (_open.Count >= DeepestNesting) return "objects and lists are nested too deeply";
        var found = WordAt(offset);
        var advice = found.StartsWith('"') && found.Contains('\\') ? "; a backslash in a text is written twice" : "";
        return $"not JSON: found {found}, expected {Expected()}{advice}";
    }

    // What stands there, up to the end of the line: a text with its quotes, or a word or number.
    private string WordAt(int offset)
    {
        const int Longest = 40;
        var start = Encoding.UTF8.GetString(_utf8.Span.Slice(offset, Math.Min(Longest, _utf8.Length - offset)));
        var word = Word().Match(start).Value;
        return word.Length > 0 ? word : "a control character";
    }

    [GeneratedRegex(@"\A(""[^""\p{Cc}]*""?|[^\s\p{Cc}][^\s\p{Cc},\]}]*)")]
    private static partial Regex Word();

    private string Expected() => (_last, _open.Count > 0 ? _open.Peek().Opening : JsonTokenType.None) switch
    {
        (JsonTokenType.PropertyName, _) =>
            "a value: a number such as 0.5, a text in double quotes on one line, true, false, a list in [ ] or an object in { }",
        (JsonTokenType.StartObject, _) => "'}' or a key in double quotes with a colon after it",
        (JsonTokenType.StartArray, _) => "']' or a value",
        (JsonTokenType.None, _) => "an object in { }",
        (JsonTokenType.Number, JsonTokenType.StartObject) => AfterValue(NextMember) + "; numbers take a decimal point",
        (_, JsonTokenType.StartObject) => AfterValue(NextMember),
        (_, JsonTokenType.StartArray) => AfterValue("']' or a comma and the next value"),
        _ => "the end of the file",
    };

    // A comma left out shows only at what follows, often a line further down: the line of the value before helps to find it.
    private string AfterValue(string expected) =>
        string.Create(CultureInfo.InvariantCulture, $"{expected}, after the value that ends on line {_lastLine}");

    private static char Bracket(JsonTokenType opening) => opening == JsonTokenType.StartObject ? '{' : '[';

    private int LineAt(int offset)
    {
        var index = _lineStarts.BinarySearch(offset);
        return index >= 0 ? index + 1 : ~index;
    }

    private static ImmutableArray<int> StartsOfLines(ReadOnlySpan<byte> utf8)
    {
        var starts = ImmutableArray.CreateBuilder<int>();
        starts.Add(0);
        for (var i = 0; i < utf8.Length; i++)
        {
            if (utf8[i] == (byte)'\n') starts.Add(i + 1);
        }

        return starts.ToImmutable();
    }
}
