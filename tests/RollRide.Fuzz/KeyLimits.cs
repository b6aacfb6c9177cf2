using System.Text.Json.Nodes;

namespace RollRide.Fuzz;

/// <summary>The least and the greatest number of each key, as the program's own schema tells them.</summary>
internal sealed class KeyLimits
{
    private readonly Dictionary<string, List<double>> _limits = new(StringComparer.Ordinal);

    /// <summary>Gathers the limits of a schema.</summary>
    public KeyLimits(JsonNode schema) => Gather(schema);

    /// <summary>The limits of a key, by its last name; none where it has none.</summary>
    public IReadOnlyList<double> Of(string key) => _limits.TryGetValue(key, out var found) ? found : [];

    private void Gather(JsonNode? node)
    {
        if (node is not JsonObject holder)
            return;
        foreach (var (name, value) in holder)
        {
            if (name == "properties")
            {
                foreach (var (key, definition) in value!.AsObject())
                    Note(key, definition!);
            }

            Gather(value);
        }
    }

    private void Note(string key, JsonNode definition)
    {
        foreach (var place in new[] { definition, definition["items"] })
        {
            foreach (var limit in (string[])["minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum"])
            {
                if (place is JsonObject && place[limit] is { } number)
                {
                    if (!_limits.TryGetValue(key, out var found))
                        _limits[key] = found = [];
                    found.Add(number.GetValue<double>());
                }
            }
        }
    }
}
