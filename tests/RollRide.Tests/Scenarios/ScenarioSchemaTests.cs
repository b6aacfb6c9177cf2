using System.Text;
using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Scenarios;

/// <summary>The JSON Schema of scenarios says what the reader accepts.</summary>
public class ScenarioSchemaTests
{
    private static readonly JsonObject Schema = JsonNode.Parse(JsonSchemaWriter.WriteText(typeof(ScenarioFile), "RollRide scenario"))!.AsObject();

    private static readonly SchemaEvaluator Evaluator = new(Schema);

    public static TheoryData<string> Scenarios => [.. Shipped.Scenarios];

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void Schema_accepts_every_shipped_scenario(string name) =>
        Assert.True(Evaluator.Accepts(ScenarioMutations.Tree(File.ReadAllText(Shipped.Scenario(name)))));

    [Theory]
    [InlineData("type", "\"track_mm\": 1600", "\"track_mm\": \"1600\"")]
    [InlineData("required", "\"track_mm\": 1600,", "")]
    [InlineData("additionalProperties", "\"track_mm\": 1600", "\"track_mm\": 1600, \"track_m\": 1.6")]
    [InlineData("enum", "\"liveAxle\"", "\"dead\"")]
    [InlineData("pattern", "\"Trial axle\"", "\" \"")]
    [InlineData("propertyNames", "\"rear soft\": { \"dyno\"", "\" \": { \"dyno\"")]
    [InlineData("minimum", "\"track_mm\": 1600", "\"track_mm\": 199")]
    [InlineData("maximum", "\"track_mm\": 1600", "\"track_mm\": 5001")]
    [InlineData("exclusiveMinimum", "\"duration_s\": 5,", "\"duration_s\": 5, \"phases\": [ { \"name\": \"all\", \"start_s\": 0, \"end_s\": 0 } ],")]
    [InlineData("minItems", "[0, 600, 750]", "[0, 600]")]
    [InlineData("maxItems", "[0, 600, 750]", "[0, 600, 750, 0]")]
    [InlineData("items", "[0, 600, 750]", "[0, 600, true]")]
    [InlineData("oneOf", "{ \"dyno\": \"dyno.csv\" }", "{ }")]
    [InlineData("minProperties", "\"dampers\": {", "\"dampers\": { }, \"layout\": {")]
    public void Schema_and_reader_both_refuse_a_breach_of_each_keyword(string keyword, string old, string replacement)
    {
        Assert.Contains($"\"{keyword}\":", Schema.ToJsonString(), StringComparison.Ordinal);
        Assert.True(Evaluator.Accepts(ScenarioMutations.Tree(Trial.LiveAxle)));
        var text = Trial.With(old, replacement);
        Assert.False(Evaluator.Accepts(ScenarioMutations.Tree(text)));
        Assert.NotEmpty(Trial.FaultsOf(text));
    }

    // Numbers of a sweep stand for other keys, whose limits they meet when the variant is read; a seed or a metric may be any number.
    private static readonly string[] Boundless = ["values", "from", "to", "mode", "mean", "deviation", "atMost", "atLeast", "seed", "loadStates"];

    [Fact]
    public void Every_number_has_a_least_and_a_greatest_value()
    {
        static bool HasBoth(JsonNode number) =>
            (number["minimum"] ?? number["exclusiveMinimum"]) is not null && (number["maximum"] ?? number["exclusiveMaximum"]) is not null;

        var numbers = ScenarioMutations.WithDescendants(Schema).OfType<JsonObject>()
            .Where(node => node["type"] is JsonValue type && type.TryGetValue<string>(out var name) && name is "number" or "integer").ToArray();
        Assert.InRange(numbers.Length, 80, 1000);
        Assert.Equal("", string.Join(", ", numbers.Where(number => !HasBoth(number)).Select(KeyOf).Except(Boundless)));

        static string KeyOf(JsonNode number) => number.Parent is JsonObject { Parent: not null } holder && number.GetPropertyName() is "items" or "additionalProperties"
            ? KeyOf(number.Parent!)
            : number.GetPropertyName();
    }

    [Fact]
    public void Every_list_has_a_greatest_length()
    {
        var lists = ScenarioMutations.WithDescendants(Schema).OfType<JsonObject>()
            .Where(node => node["type"] is JsonValue type && type.TryGetValue<string>(out var name) && name == "array").ToArray();
        Assert.InRange(lists.Length, 20, 1000);
        Assert.Equal("", string.Join(", ", lists.Where(list => list["maxItems"] is null).Select(list => list.GetPropertyName())));
    }

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void Schema_and_binder_agree_on_changed_scenarios(string name)
    {
        var (accepted, refused) = (0, 0);
        ScenarioMutations.Of(File.ReadAllText(Shipped.Scenario(name))).SampleSame(
            100,
            tree =>
            {
                var isAccepted = Evaluator.Accepts(tree);
                if (isAccepted)
                    accepted++;
                else
                    refused++;
                Assert.Equal(isAccepted, IsBound(tree.ToJsonString()));
            });

        // Both verdicts came up often enough for the comparison to mean something.
        Assert.InRange(accepted, 10, 100);
        Assert.InRange(refused, 10, 100);
    }

    private static bool IsBound(string text)
    {
        try
        {
            BoundDocument.Parse<ScenarioFile>(Encoding.UTF8.GetBytes(text), "scenario.json");
            return true;
        }
        catch (DataFileException)
        {
            return false;
        }
    }
}
