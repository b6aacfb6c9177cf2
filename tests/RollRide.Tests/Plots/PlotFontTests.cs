using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class PlotFontTests
{
    [Theory]
    [InlineData("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789")]
    [InlineData(" .,:;!?'\"()[]{}/\\|+-*=<>%&#@_^~$…–—’“”")]
    [InlineData("°·−²³±×→≤≥≈√∞Δ½‰₀₁₂")]
    [InlineData("ΑΒΓΔΘΛΞΠΣΦΨΩαβγδεζηθκλμνξπρστφχψωµ")]
    [InlineData("ÄÖÜäöüßéèêàçñø")]
    public void Covers_characters_of_figures_is_true_in_both_weights(string characters)
    {
        foreach (var character in characters)
            Assert.True(PlotFont.Covers(character.ToString()), $"No glyph for “{character}”.");
    }

    [Fact]
    public void Covers_character_outside_the_typeface_is_false() => Assert.False(PlotFont.Covers("漢"));

    [Fact]
    public void Width_of_text_is_positive_and_proportional_to_size()
    {
        var width = PlotFont.Width("Roll angle [deg]", 12);

        Assert.True(width > 0);
        // Skia measures in single precision (24 bits); without hinting a glyph's advance scales with the size, rounded to 1/64 px.
        Assert.Equal(2 * width, PlotFont.Width("Roll angle [deg]", 24), 0.25);
    }

    [Fact]
    public void Width_of_bold_text_is_larger() =>
        Assert.True(PlotFont.Width("Roll angle", 12, PlotFont.Bold) > PlotFont.Width("Roll angle", 12));

    [Fact]
    public void Ellipsize_text_that_fits_is_unchanged() => Assert.Equal("Baseline", PlotFont.Ellipsize("Baseline", 11, 500));

    [Theory]
    [InlineData(20)]
    [InlineData(60)]
    [InlineData(120)]
    public void Ellipsize_long_text_ends_in_an_ellipsis_within_the_limit(double limit)
    {
        var text = PlotFont.Ellipsize("Outboard of the wheel centre, softer rebound", 11, limit);

        Assert.EndsWith("…", text, StringComparison.Ordinal);
        Assert.True(PlotFont.Width(text, 11) <= limit);
    }

    [Fact]
    public void Wrap_keeps_every_word_and_every_line_within_the_limit()
    {
        const string name = "Outboard of the wheel centre with softer rebound and a stiffer bar";

        var lines = PlotFont.Wrap(name, 11, 120, 9);

        Assert.True(lines.Count > 1);
        Assert.Equal(name, string.Join(' ', lines));
        Assert.All(lines, line => Assert.True(PlotFont.Width(line, 11) <= 120));
    }

    [Fact]
    public void Wrap_into_fewer_lines_than_needed_shortens_the_last()
    {
        var lines = PlotFont.Wrap("Outboard of the wheel centre with softer rebound and a stiffer bar", 11, 120, 2);

        Assert.Equal(2, lines.Count);
        Assert.EndsWith("…", lines[1], StringComparison.Ordinal);
        Assert.All(lines, line => Assert.True(PlotFont.Width(line, 11) <= 120));
    }

    [Fact]
    public void Wrap_keeps_a_number_with_its_unit()
    {
        var lines = PlotFont.Wrap("Damper velocity is 1.18 m/s", 11, PlotFont.Width("Damper velocity is 1.18", 11) + 1, 3);

        Assert.Equal(2, lines.Count);
        Assert.EndsWith("1.18 m/s", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Wrap_keeps_line_breaks_of_the_text() => Assert.Equal(["one", "two"], PlotFont.Wrap("one\ntwo", 11, 500, 3));
}
