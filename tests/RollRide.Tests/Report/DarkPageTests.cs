using System.Globalization;
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
                Assert.True(Contrast(turned.Success ? turned.Groups[1].Value : colour, paper) >= 3, $"{kind} #{colour} is hardly seen on #{paper}.");
            }
        }
    }

    /// <summary>Contrast of two colours after WCAG 2.1, from their relative luminance.</summary>
    private static double Contrast(string one, string other)
    {
        double[] luminances = [Luminance(one), Luminance(other)];
        return (luminances.Max() + 0.05) / (luminances.Min() + 0.05);
    }

    private static double Luminance(string rgb)
    {
        var parts = Enumerable.Range(0, 3).Select(i => int.Parse(rgb.AsSpan(2 * i, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0)
            .Select(part => part <= 0.03928 ? part / 12.92 : Math.Pow((part + 0.055) / 1.055, 2.4)).ToArray();
        return (0.2126 * parts[0]) + (0.7152 * parts[1]) + (0.0722 * parts[2]);
    }

    [GeneratedRegex("--paper: #([0-9A-F]{6})")]
    private static partial Regex PaperColour();
}
