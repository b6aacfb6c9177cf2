using System.Diagnostics;
using System.Text.Json.Nodes;

namespace RollRide.DataFiles;

/// <summary>Writes the JSON Schema (draft 2020-12) of a file, so that editors complete and check it.</summary>
public static class JsonSchemaWriter
{
    private const string HasVisibleCharacter = @"\S";

    /// <summary>The schema as text, indented, ended by "\n".</summary>
    /// <param name="root">The record of the root object.</param>
    /// <param name="title">The schema's title.</param>
    public static string WriteText(Type root, string title) => JsonText.Of(Write(root, title));

    /// <summary>The schema.</summary>
    /// <param name="root">The record of the root object.</param>
    /// <param name="title">The schema's title.</param>
    public static JsonObject Write(Type root, string title)
    {
        var records = RecordContract.Of(root).WithNested();
        var schema = new JsonObject { ["$schema"] = "https://json-schema.org/draft/2020-12/schema", ["title"] = title };
        foreach (var (keyword, value) in SchemaOf(records[0]).ToList())
            schema[keyword] = value!.DeepClone();
        schema["properties"]!["$schema"] = new JsonObject
        {
            ["description"] = "Where this schema is found, for editors.",
            ["type"] = "string",
            ["pattern"] = HasVisibleCharacter,
        };

        // The root is among them too when a record holds it again.
        var definitions = records.Where(record => record != records[0] || IsHeldAgain(record, records));
        var defs = new JsonObject(definitions.Select(record => KeyValuePair.Create(record.Name, (JsonNode?)SchemaOf(record))));
        if (defs.Count > 0) schema["$defs"] = defs;
        return schema;
    }

    private static bool IsHeldAgain(RecordContract record, IEnumerable<RecordContract> records) =>
        records.SelectMany(holder => holder.Keys).Any(key => key.Value.Record == record);

    private static JsonObject SchemaOf(RecordContract record)
    {
        var schema = new JsonObject();
        if (record.Description is not null) schema["description"] = record.Description;
        schema["type"] = "object";
        schema["properties"] = new JsonObject(record.Keys.Select(key => KeyValuePair.Create(key.Name, (JsonNode?)SchemaOf(key))));
        schema["required"] = Strings(record.Keys.Where(key => key.IsRequired).Select(key => key.Name));
        schema["additionalProperties"] = false;
        if (!record.Alternatives.IsEmpty) schema["allOf"] = new JsonArray([.. record.Alternatives.Select(SchemaOf)]);
        return schema;
    }

    private static JsonObject SchemaOf(KeyContract key)
    {
        var schema = SchemaOf(key.Value);
        schema.Insert(0, "description", key.Description);
        if (key.Default is not null) schema["default"] = RecordJson.Of(key.Default, key.Value);
        return schema;
    }

    private static JsonObject SchemaOf(AlternativesAttribute set)
    {
        var variants = set.Keys.Select(Requires).ToList();
        if (!set.IsRequired)
            variants.Add(new JsonObject { ["not"] = new JsonObject { ["anyOf"] = new JsonArray([.. set.Keys.Select(Requires)]) } });
        return new JsonObject { ["oneOf"] = new JsonArray([.. variants]) };
    }

    private static JsonObject Requires(string key) => new() { ["required"] = Strings([key]) };

    private static JsonObject SchemaOf(ValueContract value) => value switch
    {
        NumberContract number => Limited("number", number.Limits),
        WholeNumberContract number => Limited("integer", number.Limits with { AtLeast = number.Limits.AtLeast ?? -int.MaxValue, AtMost = number.Limits.AtMost ?? int.MaxValue }),
        BooleanContract => OfType("boolean"),
        TextContract => new JsonObject { ["type"] = "string", ["pattern"] = HasVisibleCharacter },
        NamedContract named => new JsonObject { ["enum"] = Strings(named.Names) },
        ObjectContract record => new JsonObject { ["$ref"] = $"#/$defs/{record.Record.Name}" },
        ListContract list => Counted(
            new JsonObject { ["type"] = "array", ["items"] = SchemaOf(list.Item) }, "Items", list.Count),
        MapContract map => Counted(
            new JsonObject
            {
                ["type"] = "object",
                ["propertyNames"] = new JsonObject { ["pattern"] = HasVisibleCharacter },
                ["additionalProperties"] = SchemaOf(map.Item),
            },
            "Properties",
            map.Count),
        _ => throw new UnreachableException(),
    };

    private static JsonObject OfType(string type) => new() { ["type"] = type };

    private static JsonObject Limited(string type, NumberLimits limits)
    {
        var schema = OfType(type);
        if (limits.Above is { } above) schema["exclusiveMinimum"] = above;
        if (limits.AtLeast is { } lowest) schema["minimum"] = lowest;
        if (limits.Below is { } below) schema["exclusiveMaximum"] = below;
        if (limits.AtMost is { } highest) schema["maximum"] = highest;
        return schema;
    }

    private static JsonObject Counted(JsonObject schema, string what, ItemCount count)
    {
        if (count.Min is { } min) schema["min" + what] = min;
        if (count.Max is { } max) schema["max" + what] = max;
        return schema;
    }

    private static JsonArray Strings(IEnumerable<string> texts) => new([.. texts.Select(text => (JsonNode)text)]);
}
