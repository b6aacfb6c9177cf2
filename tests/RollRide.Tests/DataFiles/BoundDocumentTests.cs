using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class BoundDocumentTests
{
    [Theory]
    [InlineData("body.mass_kg", 5, "900")]
    [InlineData("body", 4, null)]
    [InlineData("layouts[1].spring.points[1][1]", 12, "250.5")]
    [InlineData("stops[\"front left\"].rate_N_per_mm", 16, "80")]
    [InlineData("body.offset_mm", 4, null)]
    [InlineData("solver.tolerance", 18, null)]
    [InlineData("layouts[0].spring.points[3]", 9, null)]
    [InlineData("layouts[7]", 8, null)]
    public void FaultAt_points_at_the_value_or_at_what_is_around_it(string path, int line, string? value)
    {
        var fault = Example.Bind(Example.Valid).FaultAt(path, "does not fit");
        Assert.Equal(new DataFileFault("example.json", line, path, value, "does not fit"), fault);
    }

    [Fact]
    public void FaultAt_root_has_no_key() =>
        Assert.Equal("example.json:2: does not fit", Example.Bind(Example.Valid).FaultAt("", "does not fit").ToString());

    [Fact]
    public void Read_takes_a_file()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("example.json", Example.Valid);
        var document = BoundDocument.Read<ExampleFileDto>(path);
        Assert.Equal((path, "Example"), (document.File, document.Value.Title));
    }
}
