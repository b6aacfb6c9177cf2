using System.Globalization;
using System.Text.RegularExpressions;
using RollRide.Plots;
using RollRide.Report;
using RollRide.Tests.Plots;

namespace RollRide.Tests.Report;

/// <summary>Where figures stand on the page.</summary>
public sealed partial class FigurePlaceTests
{
    // Sheets of A4 in landscape without their margins of 11 mm, and the gap between two figures, 0.8 em of 9.3 points, mm.
    private const double PageWidth = 275, Gap = 0.8 * 9.3 * 25.4 / 72;

    [Theory] // h: needs height, w: needs width, -: neither.
    [InlineData("--", "half half")]
    [InlineData("-", "alone")]
    [InlineData("---", "half half alone")]
    [InlineData("-w-", "alone whole alone")]
    [InlineData("-hh", "alone half half")]
    [InlineData("hhh", "half half alone")]
    public void Two_of_one_height_stand_beside_each_other_and_one_left_over_alone(string figures, string places)
    {
        var placed = FigurePlace.Of([.. figures.Select(need => SampleFigures.Curves() with { NeedsHeight = need == 'h', NeedsWidth = need == 'w' })]);

        Assert.Equal(places, string.Join(' ', placed.Select(one => one.Place.Name)));
    }

    [Fact]
    public void Labels_are_7_points_high_on_A4_wherever_a_figure_stands()
    {
        using var reader = new StreamReader(typeof(ReportPage).Assembly.GetManifestResourceStream("report.css")!);
        var alone = double.Parse(AloneWidth().Match(reader.ReadToEnd()).Groups[1].Value, CultureInfo.InvariantCulture) / 100;
        (FigurePlace Place, double Width)[] all = [(FigurePlace.Half, (PageWidth - Gap) / 2), (FigurePlace.Alone, alone * PageWidth), (FigurePlace.Whole, PageWidth)];

        // Drawn with two pixels in a plot unit; 1 point is 25.4/72 mm. Within what one cannot see.
        Assert.All(all, one => Assert.Equal(7, Theme.LabelSize * one.Width / (one.Place.WidthPx / 2.0) * 72 / 25.4, 0.1));
    }

    [Fact]
    public void A_figure_without_room_for_its_text_becomes_higher_not_smaller()
    {
        var rows = new Figure("rows.png", "Title", "", "", [.. Enumerable.Range(0, 3).Select(row => new Panel(SampleFigures.TimePanel(1).Build(), row))]);

        var picture = FigurePlace.Half.Picture(rows, "rows").Markup;

        var box = ViewBox().Match(picture);
        Assert.Equal(606, double.Parse(box.Groups[1].Value, CultureInfo.InvariantCulture), 0.5);
        Assert.True(double.Parse(box.Groups[2].Value, CultureInfo.InvariantCulture) > 300);
        Assert.Contains("class=\"half\"", picture, StringComparison.Ordinal);
    }

    [GeneratedRegex(@"\.alone \{[^}]*max-width: (\d+)%")]
    private static partial Regex AloneWidth();

    [GeneratedRegex("viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\"")]
    private static partial Regex ViewBox();
}
