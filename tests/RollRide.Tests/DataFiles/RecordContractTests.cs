using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class RecordContractTests
{
    private sealed record NoKey
    {
        public double Mass { get; init; }
    }

    private sealed record NoDescription
    {
        [Key("mass_kg", " ")]
        public double Mass { get; init; }
    }

    private sealed record DefaultOutsideLimits
    {
        [Key("mass_kg", "Mass."), Above(0)]
        public double Mass { get; init; }
    }

    private sealed record LimitOfText
    {
        [Key("name", "Name."), Above(0)]
        public string? Name { get; init; }
    }

    private sealed record CountOfNumber
    {
        [Key("mass_kg", "Mass."), MinCount(1)]
        public double Mass { get; init; }
    }

    private sealed record SameKeyTwice
    {
        [Key("mass_kg", "Mass.")]
        public double Mass { get; init; }

        [Key("mass_kg", "Mass again.")]
        public double Again { get; init; }
    }

    [ExactlyOneOf("mass_kg", "weight_N")]
    private sealed record UnknownAlternative
    {
        [Key("mass_kg", "Mass.")]
        public double? Mass { get; init; }
    }

    [AtMostOneOf("mass_kg", "name")]
    private sealed record AlternativeWithDefault
    {
        [Key("mass_kg", "Mass.")]
        public double? Mass { get; init; }

        [Key("name", "Name.")]
        public string Name { get; init; } = "a";
    }

    private sealed record UnreadableType
    {
        [Key("day", "Day.")]
        public DateTime Day { get; init; }
    }

    [Theory]
    [InlineData(typeof(NoKey), "has no key")]
    [InlineData(typeof(NoDescription), "has no description")]
    [InlineData(typeof(DefaultOutsideLimits), "default outside its limits")]
    [InlineData(typeof(LimitOfText), "limits numbers but holds none")]
    [InlineData(typeof(CountOfNumber), "limits a count but is not a list")]
    [InlineData(typeof(SameKeyTwice), "the key mass_kg twice")]
    [InlineData(typeof(UnknownAlternative), "no key weight_N")]
    [InlineData(typeof(AlternativeWithDefault), "no key name that is optional")]
    [InlineData(typeof(UnreadableType), "of type DateTime")]
    public void Of_refuses_records_that_contradict_themselves(Type type, string message) =>
        Assert.Contains(message, Assert.Throws<InvalidOperationException>(() => RecordContract.Of(type)).Message, StringComparison.Ordinal);

    [Fact]
    public void WithNested_finds_each_record_once_nearest_first()
    {
        var names = RecordContract.Of(typeof(ExampleFileDto)).WithNested().Select(record => record.Name);
        Assert.Equal(["ExampleFile", "ExampleBody", "ExampleLayout", "ExampleSpring", "ExampleSolver"], names);
    }

    [Fact]
    public void RecordJson_reads_back_as_the_same_record()
    {
        var file = Example.Bind(Example.Valid).Value;
        var written = RecordJson.Of(file).ToJsonString();
        Assert.Equal(written, RecordJson.Of(Example.Bind(written).Value).ToJsonString());
        Assert.Contains("\"front left\":{\"rate_N_per_mm\":80}", written, StringComparison.Ordinal);
        Assert.Contains("\"solver\":{\"steps\":200,\"dense\":false,\"tolerance\":1E-06}", written, StringComparison.Ordinal);
    }
}
