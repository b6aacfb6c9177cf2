using System.Diagnostics;
using System.Text;

namespace RollRide.DataFiles;

/// <summary>Writes every key of a file as Markdown: a section for each record, with a table of its keys.</summary>
public static class KeyReferenceWriter
{
    /// <summary>The reference, the root record first, lines ended by "\n".</summary>
    /// <param name="root">The record of the root object.</param>
    /// <param name="headingLevel">The level of the sections' headings: 2 for "##".</param>
    public static string Write(Type root, int headingLevel = 2)
    {
        var text = new StringBuilder();
        foreach (var record in RecordContract.Of(root).WithNested())
        {
            if (text.Length > 0) text.Append('\n');
            text.Append('#', headingLevel).Append(' ').Append(record.Name).Append("\n\n");
            if (record.Description is not null) text.Append(record.Description).Append("\n\n");
            foreach (var set in record.Alternatives) text.Append(Sentence(set)).Append("\n\n");
            text.Append("| key | type | required or default | accepted | meaning |\n|---|---|---|---|---|\n");
            foreach (var key in record.Keys) text.Append(Row(key));
        }

        return text.ToString();
    }

    private static string Sentence(AlternativesAttribute set)
    {
        var keys = string.Join(", ", set.Keys.Select(key => $"`{key}`"));
        return $"Give {(set.IsRequired ? "exactly" : "at most")} one of {keys}.";
    }

    private static string Row(KeyContract key)
    {
        string[] cells = [$"`{key.Name}`", TypeOf(key.Value), Presence(key), Limits(key.Value), key.Description];
        return $"| {string.Join(" | ", cells.Select(cell => cell.Replace("|", "\\|", StringComparison.Ordinal)))} |\n";
    }

    private static string Presence(KeyContract key)
    {
        if (key.IsRequired) return "required";
        return key.Default is null ? "optional" : $"`{RecordJson.Of(key.Default, key.Value).ToJsonString()}`";
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
