using CsCheck;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class SafeFileNamesTests
{
    [Theory]
    [InlineData("Outboard, soft", "Outboard-soft")]
    [InlineData("../x", "x")]
    [InlineData("<script>", "script")]
    [InlineData("Dämpfer 2", "Dämpfer-2")]
    [InlineData("a--b__c", "a-b-c")]
    [InlineData("", "unnamed")]
    [InlineData("...", "unnamed")]
    [InlineData("con", "con-file")]
    [InlineData("\ud800", "unnamed")]
    public void Clean_keeps_letters_and_digits(string name, string expected) =>
        Assert.Equal(expected, SafeFileNames.Clean(name));

    [Fact]
    public void Clean_any_text_is_a_short_plain_name() =>
        Gen.String.SampleSame(
            1000,
            text =>
            {
                var name = SafeFileNames.Clean(text);
                Assert.InRange(name.Length, 1, 62);
                Assert.Equal(name, Path.GetFileName(name));
                Assert.True(name.All(c => c == '-' || char.IsLetterOrDigit(c) || char.IsSurrogate(c)));
            });

    [Fact]
    public void Allocate_numbers_names_that_become_the_same()
    {
        var names = new SafeFileNames();
        Assert.Equal("a-b", names.Allocate("a b"));
        Assert.Equal("A-B-2", names.Allocate("A/B"));
        Assert.Equal("a-b-2-2", names.Allocate("a b 2"));
        Assert.Equal("a-b-3", names.Allocate("a_b"));
    }
}
