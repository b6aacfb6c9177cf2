using System.Text.Json.Nodes;

namespace RollRide.Fuzz;

/// <summary>Other structure: parts taken away, repeated, exchanged, renamed, and text that is no longer JSON.</summary>
internal static class StructureChanges
{
    private static readonly string[] Strangers =
    [
        "null", "true", "0", "-1", "1.5", "1e3", "\"\"", "\"x\"", "\"both\"", "\"independent\"", "\"liveAxle\"", "\"\\u001b[31m\\n\"", "\"../../..\"",
        "\"case.json\"", "\".\"", "\"\\u0000\"", "[]", "{}", "[1]", "[0, 1]", "[[[[1]]]]", "{\"\": {}}",
    ];

    /// <summary>One change of the structure.</summary>
    public static Change? Any(CaseInput input, Random random)
    {
        var places = JsonPlaces.Below(input.Scenario).GroupBy(entry => JsonPlaces.KeyOf(entry.Place)).Select(group => group.First()).ToArray();
        if (places.Length == 0)
            return null;
        var (place, value) = places[random.Next(places.Length)];
        switch (random.Next(7))
        {
            case 0:
                return new Change($"{place}: taken away", changed => JsonPlaces.Remove(changed.Scenario, place));
            case 1:
                var stranger = Strangers[random.Next(Strangers.Length)];
                return new Change($"{place}: now {stranger}", changed => JsonPlaces.Put(changed.Scenario, place, JsonNode.Parse(stranger)));
            case 2:
                var (otherPlace, other) = places[random.Next(places.Length)];
                return new Change($"{place}: as {otherPlace}", changed => JsonPlaces.Put(changed.Scenario, place, other?.DeepClone()));
            case 3 when JsonPlaces.At(input.Scenario, place) is JsonArray { Count: > 0 }:
                var count = random.Next(1, 4);
                return new Change($"{place}: its last item {count} times more", changed =>
                {
                    for (var i = 0; i < count && JsonPlaces.At(changed.Scenario, place) is JsonArray { Count: > 0 } items; i++)
                        items.Add(items[^1]?.DeepClone());
                });
            case 4 when value is JsonArray { Count: > 1 }:
                return new Change($"{place}: in reverse", changed =>
                {
                    if (JsonPlaces.At(changed.Scenario, place) is JsonArray items)
                        JsonPlaces.Put(changed.Scenario, place, new JsonArray([.. items.Reverse().Select(item => item?.DeepClone())]));
                });
            case 5:
                var name = random.Next(2) == 0 ? "another" : new string('k', 5000);
                return new Change($"{place}: again as {name[..7]}", changed =>
                {
                    if (JsonPlaces.At(changed.Scenario, place) is { Parent: JsonObject holder } found)
                        holder[name] = found.DeepClone();
                });
            default:
                var (at, kind, letter) = (random.NextDouble(), random.Next(3), "{}[],:\"0-e\\\n\t\u0001"[random.Next(14)]);
                return new Change($"the text {(kind == 0 ? "cut" : kind == 1 ? $"with U+{(int)letter:X4} put in" : "with a letter taken out")} at {at:P0}", changed => changed.Text = Damage(changed.ScenarioText, at, kind, letter));
        }
    }

    /// <summary>A text cut, or with one letter more or less.</summary>
    internal static string Damage(string text, double at, int kind, char letter)
    {
        if (text.Length == 0)
            return text;
        var place = (int)(at * (text.Length - 1));
        return kind switch
        {
            0 => text[..place],
            1 => text.Insert(place, letter.ToString()),
            _ => text.Remove(place, 1),
        };
    }
}
