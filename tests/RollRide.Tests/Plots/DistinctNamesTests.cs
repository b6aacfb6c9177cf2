using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class DistinctNamesTests
{
    private static readonly string[] DifferAtTheEnd = [.. Enumerable.Range(1, 8).Select(i => $"Outboard of the frame rail, on the long welded bracket with rubber bushes, setting {i}")];
    private static readonly string[] DifferInTheMiddle =
        [.. ((string[])["soft", "softer", "medium", "standard", "firm", "firmer", "hard", "harder"]).Select(word => $"Twin-tube damper outboard of the rail, valving {word}, with the hard rubber bushes of the spring plant")];
    private static readonly string[] DifferTwice =
        [.. from place in (string[])["inner", "outer"] from valving in "ABCD" select $"Bracket of the rear axle on the {place} side of the frame rail, with the valving called {valving}"];

    private static readonly string[] PrefixesOfEachOther = ["Same start", "Same start, and on", "Same start, and on and on"];
    private static readonly string[] OneLetterOfTwoCharacters = ["🙂🙂🙂🙂🙂🙂🙂🙂🙂🙂", "🙂🙂🙂🙂🙂🙂🙂🙂🙂🙃"];

    public static TheoryData<string[]> Lists => [DifferAtTheEnd, DifferInTheMiddle, DifferTwice, PrefixesOfEachOther, OneLetterOfTwoCharacters];

    [Theory]
    [MemberData(nameof(Lists))]
    public void Shorten_names_that_differ_stay_different_and_fit_at_any_width(string[] names)
    {
        for (var width = 9; width <= 60; width++)
        {
            var shortened = DistinctNames.Shorten(names, text => text.Length <= width);

            Assert.All(shortened, text => Assert.InRange(text.Length, 1, width));
            Assert.Equal(names.Length, shortened.Distinct().Count());
            Assert.All(shortened, text => Assert.True(text.EnumerateRunes().All(rune => rune.Value != '\uFFFD'), $"Half a letter is left of {text}."));
        }
    }

    [Fact]
    public void Shorten_keeps_what_fits_and_cuts_at_the_end_where_the_names_differ_before() =>
        Assert.Equal(
            ["Inboard", "Outboard of the…", "Central of the…"],
            DistinctNames.Shorten(["Inboard", "Outboard of the frame rail", "Central of the frame rail"], text => text.Length <= 16));

    [Fact]
    public void Shorten_cuts_in_the_middle_before_the_word_that_tells_names_apart() =>
        Assert.Equal(
            ["Outboard of…soft", "Outboard of…firm"],
            DistinctNames.Shorten(["Outboard of the rail, soft", "Outboard of the rail, firm"], text => text.Length <= 16));

    [Fact]
    public void Shorten_cuts_twice_where_the_word_stands_in_the_middle() =>
        Assert.Equal(
            ["Outboard…soft, with…", "Outboard…softer, wi…"],
            DistinctNames.Shorten(["Outboard of the rail, soft, with rubber bushes", "Outboard of the rail, softer, with rubber bushes"], text => text.Length <= 20));

    [Fact]
    public void Shorten_numbers_names_that_would_look_alike() =>
        Assert.Equal(
            ["1: Br…", "2: Br…", "3: Br…", "4: Br…"],
            DistinctNames.Shorten(["Bracket inner one", "Bracket inner two", "Bracket outer one", "Bracket outer two"], text => text.Length <= 6));

    [Fact]
    public void Shorten_equal_names_stay_equal() => Assert.Equal(["A b…", "A b…"], DistinctNames.Shorten(["A b c d e f", "A b c d e f"], text => text.Length <= 4));

    [Fact]
    public void CutAtEnd_nothing_fits_leaves_the_ellipsis() => Assert.Equal("…", DistinctNames.CutAtEnd("Outboard", text => text.Length <= 1));
}
