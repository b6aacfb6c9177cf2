using RollRide.Report;

namespace RollRide.Tests.Report;

public class HtmlTests
{
    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("\" onload=\"alert(1)")]
    [InlineData("' & ]]> <!-- --")]
    public void Of_text_in_a_hole_cannot_leave_it(string text)
    {
        var html = Html.Of($"<p title=\"{text}\">{text}</p>").Markup;

        Assert.DoesNotContain('<', html["<p title=".Length..^"</p>".Length]);
        Assert.Equal(2, html.Count(character => character == '"'));
        Assert.Equal(text, System.Net.WebUtility.HtmlDecode(html[(html.IndexOf('>', StringComparison.Ordinal) + 1)..^"</p>".Length]));
    }

    [Fact]
    public void Of_piece_in_a_hole_is_taken_as_it_is_and_nothing_is_nothing() =>
        Assert.Equal("<ul><li>a &amp; b</li></ul>7", Html.Of($"<ul>{Html.Join([Html.Of($"<li>{"a & b"}</li>"), default])}</ul>{7}").Markup);
}
