using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using RollRide.DataFiles;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.DataFiles;

public class EditedJsonTests
{
    public static TheoryData<string> Scenarios => [.. Shipped.Scenarios];

    private static string Edit(string text, params JsonEdit[] edits) => Encoding.UTF8.GetString(EditedJson.Apply(Encoding.UTF8.GetBytes(text), "a.json", edits).Span);

    private static JsonEdit Set(string path, string json) => JsonEdit.Set(path, JsonNode.Parse(json));

    [Theory]
    // A value is replaced where it stands, and nothing else.
    [InlineData("""{ "a": 1, /* two */ "b": 2 } // end""", "b", "2.5", """{ "a": 1, /* two */ "b": 2.5 } // end""")]
    [InlineData("{\r\n\t\"a\": [1, 2,\r\n\t\t3], // list\r\n}", "a[2]", "-1e-3", "{\r\n\t\"a\": [1, 2,\r\n\t\t-1e-3], // list\r\n}")]
    [InlineData("\uFEFF{\"ä\":{\"vor dem Wald\":true}}", "ä[\"vor dem Wald\"]", "\"Über\\u00b0\"", "\uFEFF{\"ä\":{\"vor dem Wald\":\"Über°\"}}")]
    [InlineData("""{ "a": { "x": 1 } }""", "a", """[1, {"b": null}]""", """{ "a": [1, { "b": null }] }""")]
    [InlineData("1", "", "2", "2")]
    // A missing key is added at the end, as its neighbours are written.
    [InlineData("""{ "a": 1 }""", "b", "2", """{ "a": 1, "b": 2 }""")]
    [InlineData("""{ "a": 1, }""", "b", "2", """{ "a": 1, "b": 2, }""")]
    [InlineData("{}", "a", "1", """{ "a": 1 }""")]
    [InlineData("{ }", "a", "1", """{ "a": 1 }""")]
    [InlineData("[]", "[0]", "1", "[1]")]
    [InlineData("[1, 2]", "[2]", "3", "[1, 2, 3]")]
    [InlineData("{ /* empty */ }", "a", "1", """{ /* empty */ "a": 1 }""")]
    [InlineData("{\n  // empty\n}\n", "a", "1", "{\n  // empty\n  \"a\": 1,\n}\n")]
    [InlineData("{\n    \"a\": 1\n}", "b", "2", "{\n    \"a\": 1,\n    \"b\": 2\n}")]
    [InlineData("{\n  \"a\": 1, // one, \"quoted\" }\n  // last\n}", "b", "2", "{\n  \"a\": 1, // one, \"quoted\" }\n  \"b\": 2,\n  // last\n}")]
    [InlineData("{\n  \"a\": 1 // one\n}", "b", "2", "{\n  \"a\": 1, // one\n  \"b\": 2\n}")]
    [InlineData("{\n  \"a\": 1 /* one */ , // two\n}", "b", "2", "{\n  \"a\": 1 /* one */ , // two\n  \"b\": 2,\n}")]
    [InlineData("{\r\n  \"a\": 1 // one\r\n}", "b", "2", "{\r\n  \"a\": 1, // one\r\n  \"b\": 2\r\n}")]
    [InlineData("{\n  \"a\": 1 }", "b", "2", "{\n  \"a\": 1,\n  \"b\": 2 }")]
    // Objects and lists missing on the way are made.
    [InlineData("""{ "a": { "b": 1 } }""", "a.c.d[0].e", "2", """{ "a": { "b": 1, "c": { "d": [{ "e": 2 }] } } }""")]
    [InlineData("""{ "a": {} }""", """a["with "] and . dot"]""", "2", """{ "a": { "with \"] and . dot": 2 } }""")]
    public void A_value_is_set_and_the_rest_of_the_text_stays(string text, string path, string value, string expected) => Assert.Equal(expected, Edit(text, Set(path, value)));

    [Theory]
    [InlineData("""{ "a": 1, "b": 2, "c": 3 }""", "a", """{ "b": 2, "c": 3 }""")]
    [InlineData("""{ "a": 1, "b": 2, "c": 3 }""", "b", """{ "a": 1, "c": 3 }""")]
    [InlineData("""{ "a": 1, "b": 2, "c": 3 }""", "c", """{ "a": 1, "b": 2 }""")]
    [InlineData("""{ "a": 1, "b": 2, }""", "b", """{ "a": 1, }""")]
    [InlineData("""{ "a": 1 }""", "a", "{ }")]
    [InlineData("[1, 2, 3]", "[1]", "[1, 3]")]
    [InlineData("{\n  \"a\": 1, // one\n  \"b\": 2,\n  \"c\": 3\n}", "a", "{\n  // one\n  \"b\": 2,\n  \"c\": 3\n}")]
    [InlineData("{\n  \"a\": 1, // one\n  \"b\": 2,\n  \"c\": 3\n}", "b", "{\n  \"a\": 1, // one\n  \"c\": 3\n}")]
    [InlineData("{\n  \"a\": 1, // one\n  \"b\": {\n    \"c\": 3\n  }\n}\n", "b", "{\n  \"a\": 1 // one\n}\n")]
    [InlineData("{\r\n  \"a\": 1,\r\n  \"b\": 2,\r\n}", "b", "{\r\n  \"a\": 1,\r\n}")]
    [InlineData("""{ "a": 1 }""", "b.c", """{ "a": 1 }""")]
    public void A_value_is_taken_out_with_its_key_and_comma(string text, string path, string expected) => Assert.Equal(expected, Edit(text, JsonEdit.Remove(path)));

    [Theory]
    [InlineData("[\"]")]
    [InlineData("b[\"]")]
    public void A_quoted_name_has_both_its_quotes(string path) => Assert.Throws<DataFileException>(() => Edit("""{ "a": 0, "b": {} }""", Set(path, "1")));

    [Fact]
    public void A_path_deeper_than_a_text_may_be_nested_is_refused() =>
        Assert.Throws<DataFileException>(() => Edit("{}", Set("a" + string.Concat(Enumerable.Repeat("[0]", 100_000)), "1")));

    [Fact]
    public void Edits_see_those_before_them()
    {
        Assert.Equal("""{ "a": [1, 5], "b": { "x": 7 } }""", Edit("""{ "a": 0 }""", Set("a", "[1, 2]"), Set("a[1]", "4"), Set("b", """{"x": 1}"""), Set("b.x", "7"), Set("a[1]", "5")));
        Assert.Equal("""{ "b": 2 }""", Edit("""{ "a": 1 }""", Set("b", "2"), JsonEdit.Remove("a")));
        Assert.Equal("""{ "a": 3 }""", Edit("""{ "a": { "b": 1 } }""", Set("a.b", "2"), Set("a", "3")));
    }

    [Fact]
    public void A_long_object_is_written_a_key_a_line_as_the_text_around_it_is()
    {
        var layout = """{"name": "A layout with quite a long name", "placement": {"mounts": {"axleEnd_mm": [-120, 612.5, 300], "bodyEnd_mm": [-120, 600, 750]}}, "damper": "valley"}""";
        const string Text = "{\n  \"layouts\": [\n    { \"name\": \"Outboard\" },\n  ],\n}\n";
        Assert.Equal(
            """
            {
              "layouts": [
                { "name": "Outboard" },
                {
                  "name": "A layout with quite a long name",
                  "placement": { "mounts": { "axleEnd_mm": [-120, 612.5, 300], "bodyEnd_mm": [-120, 600, 750] } },
                  "damper": "valley",
                },
              ],
            }

            """.ReplaceLineEndings("\n"),
            Edit(Text, Set("layouts[1]", layout)));
    }

    [Theory]
    [InlineData("a.b", "“a” is no object in { }, so that no key can be added there")]
    [InlineData("list[3]", "there is no such item; a new one takes the next free number of “list”")]
    [InlineData("list[1].x[2]", "there is no such item; a new one takes the next free number of “list”")]
    [InlineData("list.x", "“list” is no object in { }, so that no key can be added there")]
    [InlineData("x[", "this is no path such as “vehicle.body.mass_kg” or “layouts[1].name”")]
    [InlineData("x..y", "this is no path such as “vehicle.body.mass_kg” or “layouts[1].name”")]
    public void An_edit_without_a_place_is_a_fault_at_its_path(string path, string reason)
    {
        var fault = Assert.Single(Assert.Throws<DataFileException>(() => Edit("""{ "a": 1, "list": [1] }""", Set(path, "1"))).Faults);
        Assert.Equal((path, reason), (fault.Key, fault.Reason));
    }

    // Numbers at random places of every shipped scenario: outside the spans of those values no byte differs, and the tree is the same but for them.
    [Theory]
    [MemberData(nameof(Scenarios))]
    public void Random_numbers_change_their_own_characters_alone(string scenario)
    {
        var text = File.ReadAllText(Shipped.Scenario(scenario));
        var root = LocatedNode.Parse(Encoding.UTF8.GetBytes(text), scenario);
        var numbers = Below(root).Where(node => node.Kind == LocatedKind.Number).ToArray();
        Gen.Select(Gen.Int[0, numbers.Length - 1], Gen.Double[-1e3, 1e3]).List[1, 8].SampleSame(20, changes =>
        {
            var values = changes.GroupBy(change => change.Item1).ToDictionary(same => numbers[same.Key].Path, same => same.Last().Item2.ToString("R", CultureInfo.InvariantCulture));
            var edited = Edit(text, [.. changes.Select(change => JsonEdit.Set(numbers[change.Item1].Path, change.Item2))]);
            Assert.Equal(Replaced(text, values), edited);
            var expected = Below(root).Select(node => (node.Path, values.GetValueOrDefault(node.Path, node.Text!))).ToArray();
            Assert.Equal(expected, Below(LocatedNode.Parse(Encoding.UTF8.GetBytes(edited), scenario)).Select(node => (node.Path, node.Text!)));
        });
    }

    // Whatever is added or taken out: the rest of the tree is as it was, and so are the comments, but those within what was taken out.
    [Theory]
    [MemberData(nameof(Scenarios))]
    public void Random_additions_and_removals_leave_the_rest_of_the_tree_and_every_comment(string scenario)
    {
        var text = File.ReadAllText(Shipped.Scenario(scenario));
        var root = LocatedNode.Parse(Encoding.UTF8.GetBytes(text), scenario);
        var all = Below(root).ToArray();
        var holders = all.Where(node => node.Kind is LocatedKind.Object or LocatedKind.List).ToArray();
        var leaves = all.Where(node => node.Children.IsEmpty).ToArray();
        Gen.Select(Gen.Int[0, holders.Length - 1], Gen.Int[0, leaves.Length - 1]).SampleSame(40, choice =>
        {
            var holder = holders[choice.Item1];
            var added = holder.Kind == LocatedKind.List ? $"{holder.Path}[{holder.Children.Length}]" : holder.Path.Length == 0 ? "added" : $"{holder.Path}.added";
            var bigger = Edit(text, Set(added, """{"x": [1, 2]}"""));
            Assert.Equal(Comments(text), Comments(bigger));
            var tree = Below(LocatedNode.Parse(Encoding.UTF8.GetBytes(bigger), scenario)).ToArray();
            Assert.Equal(all.Select(node => (node.Path, node.Text)), tree.Where(node => !node.Path.StartsWith(added, StringComparison.Ordinal)).Select(node => (node.Path, node.Text)));
            Assert.Equal("2", tree.Single(node => node.Path == $"{added}.x[1]").Text);
            Assert.Equal(text, Edit(bigger, JsonEdit.Remove(added)));

            var leaf = leaves[choice.Item2];
            var smaller = Edit(text, JsonEdit.Remove(leaf.Path));
            Assert.Equal(Comments(text), Comments(smaller));
            Assert.Equal(all.Length - 1, Below(LocatedNode.Parse(Encoding.UTF8.GetBytes(smaller), scenario)).Count());
        });
    }

    private static IEnumerable<LocatedNode> Below(LocatedNode node) => node.Children.SelectMany(Below).Prepend(node);

    // By another way than the code's: the text's own characters between lines and columns, as an editor counts them.
    private static string Replaced(string text, Dictionary<string, string> values)
    {
        var lines = text.Split('\n');
        var root = LocatedNode.Parse(Encoding.UTF8.GetBytes(text), "a.json");
        foreach (var node in Below(root).Where(node => values.ContainsKey(node.Path)).OrderByDescending(node => (node.Line, node.Column)))
        {
            var line = lines[node.Line - 1];
            lines[node.Line - 1] = line[..(node.Column - 1)] + values[node.Path] + line[(node.Column - 1 + node.Text!.Length)..];
        }

        return string.Join('\n', lines);
    }

    // Scenarios hold no "//" in a text.
    private static string[] Comments(string text) => [.. text.Split('\n').Where(line => line.Contains("//", StringComparison.Ordinal)).Select(line => line[line.IndexOf("//", StringComparison.Ordinal)..])];
}
