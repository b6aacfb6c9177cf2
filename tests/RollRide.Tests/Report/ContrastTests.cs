using System.Text.RegularExpressions;
using OxyPlot;
using RollRide.Plots;
using RollRide.Report;

namespace RollRide.Tests.Report;

/// <summary>Text of the page and of its figures on every ground that it can stand on, on white paper and on a dark screen.</summary>
public sealed class ContrastTests
{
    // WCAG 2.1, success criterion 1.4.3.
    private const double Least = 4.5;

    private static readonly string Rules = Read();
    private static readonly string Dark = Rules[Rules.IndexOf("prefers-color-scheme: dark", StringComparison.Ordinal)..Rules.IndexOf("box-sizing", StringComparison.Ordinal)];
    private static readonly string Light = Rules[..Rules.IndexOf("@media", StringComparison.Ordinal)];

    [Theory]
    [InlineData("ink", "paper", "warn")]
    [InlineData("soft", "paper", "warn")]
    [InlineData("best", "paper")]
    [InlineData("worst", "paper")]
    public void Text_of_the_page_can_be_read(string text, params string[] grounds)
    {
        foreach (var mode in new[] { Light, Dark })
            Assert.All(grounds, ground => Assert.InRange(Colours.Contrast(Variable(mode, text), Variable(mode, ground)), Least, 21));
    }

    [Fact]
    public void Text_of_figures_can_be_read_on_every_ground()
    {
        foreach (var text in new[] { Theme.Ink, Theme.SoftInk })
        {
            foreach (var ground in new[] { OxyColors.White, Theme.Shade, Theme.Marked, Theme.Target, Theme.Fits })
            {
                Assert.InRange(Colours.Contrast(Hex(text), Hex(ground)), Least, 21);
                Assert.InRange(Colours.Contrast(OnDark(text), OnDark(ground)), Least, 21);
            }
        }
    }

    /// <summary>What a colour of a figure becomes on the dark page.</summary>
    private static string OnDark(OxyColor colour)
    {
        var rule = Regex.Match(Dark, $$"""svg \[fill="#{{Hex(colour)}}"\] \{ fill: (?:#([0-9A-F]{6})|var\(--(\w+)\)); \}""");
        Assert.True(rule.Success, $"#{Hex(colour)} has no colour on the dark page.");
        return rule.Groups[1].Success ? rule.Groups[1].Value : Variable(Dark, rule.Groups[2].Value);
    }

    private static string Variable(string rules, string name) => Regex.Match(rules, $"--{name}: #([0-9A-F]{{6}})").Groups[1].Value;

    private static string Hex(OxyColor colour) => FormattableString.Invariant($"{colour.R:X2}{colour.G:X2}{colour.B:X2}");

    private static string Read()
    {
        using var reader = new StreamReader(typeof(ReportPage).Assembly.GetManifestResourceStream("report.css")!);
        return reader.ReadToEnd();
    }
}
