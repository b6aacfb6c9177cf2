using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;

namespace RollRide.Tests.Scenarios;

/// <summary>Shipped scenarios with a few values deleted, repeated, scaled or put in another's place.</summary>
internal static class ScenarioMutations
{
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    // Values that hit or just miss what some key accepts.
    private static readonly string[] Strangers =
        ["null", "true", "0", "1", "-1", "1.5", "3", "7", "1e3", "1e-9", "1e300", "\"\"", "\"x\"", "\"left\"", "\"both\"", "\"independent\"", "\"liveAxle\"", "[]", "{}", "[1]", "[0, 1]"];

    private static readonly double[] Factors = [-1, 0, 1e-6, 1e-3, 0.1, 0.5, 1.1, 2, 10, 1e3, 1e6, 1e300];

    /// <summary>A scenario as its tree.</summary>
    public static JsonNode Tree(string text) => JsonNode.Parse(text, documentOptions: Lenient)!;

    /// <summary>Changed copies of a scenario, as text.</summary>
    public static Gen<JsonNode> Of(string text)
    {
        var change = Gen.Select(Gen.Int[0, 100_000], Gen.Int[0, 5], Gen.Int[0, 1000]);
        return change.List[1, 3].Select(changes =>
        {
            var root = Tree(text);
            foreach (var (place, kind, choice) in changes)
                Change(root, place, kind, choice);
            return root;
        });
    }

    /// <summary>A value and all that it holds.</summary>
    public static IEnumerable<JsonNode> WithDescendants(JsonNode node)
    {
        var children = node switch
        {
            JsonObject members => members.Select(member => member.Value),
            JsonArray items => items,
            _ => [],
        };
        return children.OfType<JsonNode>().SelectMany(WithDescendants).Prepend(node);
    }

    private static void Change(JsonNode root, int place, int kind, int choice)
    {
        var nodes = WithDescendants(root).Skip(1).ToList();
        if (nodes.Count == 0)
            return;
        var node = nodes[place % nodes.Count];
        switch (kind)
        {
            case 0 when node.Parent is JsonObject holder:
                holder.Remove(node.GetPropertyName());
                break;
            case 0 when node.Parent is JsonArray list:
                list.RemoveAt(node.GetElementIndex());
                break;
            case 1 when node is JsonArray { Count: > 0 } items:
                items.Insert(choice % items.Count, items[choice % items.Count]?.DeepClone());
                break;
            case 1 when node.Parent is JsonObject holder:
                holder[$"another_{choice % 3}"] = node.DeepClone();
                break;
            case 2:
                node.ReplaceWith(JsonNode.Parse(Strangers[choice % Strangers.Length]));
                break;
            case 3:
                node.ReplaceWith(nodes[choice % nodes.Count].DeepClone());
                break;
            default:
                Scale(nodes, place, Factors[choice % Factors.Length]);
                break;
        }
    }

    private static void Scale(List<JsonNode> nodes, int place, double factor)
    {
        var numbers = nodes.Where(node => node.GetValueKind() == JsonValueKind.Number).ToList();
        if (numbers.Count == 0)
            return;
        var number = numbers[place % numbers.Count];
        var scaled = double.Parse(number.ToJsonString(), CultureInfo.InvariantCulture) * factor;
        if (double.IsFinite(scaled))
            number.ReplaceWith(JsonValue.Create(scaled));
    }
}
