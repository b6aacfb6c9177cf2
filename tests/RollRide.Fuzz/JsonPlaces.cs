using System.Globalization;
using System.Text.Json.Nodes;

namespace RollRide.Fuzz;

/// <summary>Places in a tree of JSON, as keys and indices joined by slashes.</summary>
internal static class JsonPlaces
{
    /// <summary>All places below a value, with what stands there.</summary>
    public static IEnumerable<(string Place, JsonNode? Value)> Below(JsonNode? node, string place = "")
    {
        IEnumerable<(string, JsonNode?)> children = node switch
        {
            JsonObject members => members.Select(member => ($"{place}/{member.Key}", member.Value)),
            JsonArray items => items.Select((item, i) => (string.Create(CultureInfo.InvariantCulture, $"{place}/{i}"), item)),
            _ => [],
        };
        return children.SelectMany(child => Below(child.Item2, child.Item1).Prepend(child));
    }

    /// <summary>Whether something stands at a place.</summary>
    public static bool Has(JsonNode root, string place) => Find(root, place, out _, out _);

    /// <summary>What stands at a place; null where nothing does.</summary>
    public static JsonNode? At(JsonNode root, string place)
    {
        if (!Find(root, place, out var holder, out var name))
            return null;
        return holder is JsonObject members ? members[name] : holder.AsArray()[int.Parse(name, CultureInfo.InvariantCulture)];
    }

    /// <summary>Puts a value in the place of another.</summary>
    public static void Put(JsonNode root, string place, JsonNode? value)
    {
        if (!Find(root, place, out var holder, out var name))
            return;
        if (holder is JsonObject members)
            members[name] = value;
        else
            holder.AsArray()[int.Parse(name, CultureInfo.InvariantCulture)] = value;
    }

    /// <summary>Takes away what stands at a place.</summary>
    public static void Remove(JsonNode root, string place)
    {
        if (!Find(root, place, out var holder, out var name))
            return;
        if (holder is JsonObject members)
            members.Remove(name);
        else
            holder.AsArray().RemoveAt(int.Parse(name, CultureInfo.InvariantCulture));
    }

    /// <summary>A place with its indices left out, so that each key counts once, however long its list is.</summary>
    public static string KeyOf(string place) =>
        string.Join('/', place.Split('/').Where(part => !int.TryParse(part, CultureInfo.InvariantCulture, out _)));

    private static bool Find(JsonNode root, string place, out JsonNode holder, out string name)
    {
        var parts = place.Split('/');
        name = parts[^1];
        holder = root;
        for (var i = 1; i < parts.Length; i++)
        {
            JsonNode? next = null;
            var stands = holder switch
            {
                JsonObject members => members.TryGetPropertyValue(parts[i], out next),
                JsonArray items when int.TryParse(parts[i], CultureInfo.InvariantCulture, out var index) && index < items.Count => Take(items[index], out next),
                _ => false,
            };
            if (!stands)
                return false;
            if (i == parts.Length - 1)
                return true;
            if (next is null)
                return false;
            holder = next;
        }

        return false;
    }

    private static bool Take(JsonNode? item, out JsonNode? next)
    {
        next = item;
        return true;
    }
}
