using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class OneLineTests
{
    [Theory]
    [InlineData("Außen, 1:2", "Außen, 1:2")]
    [InlineData("a\nb\rc\td", "a�b�c�d")]
    [InlineData("\u001b[31mred\u009b0m", "�[31mred�0m")]
    [InlineData("a\u2028b\u2029c", "a�b�c")]
    public void Of_passes_no_control_characters_on(string text, string expected) => Assert.Equal(expected, OneLine.Of(text));

    [Theory]
    [InlineData("abcdefg", 7, "abcdefg")]
    [InlineData("abcdefgh", 7, "abc…fgh")]
    [InlineData("abcdefgh", 6, "abc…gh")]
    [InlineData("a\nbcdefg\n", 7, "a�b…fg�")]
    public void Of_long_text_is_cut_in_its_middle(string text, int longest, string expected) => Assert.Equal(expected, OneLine.Of(text, longest));
}
