using System.Diagnostics;
using System.Text;

namespace RollRide.DataFiles;

/// <summary>Writes every key of a file as Markdown: a section for each record, with a table of its keys. A small record that one key alone holds stands in the table of that key.</summary>
public static class KeyReferenceWriter
{
    private const int SmallRecord = 4;

    /// <summary>The reference, the root record first, lines ended by "\n".</summary>
    /// <param name="root">The record of the root object.</param>
    /// <param name="headingLevel">The level of the sections' headings: 2 for "##".</param>
    public static string Write(Type root, int headingLevel = 2)
    {
        var records = RecordContract.Of(root).WithNested();
        var inPlace = records.Where(record => IsSmall(record) && records.SelectMany(other => other.Keys).Where(key => key.Value.Record == record).ToArray() is [{ Value: ObjectContract }]).ToHashSet();
        var text = new StringBuilder();
        foreach (var record in records.Where(record => !inPlace.Contains(record)))
        {
            if (text.Length > 0) text.Append('\n');
            text.Append('#', headingLevel).Append(' ').Append(record.Name).Append("\n\n");
            string[] sentences = [.. record.Description is { } description ? new[] { description } : [], .. record.Alternatives.Select(Sentence)];
            if (sentences.Length > 0) text.AppendJoin(' ', sentences).Append("\n\n");
            text.Append("| key | value | meaning |\n|---|---|---|\n");
            foreach (var key in record.Keys)
            {
                var isHere = key.Value.Record is { } held && inPlace.Contains(held);
                text.Append(Row(key.Name, key, isHere));
                foreach (var part in isHere ? key.Value.Record!.Keys : [])
                    text.Append(Row($"{key.Name}.{part.Name}", part, false));
            }
        }

        return text.ToString();
    }

    private static bool IsSmall(RecordContract record) =>
        record.Keys.Length <= SmallRecord && record.Alternatives.IsEmpty && record.Keys.All(key => key.Value.Record is null);

    private static string Sentence(AlternativesAttribute set)
    {
        var keys = string.Join(", ", set.Keys.Select(key => $"`{key}`"));
        return $"Give {(set.IsRequired ? "exactly" : "at most")} one of {keys}.";
    }

    private static string Row(string name, KeyContract key, bool isHere)
    {
        string[] cells = [$"`{name}`", Value(key, isHere), key.Description];
        return $"| {string.Join(" | ", cells.Select(cell => cell.Replace("|", "\\|", StringComparison.Ordinal)))} |\n";
    }

    /// <summary>What may stand there, and what holds if the key is left out; a record's own keys say that themselves.</summary>
    private static string Value(KeyContract key, bool isHere)
    {
        var limits = Limits(key.Value);
        var accepted = isHere ? "the keys below" : key.Value is NamedContract or NumberContract && limits.Length > 0 ? limits : limits.Length == 0 ? TypeOf(key.Value) : $"{TypeOf(key.Value)}, {limits}";
        return key.IsRequired ? $"required: {accepted}"
            : key.Default is null || key.Value is ObjectContract ? accepted
            : $"{accepted}; default `{RecordJson.Of(key.Default, key.Value).ToJsonString()}`";
    }

    private static string TypeOf(ValueContract value) => value switch
    {
        NumberContract => "number",
        WholeNumberContract => "whole number",
        BooleanContract => "true or false",
        TextContract => "text",
        NamedContract => "name",
        ObjectContract record => $"[{record.Record.Name}](#{record.Record.Name.ToLowerInvariant()})",
        ListContract list => $"list of {TypeOf(list.Item)}",
        MapContract map => $"named {TypeOf(map.Item)}",
        _ => throw new UnreachableException(),
    };

    private static string Limits(ValueContract value) => value switch
    {
        NumberContract number => number.Limits.ToString(),
        WholeNumberContract number => number.Limits.ToString(),
        NamedContract named => string.Join(", ", named.Names.Select(name => $"`{name}`")),
        ListContract list => WithCount(list.Count, list.Item),
        MapContract map => WithCount(map.Count, map.Item),
        _ => "",
    };

    private static string WithCount(ItemCount count, ValueContract item)
    {
        var each = Limits(item);
        var number = count.ToString().Replace(" of ", "", StringComparison.Ordinal);
        return (number.Length, each.Length) switch
        {
            (0, 0) => "",
            (0, _) => $"each {each}",
            (_, 0) => $"{number} of them",
            _ => $"{number} of them, each {each}",
        };
    }
}
