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
    [InlineData("exclusiveMinimum", "\"cgHeight_mm\": 800", "\"cgHeight_mm\": 0")]
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

    [Theory]
    [MemberData(nameof(Scenarios))]
    public void Schema_and_binder_agree_on_changed_scenarios(string name)
    {
        var (accepted, refused) = (0, 0);
        ScenarioMutations.Of(File.ReadAllText(Shipped.Scenario(name))).SampleSame(
            250,
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
        Assert.InRange(accepted, 25, 250);
        Assert.InRange(refused, 25, 250);
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
