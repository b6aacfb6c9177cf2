using RollRide.Live.Answers;

namespace RollRide.Tests.Live.Answers;

public class PlainFileNameTests
{
    [Theory]
    [InlineData("my-van.json")]
    [InlineData("Bergfahrt, weich 2.json")]
    [InlineData("v1.2.json")]
    [InlineData("MY.JSON")]
    public void A_plain_name_is_accepted(string name) => Assert.Null(PlainFileName.WhyNot(name, ".json"));

    [Theory]
    [InlineData("")]
    [InlineData(".json")]
    [InlineData("van")]
    [InlineData("van.csv")]
    [InlineData("../van.json")]
    [InlineData("sub/van.json")]
    [InlineData("sub\\van.json")]
    [InlineData("C:van.json")]
    [InlineData("van.json:stream.json")]
    [InlineData(".van.json")]
    [InlineData(" van.json")]
    [InlineData("van .json")]
    [InlineData("van..json")]
    [InlineData("con.json")]
    [InlineData("LPT1.van.json")]
    [InlineData("va\0n.json")]
    [InlineData("va\nn.json")]
    [InlineData("van?.json")]
    [InlineData("\ud83d\ude90.json")]
    public void Any_other_is_refused(string name) => Assert.NotNull(PlainFileName.WhyNot(name, ".json"));

    [Fact]
    public void A_name_too_long_for_some_file_systems_is_refused() => Assert.Contains("longer", PlainFileName.WhyNot(new string('v', 200) + ".json", ".json")!, StringComparison.Ordinal);
}
