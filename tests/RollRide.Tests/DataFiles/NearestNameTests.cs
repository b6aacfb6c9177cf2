using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class NearestNameTests
{
    [Fact]
    public void Ask_very_long_name_has_no_neighbour_and_is_not_compared_letter_by_letter()
    {
        // Letter by letter this takes minutes.
        var known = Enumerable.Range(0, 200).Select(i => $"track{i}_mm").ToArray();
        Assert.Null(NearestName.Ask(new string('x', 10_000_000), known));
    }

    private static readonly string[] Known = ["track_mm", "mass_kg", "rate_N_per_mm", "rate_N_per_m", "name"];

    [Theory]
    [InlineData("track_m", "the unit is in the key: did you mean track_mm?")]
    [InlineData("track", "the unit is in the key: did you mean track_mm?")]
    [InlineData("rate_lb_per_in", "the unit is in the key: did you mean rate_N_per_mm or rate_N_per_m?")]
    [InlineData("trakc_mm", "did you mean track_mm?")]
    [InlineData("Mass_kg", "did you mean mass_kg?")]
    [InlineData("nmae", "did you mean name?")]
    [InlineData("wheelbase_mm", null)]
    [InlineData("", null)]
    public void Ask_offers_another_unit_first_and_then_similar_spelling(string unknown, string? question) =>
        Assert.Equal(question, NearestName.Ask(unknown, Known));

    // Kitten/sitting is the customary example of the Levenshtein distance (3), from memory.
    [Theory]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("", "abc", 3)]
    [InlineData("ABC", "abc", 0)]
    [InlineData("flaw", "lawn", 2)]
    public void EditDistance_counts_single_changes(string a, string b, int expected)
    {
        Assert.Equal(expected, NearestName.EditDistance(a, b));
        Assert.Equal(expected, NearestName.EditDistance(b, a));
    }

    [Theory]
    [InlineData("track_mm", "track")]
    [InlineData("unsprung_mass_kg", "unsprung_mass")]
    [InlineData("rate_N_per_mm", "rate")]
    [InlineData("inertia_kg_m2", "inertia")]
    [InlineData("roll_stiffness_Nm_per_deg", "roll_stiffness")]
    [InlineData("name", "name")]
    [InlineData("m", "m")]
    public void StemOf_is_the_name_without_its_unit(string name, string stem) => Assert.Equal(stem, UnitSuffix.StemOf(name));
}
