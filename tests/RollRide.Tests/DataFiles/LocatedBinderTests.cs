using CsCheck;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class LocatedBinderTests
{
    [Fact]
    public void Bind_fills_the_record_and_keeps_defaults()
    {
        var file = Example.Bind(Example.Valid).Value;
        Assert.Equal("Example", file.Title);
        Assert.Equal(new ExampleBody { Mass = 900, TrackMm = 1600 }, file.Body);
        Assert.Equal(["outboard", "inboard"], file.Layouts.Select(layout => layout.Name));
        Assert.Equal([ExampleSide.LeftHand, ExampleSide.RightHand], file.Layouts.Select(layout => layout.Side));
        Assert.Null(file.Layouts[0].Spring);
        Assert.Equal([10, 250.5], file.Layouts[1].Spring!.Points![1]);
        Assert.Equal(-5, file.Layouts[1].Spring!.Preload);
        Assert.Equal(80, file.Stops!["front left"].Rate);
        Assert.Equal(new ExampleSolver { Steps = 200, Tolerance = 1e-6 }, file.Solver);
    }

    [Fact]
    public void Bind_accepts_the_key_of_the_schema_at_the_root_only()
    {
        Assert.Equal("Example", Example.Bind(Example.With("\"title\"", "\"$schema\": \"rollride.schema.json\", \"title\"")).Value.Title);
        Assert.Equal("body.$schema", Example.FaultOf(Example.With("\"mass_kg\"", "\"$schema\": \"x\", \"mass_kg\"")).Key);
        Assert.Equal("$schema", Example.FaultOf(Example.With("\"title\"", "\"$schema\": 1, \"title\"")).Key);
    }

    [Theory]
    // Wrong kinds.
    [InlineData("900", "\"900\"", 5, "body.mass_kg", "900", "a number above 0 is expected, without quotes")]
    [InlineData("900", "null", 5, "body.mass_kg", "null", "a number above 0 is expected, not null")]
    [InlineData("900", "true", 5, "body.mass_kg", "true", "not true or false")]
    [InlineData("900", "[9]", 5, "body.mass_kg", null, "not a list")]
    [InlineData("900", "1e999", 5, "body.mass_kg", "1e999", "a number above 0 is expected")]
    [InlineData("\"Example\"", "5", 3, "title", "5", "a text is expected, not a number")]
    [InlineData("\"Example\"", "null", 3, "title", "null", "a text is expected, not null")]
    [InlineData("\"Example\"", "\" \"", 3, "title", " ", "blank")]
    [InlineData("[[0, 0], [10, 250.5]]", "5", 12, "layouts[1].spring.points", "5", "a list in [ ] of at least 2")]
    [InlineData("250.5", "{}", 12, "layouts[1].spring.points[1][1]", null, "a number is expected, not an object")]
    [InlineData("{ \"steps\": 200 }", "[]", 18, "solver", null, "an object in { } is expected, not a list")]
    [InlineData("{ \"rate_N_per_mm\": 80 }", "3", 16, "stops[\"front left\"]", "3", "an object in { } is expected")]
    [InlineData("\"front left\"", "\"\"", 16, "stops[\"\"]", null, "the name is blank")]
    [InlineData("200", "2.5", 18, "solver.steps", "2.5", "a whole number from 1 to 1000")]
    [InlineData("200", "200, \"dense\": 1", 18, "solver.dense", "1", "true or false is expected, not a number")]
    // Names of an enum.
    [InlineData("leftHand", "lefthand", 9, "layouts[0].side", "lefthand", "one of \"leftHand\", \"rightHand\" is expected; did you mean leftHand?")]
    [InlineData("\"leftHand\"", "0", 9, "layouts[0].side", "0", "one of \"leftHand\", \"rightHand\" is expected, not a number")]
    // Limits.
    [InlineData("900", "0", 5, "body.mass_kg", "0", "above 0")]
    [InlineData("900", "-900", 5, "body.mass_kg", "-900", "above 0")]
    [InlineData("1600", "499.9", 6, "body.track_mm", "499.9", "from 500 to 3000")]
    [InlineData("1600", "3000.1", 6, "body.track_mm", "3000.1", "from 500 to 3000")]
    [InlineData("1600,", "1600, \"offset_mm\": 1000", 6, "body.offset_mm", "1000", "above -1000 and below 1000")]
    [InlineData("200", "0", 18, "solver.steps", "0", "from 1 to 1000")]
    [InlineData("200", "1001", 18, "solver.steps", "1001", "from 1 to 1000")]
    [InlineData("200", "2e9", 18, "solver.steps", "2e9", "from 1 to 1000")]
    [InlineData("200", "200, \"tolerance\": 0.2", 18, "solver.tolerance", "0.2", "above 0 and at most 0.1")]
    [InlineData("80", "-1", 16, "stops[\"front left\"].rate_N_per_mm", "-1", "at least 0")]
    [InlineData("[[0, 0], [10, 250.5]]", "[[0, 0]]", 12, "layouts[1].spring.points", null, "at least 2 is expected; this has 1")]
    // Unknown keys.
    [InlineData("1600,", "1600, \"track_m\": 2", 6, "body.track_m", "2", "unknown key; known here: mass_kg, track_mm, offset_mm")]
    [InlineData("1600,", "1600, \"offset_m\": 2", 6, "body.offset_m", "2", "unknown key; the unit is in the key: did you mean offset_mm?")]
    [InlineData("1600,", "1600, \"ofset_mm\": 2", 6, "body.ofset_mm", "2", "unknown key; did you mean offset_mm?")]
    [InlineData("1600,", "1600, \"paint\": {}", 6, "body.paint", null, "unknown key; known here: mass_kg, track_mm, offset_mm")]
    // Missing keys: at the line where the object opens.
    [InlineData("\"mass_kg\": 900,", "", 4, "body.mass_kg", null, "missing: Mass of the body.; a number above 0 is expected")]
    [InlineData("\"title\": \"Example\",", "", 2, "title", null, "missing: What the file is about.")]
    [InlineData("\"name\": \"inboard\",", "", 10, "layouts[1].name", null, "missing: Name of the layout.")]
    // Forms that exclude each other: at the line where the object opens.
    [InlineData("\"rate_N_per_mm\": 80", "", 16, "stops[\"front left\"]", null, "exactly one of rate_N_per_mm, points is expected; found: none")]
    [InlineData("\"preload_N\"", "\"rate_N_per_mm\": 1, \"preload_N\"", 12, "layouts[1].spring", null, "found: points (line 12) and rate_N_per_mm (line 12)")]
    [InlineData("\"preload_N\"", "\"free_length_mm\": 1, \"preload_N\"", 12, "layouts[1].spring", null, "at most one of free_length_mm, preload_N is expected")]
    public void Bind_refuses_with_line_key_value_and_what_is_accepted(
        string old, string replacement, int line, string key, string? value, string reason)
    {
        var fault = Example.FaultOf(Example.With(old, replacement));
        Assert.Equal((line, key, value), (fault.Line, fault.Key, fault.Value));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
        Assert.Equal("example.json", fault.File);
    }

    [Fact]
    public void Bind_refuses_too_many_and_too_few_items()
    {
        const string Layouts = """[{ "name": "a" }, { "name": "b" }, { "name": "c" }, { "name": "d" }]""";
        string File(string layouts) => $$"""{ "title": "x", "body": { "mass_kg": 1, "track_mm": 900 },{{"\n"}}"layouts": {{layouts}} }""";
        Assert.Contains("a list of 1 to 3 is expected; this has 4", Example.FaultOf(File(Layouts)).Reason, StringComparison.Ordinal);
        Assert.Equal((2, "layouts"), (Example.FaultOf(File("[]")).Line, Example.FaultOf(File("[]")).Key));
    }

    [Fact]
    public void Bind_wrong_unit_in_place_of_a_required_key_reports_both()
    {
        var faults = Example.FaultsOf(Example.With("track_mm", "track_m"));
        Assert.Equal([(4, "body.track_mm"), (6, "body.track_m")], faults.Select(fault => (fault.Line!.Value, fault.Key!)));
        Assert.Contains("the unit is in the key: did you mean track_mm?", faults[1].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Bind_reports_all_faults_of_the_file_by_line()
    {
        var text = Example.With("900", "-1")
            .Replace("\"outboard\"", "7", StringComparison.Ordinal)
            .Replace("leftHand", "middle", StringComparison.Ordinal)
            .Replace("250.5", "\"250.5\"", StringComparison.Ordinal)
            .Replace("steps", "stepz", StringComparison.Ordinal);
        var faults = Example.FaultsOf(text);
        Assert.Equal(
            [(5, "body.mass_kg"), (9, "layouts[0].name"), (9, "layouts[0].side"), (12, "layouts[1].spring.points[1][1]"), (18, "solver.stepz")],
            faults.Select(fault => (fault.Line!.Value, fault.Key!)));
    }

    [Fact]
    public void Bind_root_that_is_not_an_object_is_refused()
    {
        var fault = Example.FaultOf("[]");
        Assert.Equal((1, null), (fault.Line, fault.Key));
        Assert.Contains("an object in { } is expected, not a list", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Bind_damaged_file_throws_nothing_but_DataFileException() =>
        Damage.Of(Example.Valid).SampleSame(
            20_000,
            bytes =>
            {
                try
                {
                    BoundDocument.Parse<ExampleFileDto>(bytes, "example.json");
                }
                catch (DataFileException e)
                {
                    Assert.All(e.Faults, fault => Assert.NotNull(fault.Line));
                }
            });
}
