using System.Text.RegularExpressions;
using RollRide.Plots;
using RollRide.Report;

namespace RollRide.Tests.Report;

/// <summary>The colours of layouts on a dark page.</summary>
public sealed partial class DarkPageTests
{
    [Fact] // WCAG 2.1, success criterion 1.4.11: graphical objects have a contrast of at least 3 to 1.
    public void Every_layout_can_be_seen_on_the_dark_page()
    {
        using var reader = new StreamReader(typeof(ReportPage).Assembly.GetManifestResourceStream("report.css")!);
        var rules = reader.ReadToEnd();
        var dark = rules[rules.IndexOf("prefers-color-scheme: dark", StringComparison.Ordinal)..rules.IndexOf("box-sizing", StringComparison.Ordinal)];
        var paper = PaperColour().Match(dark).Groups[1].Value;

        foreach (var colour in LayoutStyles.All.Select(style => FormattableString.Invariant($"{style.Color.R:X2}{style.Color.G:X2}{style.Color.B:X2}")))
        {
            foreach (var kind in (string[])["fill", "stroke"])
            {
                var turned = Regex.Match(dark, $$"""svg \[{{kind}}="#{{colour}}"\] \{ {{kind}}: #([0-9A-F]+);""");
                Assert.True(Colours.Contrast(turned.Success ? turned.Groups[1].Value : colour, paper) >= 3, $"{kind} #{colour} is hardly seen on #{paper}.");
            }
        }
    }

    [GeneratedRegex("--paper: #([0-9A-F]{6})")]
    private static partial Regex PaperColour();
}
