using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace RollRide.DataFiles;

/// <summary>How a JSON text is laid out, and how something new is written or taken out in the same manner.</summary>
internal sealed class JsonLayout
{
    // As wide as the lines of a scenario are written.
    private const int Widest = 120;

    private static readonly JsonSerializerOptions Scalars = new()
    {
        // The text goes into a file of its own, never into a web page.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private readonly ReadOnlyMemory<byte> _text;
    private readonly string _newLine;

    /// <summary>Looks at a text.</summary>
    /// <param name="utf8">The text.</param>
    public JsonLayout(ReadOnlyMemory<byte> utf8)
    {
        _text = utf8;
        _newLine = Bytes.IndexOf((byte)'\n') is > 0 and var end && Bytes[end - 1] == '\r' ? "\r\n" : "\n";
    }

    private ReadOnlySpan<byte> Bytes => _text.Span;

    /// <summary>The white space at the beginning of the line of a place.</summary>
    public string IndentAt(int offset)
    {
        var start = LineStart(offset);
        return Encoding.UTF8.GetString(Bytes[start..SkipBlanks(start)]);
    }

    /// <summary>Whether a comma follows the last value of an object or list.</summary>
    public bool HasTrailingComma(LocatedNode around) => around.Children is [.., var last] && CommaAfter(last.Span.End) >= 0;

    /// <summary>A value as text: on one line where it is short or a list of single values, else an item a line.</summary>
    /// <param name="value">The value.</param>
    /// <param name="indent">What begins the line on which it stands.</param>
    /// <param name="trailingCommas">Whether a comma follows the last of several lines.</param>
    public string Of(JsonNode? value, string indent, bool trailingCommas)
    {
        var line = OnOneLine(value);
        if (indent.Length + line.Length <= Widest || (value is not JsonObject && !Items(value).Any(item => item.Value is JsonObject or JsonArray)))
            return line;
        var deeper = indent + Step;
        var text = new StringBuilder();
        text.Append(value is JsonObject ? '{' : '[');
        var separator = "";
        foreach (var item in Items(value))
        {
            text.Append(separator).Append(_newLine).Append(deeper).Append(Member(item.Key, Of(item.Value, deeper, trailingCommas)));
            separator = ",";
        }

        return text.Append(trailingCommas ? "," : "").Append(_newLine).Append(indent).Append(value is JsonObject ? '}' : ']').ToString();
    }

    /// <summary>Adds a value at the end of an object or list.</summary>
    /// <param name="around">The object or list.</param>
    /// <param name="key">The key; null in a list.</param>
    /// <param name="value">The value.</param>
    public TextChange[] Insertion(LocatedNode around, string? key, JsonNode? value)
    {
        if (around.Children is not [.., var last])
            return [IntoEmpty(around, key, value)];
        var comma = CommaAfter(last.Span.End);
        var end = comma < 0 ? last.Span.End : comma + 1;
        if (!HasLineOfItsOwn(around, last))
        {
            var member = Member(key, Of(value, IndentAt(last.Span.Opening), comma >= 0));
            return [new TextChange(end, end, comma < 0 ? $", {member}" : $" {member},")];
        }

        var indent = IndentAt(last.Span.Opening);
        var behind = EndOfLine(end);
        TextChange added = new(behind, behind, $"{_newLine}{indent}{Member(key, Of(value, indent, comma >= 0))}{(comma < 0 ? "" : ",")}");
        return comma < 0 ? [new TextChange(end, end, ","), added] : [added];
    }

    /// <summary>Takes a value out of an object or list, with its key and comma; a comment beside it stays.</summary>
    /// <param name="around">The object or list.</param>
    /// <param name="node">The value.</param>
    public TextChange[] Removal(LocatedNode around, LocatedNode node)
    {
        var place = around.Children.IndexOf(node);
        var comma = CommaAfter(node.Span.End);
        var changes = new List<TextChange>();
        // The one before becomes the last, and has a comma only where the one taken out had one.
        if (comma < 0 && place > 0)
            changes.Add(Cut(CommaAfter(around.Children[place - 1].Span.End), 1));
        var (start, end) = (node.Span.Opening, node.Span.End);
        if (comma >= 0 && Bytes[end..comma].Trim(" \t\r\n"u8).IsEmpty)
            end = comma + 1;
        else if (comma >= 0)
            changes.Add(Cut(comma, 1));
        var lineStart = LineStart(start);
        var rest = SkipBlanks(end);
        if (SkipBlanks(lineStart) == start && (rest == Bytes.Length || Bytes[rest] is (byte)'\r' or (byte)'\n'))
            (start, end) = (lineStart, Bytes[rest..].IndexOf((byte)'\n') is >= 0 and var newLine ? rest + newLine + 1 : rest);
        else if (place == 0 || SkipBlanks(lineStart) == start)
            end = rest;
        else
            start -= start - 1 - Bytes[..start].LastIndexOfAnyExcept(" \t"u8);
        changes.Add(new TextChange(start, end, ""));
        return [.. changes];

        static TextChange Cut(int at, int length) => new(at, at + length, "");
    }

    private TextChange IntoEmpty(LocatedNode around, string? key, JsonNode? value)
    {
        var (start, end) = (around.Span.Start + 1, around.Span.End - 1);
        var indent = IndentAt(around.Span.Start);
        var lineStart = LineStart(end);
        if (lineStart > start && SkipBlanks(lineStart) == end)
        {
            var deeper = IndentAt(end) + Step;
            return new TextChange(lineStart, lineStart, $"{deeper}{Member(key, Of(value, deeper, trailingCommas: true))},{_newLine}");
        }

        var padding = around.Kind == LocatedKind.Object ? " " : "";
        var line = Member(key, OnOneLine(value));
        if (!Bytes[start..end].Trim(" \t\r\n"u8).IsEmpty)
            return new TextChange(end, end, $"{line}{padding}");
        return indent.Length + line.Length <= Widest
            ? new TextChange(start, end, $"{padding}{line}{padding}")
            : new TextChange(start, end, $"{_newLine}{indent}{Step}{Member(key, Of(value, indent + Step, trailingCommas: true))},{_newLine}{indent}");
    }

    /// <summary>What each level of the text is indented by.</summary>
    private string Step
    {
        get
        {
            foreach (var line in Bytes.Split((byte)'\n'))
            {
                var (start, end) = (line.Start.Value, SkipBlanks(line.Start.Value));
                if (end > start && end < line.End.Value && Bytes[end] == '"')
                    return Encoding.UTF8.GetString(Bytes[start..end]);
            }

            return "  ";
        }
    }

    private bool HasLineOfItsOwn(LocatedNode around, LocatedNode last)
    {
        var before = around.Children.Length > 1 ? around.Children[^2].Span.End : around.Span.Start;
        return Bytes[before..last.Span.Opening].Contains((byte)'\n');
    }

    /// <summary>The comma after a value, or −1.</summary>
    private int CommaAfter(int end)
    {
        var next = end;
        while (next < Bytes.Length)
        {
            if (Bytes[next] is (byte)' ' or (byte)'\t' or (byte)'\r' or (byte)'\n')
                next++;
            else if (Bytes[next] == '/')
                next = EndOfComment(next);
            else
                return Bytes[next] == ',' ? next : -1;
        }

        return -1;
    }

    /// <summary>Behind the comments that begin on the line of a place, as far as nothing else stands on it.</summary>
    private int EndOfLine(int offset)
    {
        var end = offset;
        while (SkipBlanks(end) is var next && next < Bytes.Length && Bytes[next] == '/')
            end = EndOfComment(next);
        return end;
    }

    private int EndOfComment(int start)
    {
        var isBlock = Bytes[start + 1] == '*';
        var length = isBlock ? Bytes[(start + 2)..].IndexOf("*/"u8) + 4 : Bytes[start..].IndexOf((byte)'\n');
        var end = length < 0 ? Bytes.Length : start + length;
        return !isBlock && length > 0 && Bytes[end - 1] == '\r' ? end - 1 : end;
    }

    private int LineStart(int offset) => Bytes[..offset].LastIndexOf((byte)'\n') is >= 0 and var end ? end + 1 : Bytes.StartsWith(Encoding.UTF8.Preamble) ? Encoding.UTF8.Preamble.Length : 0;

    private int SkipBlanks(int offset)
    {
        var next = offset;
        while (next < Bytes.Length && Bytes[next] is (byte)' ' or (byte)'\t')
            next++;
        return next;
    }

    private static string OnOneLine(JsonNode? value) => value switch
    {
        JsonObject { Count: 0 } => "{}",
        JsonObject members => $"{{ {string.Join(", ", members.Select(member => Member(member.Key, OnOneLine(member.Value))))} }}",
        JsonArray items => $"[{string.Join(", ", items.Select(OnOneLine))}]",
        _ => value?.ToJsonString(Scalars) ?? "null",
    };

    private static IEnumerable<(string? Key, JsonNode? Value)> Items(JsonNode? value) => value switch
    {
        JsonObject members => members.Select(member => ((string?)member.Key, member.Value)),
        JsonArray items => items.Select(item => ((string?)null, item)),
        _ => [],
    };

    private static string Member(string? key, string value) => key is null ? value : $"{JsonSerializer.Serialize(key, Scalars)}: {value}";
}
