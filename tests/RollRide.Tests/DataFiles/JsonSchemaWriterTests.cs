using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class JsonSchemaWriterTests
{
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    private static readonly JsonObject Schema = JsonSchemaWriter.Write(typeof(ExampleFileDto), "Example file");

    private static readonly SchemaEvaluator Evaluator = new(Schema);

    // Values that hit or just miss what some key accepts.
    private static readonly string[] Scalars =
        ["null", "true", "0", "1", "-1", "1.5", "499", "500", "1000", "1e3", "3001", "\"\"", "\" \"", "\"x\"", "\"leftHand\"", "\"LeftHand\"", "[]", "{}", "[1]", "[[],[2]]", "[{\"name\":\"n\"}]"];

    private static readonly string[] Keys =
        ["$schema", "title", "mass_kg", "track_mm", "offset_mm", "name", "side", "spring", "rate_N_per_mm", "points", "free_length_mm", "preload_N", "steps", "dense", "unknown", ""];

    [Fact]
    public void Write_describes_the_file_and_its_keys()
    {
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", (string?)Schema["$schema"]);
        Assert.Equal("Example file", (string?)Schema["title"]);
        Assert.Equal("An example of a whole file.", (string?)Schema["description"]);
        Assert.Equal("""["title","body","layouts"]""", Schema["required"]!.ToJsonString());
        Assert.Equal(["ExampleBody", "ExampleLayout", "ExampleSpring", "ExampleSolver"], Schema["$defs"]!.AsObject().Select(definition => definition.Key));
        Assert.Equal(
            """{"description":"Mass of the body.","type":"number","exclusiveMinimum":0}""",
            Schema["$defs"]!["ExampleBody"]!["properties"]!["mass_kg"]!.ToJsonString());
        Assert.Equal(
            """{"description":"Side of the damper.","enum":["leftHand","rightHand"],"default":"rightHand"}""",
            Schema["$defs"]!["ExampleLayout"]!["properties"]!["side"]!.ToJsonString());
        Assert.Equal(
            """{"description":"Layouts to compare.","type":"array","items":{"$ref":"#/$defs/ExampleLayout"},"minItems":1,"maxItems":3}""",
            Schema["properties"]!["layouts"]!.ToJsonString());
        Assert.Equal(
            """{"oneOf":[{"required":["rate_N_per_mm"]},{"required":["points"]}]}""",
            Schema["$defs"]!["ExampleSpring"]!["allOf"]![0]!.ToJsonString());
        Assert.Equal(
            """{"steps":100,"dense":false,"tolerance":1E-06}""", Schema["properties"]!["solver"]!["default"]!.ToJsonString());
    }

    [Fact]
    public void WriteText_is_the_same_schema_on_indented_lines()
    {
        var text = JsonSchemaWriter.WriteText(typeof(ExampleFileDto), "Example file");
        Assert.True(JsonNode.DeepEquals(Schema, JsonNode.Parse(text)));
        Assert.EndsWith("}\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain('\r', text);
    }

    [Fact]
    public void Schema_accepts_the_valid_file() => Assert.True(Evaluator.Accepts(JsonNode.Parse(Example.Valid, documentOptions: Lenient)));

    private sealed record Chain
    {
        [Key("next", "The next link.")]
        public Chain? Next { get; init; }
    }

    [Fact]
    public void Schema_of_a_record_that_holds_itself_refers_to_itself()
    {
        var evaluator = new SchemaEvaluator(JsonSchemaWriter.Write(typeof(Chain), "Chain"));
        Assert.True(evaluator.Accepts(JsonNode.Parse("""{ "next": { "next": {} } }""")));
        Assert.False(evaluator.Accepts(JsonNode.Parse("""{ "next": { "next": 1 } }""")));
    }

    [Fact]
    public void Schema_and_binder_agree_on_changed_files()
    {
        var accepted = 0;
        var refused = 0;
        var change = Gen.Select(Gen.Int[0, 10_000], Gen.Int[0, 3], Gen.Int[0, Scalars.Length - 1], Gen.Int[0, Keys.Length - 1]);
        change.List[1, 3].SampleSame(
            5000,
            changes =>
            {
                JsonNode file = JsonNode.Parse(Example.Valid, documentOptions: Lenient)!;
                foreach (var (place, kind, scalar, key) in changes) Change(file, place, kind, Scalars[scalar], Keys[key]);
                var isAccepted = Evaluator.Accepts(file);
                if (isAccepted) accepted++;
                else refused++;
                Assert.Equal(isAccepted, BinderAccepts(file.ToJsonString()));
            });

        // Both verdicts came up often enough for the comparison to mean something.
        Assert.InRange(accepted, 200, 5000);
        Assert.InRange(refused, 200, 5000);
    }

    private static void Change(JsonNode root, int place, int kind, string scalar, string key)
    {
        var nodes = WithDescendants(root).ToList();
        var node = nodes[place % nodes.Count];
        if (kind == 0 && node.Parent is JsonObject holder) holder.Remove(node.GetPropertyName());
        else if (kind == 0 && node.Parent is JsonArray list) list.RemoveAt(node.GetElementIndex());
        else if (kind == 1 && node is JsonArray items) items.Add(JsonNode.Parse(scalar));
        else if (kind == 2 && node is JsonObject members) members[key] = JsonNode.Parse(scalar);
        else if (node.Parent is not null) node.ReplaceWith(JsonNode.Parse(scalar));
    }

    private static IEnumerable<JsonNode> WithDescendants(JsonNode node)
    {
        var children = node switch
        {
            JsonObject members => members.Select(member => member.Value),
            JsonArray items => items,
            _ => [],
        };
        return children.OfType<JsonNode>().SelectMany(WithDescendants).Prepend(node);
    }

    private static bool BinderAccepts(string text)
    {
        try
        {
            LocatedBinder.Bind<ExampleFileDto>(LocatedNode.Parse(Encoding.UTF8.GetBytes(text), "example.json"), "example.json");
            return true;
        }
        catch (DataFileException)
        {
            return false;
        }
    }
}
