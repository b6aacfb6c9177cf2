using System.Text.Json;
using System.Text.Json.Nodes;

namespace RollRide.Live.Answers;

/// <summary>Takes the parts of a request, each of the kind that it must be.</summary>
internal static class Asked
{
    /// <summary>The member of an object; null where it has none or the member is null.</summary>
    /// <exception cref="RequestFault">The object has the key twice.</exception>
    public static JsonNode? Member(JsonObject of, string key)
    {
        try
        {
            return of[key];
        }
        catch (ArgumentException)
        {
            // The object's keys are looked at when the first is asked for.
            throw new RequestFault($"a key stands twice beside “{key}”");
        }
    }

    /// <summary>A text.</summary>
    public static string Text(JsonNode? node, string name) => TextOrNone(node, name) ?? throw Expected(name, "a text");

    /// <summary>A text, or null.</summary>
    public static string? TextOrNone(JsonNode? node, string name) => node is null ? null : Value<string>(node, name, JsonValueKind.String, "a text");

    /// <summary>A number; finite.</summary>
    public static double Number(JsonNode? node, string name) =>
        Value<double>(node, name, JsonValueKind.Number, "a number") is var number && double.IsFinite(number) ? number : throw Expected(name, "a finite number");

    /// <summary>True or false; false where it is missing.</summary>
    public static bool Flag(JsonNode? node, string name) => node is not null && (node.GetValueKind() is JsonValueKind.True or JsonValueKind.False ? node.GetValueKind() == JsonValueKind.True : throw Expected(name, "true or false"));

    /// <summary>An object.</summary>
    public static JsonObject Object(JsonNode? node, string name) => node as JsonObject ?? throw Expected(name, "an object");

    /// <summary>A list, empty where it is missing.</summary>
    public static JsonArray List(JsonNode? node, string name, int most) => (node ?? new JsonArray()) is not JsonArray list ? throw Expected(name, "a list")
        : list.Count <= most ? list
        : throw Expected(name, $"a list of at most {most} items");

    /// <summary>What was expected of a part.</summary>
    public static RequestFault Expected(string name, string what) => new($"“{name}” must be {what}");

    private static T Value<T>(JsonNode? node, string name, JsonValueKind kind, string what)
    {
        if (node is not JsonValue value || value.GetValueKind() != kind)
            throw Expected(name, what);
        try
        {
            return value.GetValue<T>();
        }
        catch (Exception e) when (e is InvalidOperationException or FormatException)
        {
            throw Expected(name, what);
        }
    }
}
