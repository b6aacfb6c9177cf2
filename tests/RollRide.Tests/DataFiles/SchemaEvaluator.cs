using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace RollRide.Tests.DataFiles;

/// <summary>
/// Evaluates the keywords of JSON Schema that our schemas use, written from the standard (draft 2020-12, Core and
/// Validation) and independent of the binder. Any other keyword is an error, so that none is passed over.
/// </summary>
internal sealed class SchemaEvaluator(JsonObject root)
{
    public bool Accepts(JsonNode? value) => Accepts(root, value);

    private bool Accepts(JsonNode schema, JsonNode? value) =>
        schema is JsonValue always ? always.GetValue<bool>() : schema.AsObject().All(keyword => Holds(keyword.Key, keyword.Value!, schema, value));

    private bool Holds(string keyword, JsonNode argument, JsonNode schema, JsonNode? value) => keyword switch
    {
        "$schema" or "title" or "description" or "default" or "$defs" => true,
        "$ref" => Accepts(root["$defs"]![argument.GetValue<string>()["#/$defs/".Length..]]!, value),
        "type" => IsOfType(argument.GetValue<string>(), value),
        "enum" => argument.AsArray().Any(item => JsonNode.DeepEquals(item, value)),
        "pattern" => value?.GetValueKind() != JsonValueKind.String || Regex.IsMatch(value.GetValue<string>(), argument.GetValue<string>()),
        "minimum" => Number(value) is not { } n || n >= Number(argument),
        "exclusiveMinimum" => Number(value) is not { } n || n > Number(argument),
        "maximum" => Number(value) is not { } n || n <= Number(argument),
        "exclusiveMaximum" => Number(value) is not { } n || n < Number(argument),
        "items" => value is not JsonArray list || list.All(item => Accepts(argument, item)),
        "minItems" => value is not JsonArray list || list.Count >= Number(argument),
        "maxItems" => value is not JsonArray list || list.Count <= Number(argument),
        "minProperties" => value is not JsonObject o || o.Count >= Number(argument),
        "maxProperties" => value is not JsonObject o || o.Count <= Number(argument),
        "required" => value is not JsonObject o || argument.AsArray().All(key => o.ContainsKey(key!.GetValue<string>())),
        "properties" => value is not JsonObject o || argument.AsObject().All(p => !o.TryGetPropertyValue(p.Key, out var v) || Accepts(p.Value!, v)),
        "propertyNames" => value is not JsonObject o || o.All(p => Accepts(argument, JsonValue.Create(p.Key))),
        "additionalProperties" => value is not JsonObject o
            || o.Where(p => schema["properties"]?.AsObject().ContainsKey(p.Key) != true).All(p => Accepts(argument, p.Value)),
        "allOf" => argument.AsArray().All(part => Accepts(part!, value)),
        "anyOf" => argument.AsArray().Any(part => Accepts(part!, value)),
        "oneOf" => argument.AsArray().Count(part => Accepts(part!, value)) == 1,
        "not" => !Accepts(argument, value),
        _ => throw new NotSupportedException(keyword),
    };

    private static bool IsOfType(string type, JsonNode? value) => (type, value?.GetValueKind() ?? JsonValueKind.Null) switch
    {
        ("object", JsonValueKind.Object) or ("array", JsonValueKind.Array) or ("string", JsonValueKind.String) => true,
        ("number", JsonValueKind.Number) or ("boolean", JsonValueKind.True or JsonValueKind.False) => true,
        ("integer", JsonValueKind.Number) => double.IsInteger(Number(value)!.Value),
        _ => false,
    };

    // A number of the generated documents is an int or a double, one of a parsed document can be had as either.
    private static double? Number(JsonNode? value) => value?.GetValueKind() == JsonValueKind.Number
        ? JsonDocument.Parse(value.ToJsonString()).RootElement.GetDouble()
        : null;
}
