using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using RollRide.Live;
using RollRide.Plots;

namespace RollRide.Tests.Live;

/// <summary>The files of the live page, as far as they can be held to something without a browser.</summary>
public sealed partial class PageTests
{
    public static TheoryData<int> Places => [.. Enumerable.Range(0, LayoutStyles.Count)];

    public static TheoryData<string> Scripts => [.. PageFiles.All.Keys.Where(name => name.EndsWith(".js", StringComparison.Ordinal)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Places))]
    public void Layout_has_the_colour_and_the_dash_of_the_reports_figures(int place)
    {
        var style = LayoutStyles.All[place];
        var css = Text("live.css");
        var light = css[..css.IndexOf("@media", StringComparison.Ordinal)];
        Assert.Contains($"--s{place}: #{style.Color.R:X2}{style.Color.G:X2}{style.Color.B:X2};", light, StringComparison.Ordinal);
        var dash = Regex.Match(css, $@"\.line\.s{place} {{ stroke-dasharray: ([\d. ]+); }}");
        Assert.Equal(
            style.Dashes.Select(length => length * style.Thickness),
            dash.Success ? dash.Groups[1].Value.Split(' ').Select(length => double.Parse(length, CultureInfo.InvariantCulture)) : [],
            (a, b) => Math.Abs(a - b) < 1e-9); // rounding of the product
    }

    [Fact]
    public void Page_brings_no_script_or_style_that_its_policy_would_stop()
    {
        var page = Text(PageFiles.Page);
        Assert.DoesNotMatch(@"<style|\sstyle=|\son\w+=|javascript:|https?://", page);
        Assert.DoesNotMatch(@"<script(?![^>]*\ssrc=)", page);
        Assert.Matches("<html lang=\"en\">", page);
    }

    [Theory]
    [MemberData(nameof(Scripts))]
    public void Script_names_only_files_and_elements_that_are_there(string name)
    {
        var script = Text(name);
        Assert.All(Imports().Matches(script), import => Assert.Contains(import.Groups[1].Value, PageFiles.All.Keys));
        var ids = Ids().Matches(Text(PageFiles.Page)).Select(id => id.Groups[1].Value).ToHashSet();
        Assert.All(Named().Matches(script), id => Assert.Contains(id.Groups[1].Value, ids));
        Assert.DoesNotMatch(@"\beval\(|new Function|innerHTML|outerHTML|insertAdjacentHTML|document\.write|localStorage|https?://(?!www\.w3\.org/)", script);
    }

    private static string Text(string name) => Encoding.UTF8.GetString(PageFiles.All[name].Content);

    [GeneratedRegex(@"from '\./([\w.]+)'")]
    private static partial Regex Imports();

    [GeneratedRegex(@"\sid=""([\w-]+)""")]
    private static partial Regex Ids();

    [GeneratedRegex(@"(?:byId\(|new Figure\()'([\w-]+)'")]
    private static partial Regex Named();
}
