using System.Text;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class LocatedNodeTests
{
    private static LocatedNode Parse(string text) => LocatedNode.Parse(Encoding.UTF8.GetBytes(text), "a.json");

    private static DataFileFault FaultOf(string text) =>
        Assert.Single(Assert.Throws<DataFileException>(() => Parse(text)).Faults);

    [Fact]
    public void Parse_gives_each_value_its_kind_path_and_place()
    {
        var root = Parse(Example.Valid);
        Assert.Equal((LocatedKind.Object, "", 2, 1), (root.Kind, root.Path, root.Line, root.Column));
        var mass = root.Find("body")!.Find("mass_kg")!;
        Assert.Equal((LocatedKind.Number, "body.mass_kg", "mass_kg", 5, 16, "900"), (mass.Kind, mass.Path, mass.Key, mass.Line, mass.Column, mass.Text));
        var point = root.Find("layouts")!.Children[1].Find("spring")!.Find("points")!.Children[1].Children[1];
        Assert.Equal(("layouts[1].spring.points[1][1]", 12, "250.5"), (point.Path, point.Line, point.Text));
        var stop = root.Find("stops")!.Children[0];
        Assert.Equal(("stops[\"front left\"]", "front left", 16), (stop.Path, stop.Key, stop.Line));
        Assert.Null(root.Find("none"));
    }

    [Fact]
    public void Parse_counts_columns_in_characters_and_reads_escapes()
    {
        var root = Parse("\uFEFF{ \"ä\": \"\\u00b0\\n\",\r\n\"b\": [true, false, null] }");
        var first = root.Children[0];
        Assert.Equal((1, 8, "°\n"), (first.Line, first.Column, first.Text));
        Assert.Equal([LocatedKind.Boolean, LocatedKind.Boolean, LocatedKind.Null], root.Children[1].Children.Select(child => child.Kind));
        Assert.Equal(2, root.Children[1].Line);
    }

    [Fact]
    public void Parse_one_long_line_gives_every_value_its_column_in_time_proportional_to_its_length()
    {
        // With the line counted from its start for each value this takes minutes: 300,000 values on a line of 1.2 million characters.
        const int Count = 300_000;
        var root = Parse($"[{string.Join(',', Enumerable.Repeat("\"ä\"", Count))}]");
        Assert.All(Enumerable.Range(0, Count), i => Assert.Equal(2 + (4 * i), root.Children[i].Column));
    }

    [Fact]
    public void Parse_many_lines_names_the_one_that_is_not_utf8()
    {
        // Read from the start for each line, this takes minutes.
        byte[] text = [.. "[\n"u8, .. Enumerable.Repeat("1,\n"u8.ToArray(), 400_000).SelectMany(line => line), 0xFF];
        Assert.Equal(400_002, Assert.Single(Assert.Throws<DataFileException>(() => LocatedNode.Parse(text, "a.json")).Faults).Line);
    }

    [Fact]
    public void Parse_refuses_keys_given_twice_and_names_both_lines()
    {
        var faults = Assert.Throws<DataFileException>(() => Parse("{ \"a\": {\n\"b\": 1,\n\"b\": 2,\n\"b\": 3 },\n \"a\": 1 }")).Faults;
        Assert.Equal([(3, "a.b"), (4, "a.b"), (5, "a")], faults.Select(fault => (fault.Line!.Value, fault.Key!)));
        Assert.Contains("first on line 2", faults[1].Reason, StringComparison.Ordinal);
        Assert.Contains("first on line 1", faults[2].Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", 1, "the file is empty")]
    [InlineData("// nothing\n", 2, "the file is empty")]
    [InlineData("{\n\"a\": [1,\n", 3, "ends before the “[” of line 2 is closed")]
    [InlineData("{\n\"a\": 1,\n", 3, "ends before the “{” of line 1 is closed")]
    [InlineData("{ \"a\": 1\n  \"b\": 2 }", 2, "found \"b\", expected|a comma and the next key|after the value that ends on line 1")]
    [InlineData("{ \"a\": 0,5 }", 1, "found 5, expected|a comma and the next key|numbers take a decimal point")]
    [InlineData("{\n\"a\": .5 }", 2, "found .5, expected a value: a number such as 0.5")]
    [InlineData("{\n\"a\": NaN }", 2, "found NaN, expected a value")]
    [InlineData("{ \"a\": \"x\n\" }", 1, "found \"x, expected a value|on one line")]
    [InlineData("{\na: 1 }", 2, "found a:, expected '}' or a key in double quotes with a colon")]
    [InlineData("{ 'a': 1 }", 1, "found 'a':, expected '}' or a key in double quotes")]
    [InlineData("{ \"a\" 1 }", 1, "found 1, expected '}' or a key in double quotes with a colon")]
    [InlineData("[1 2]", 1, "found 2, expected ']' or a comma and the next value")]
    [InlineData("[}", 1, "found }, expected ']' or a value")]
    [InlineData("{}\n{}", 2, "found {, expected the end of the file")]
    [InlineData("{ // c\r\r\n\"a\": \"C:\\dyno.csv\" }", 2, "found \"C:\\dyno.csv\", expected a value|a backslash in a text is written twice")]
    [InlineData("{ \"a\"\n// c\n: 1 }", 2, "found //, expected '}' or a key in double quotes with a colon")]
    [InlineData("[1, /* \n", 1, "found /*, expected ']' or a comma")]
    [InlineData("[\u0001]", 1, "found a control character, expected ']' or a value")]
    [InlineData("?", 1, "found ?, expected an object in { }")]
    public void Parse_says_what_is_malformed_and_where(string text, int line, string reason)
    {
        var fault = FaultOf(text);
        Assert.Equal(line, fault.Line);
        foreach (var part in reason.Split('|'))
            Assert.Contains(part, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Parse_refuses_deep_nesting() =>
        Assert.Contains("nested too deeply", FaultOf(new string('[', 100)).Reason, StringComparison.Ordinal);

    [Fact]
    public void Parse_refuses_text_that_is_not_UTF8()
    {
        byte[] latin1 = [.. "{\n\n\"a\": \""u8, 0xE4, .. "\" }\n"u8];
        var fault = Assert.Single(Assert.Throws<DataFileException>(() => LocatedNode.Parse(latin1, "a.json")).Faults);
        Assert.Equal(3, fault.Line);
        Assert.Contains("save the file as UTF-8", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Parse_refuses_half_a_character()
    {
        var fault = FaultOf("{\n\"a\": \"\\ud800\" }");
        Assert.Equal((2, "a"), (fault.Line, fault.Key));
        Assert.Equal(2, FaultOf("{\n\"\\ud800\": 1 }").Line);
    }

    [Fact]
    public void Read_takes_a_file_and_names_a_missing_one()
    {
        using var folder = new TemporaryFolder();
        Assert.Equal("1", LocatedNode.Read(folder.Write("a.json", "[1]")).Children[0].Text);
        var exception = Assert.Throws<DataFileException>(() => LocatedNode.Read(folder["none.json"]));
        Assert.Equal($"{folder["none.json"]}: the file does not exist", exception.Message);
    }
}
