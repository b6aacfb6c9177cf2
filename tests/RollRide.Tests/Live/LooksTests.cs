using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using RollRide.Tests.Docs;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Live;

/// <summary>How the live page looks in a real browser: its size, dark, printed, and its picture in the documents.</summary>
[Collection(nameof(LiveBrowser))]
public sealed class LooksTests(LiveBrowser browser)
{
    /// <summary>Its picture in the documents, which no figure of the gallery is.</summary>
    internal const string Picture = "live-page.png";

    public static TheoryData<string> Scenarios => [.. Shipped.Scenarios];

    [Theory]
    [MemberData(nameof(Scenarios))]
    public Task Every_shipped_scenario_fits_one_screen(string scenario) => browser.Show(scenario, async page =>
    {
        Assert.NotEmpty(await page.NumbersAsync());
        var beyond = await page.Browser.EvaluateAsync(
            """
            (() => {
              const page = document.documentElement;
              const found = page.scrollHeight > innerHeight || page.scrollWidth > innerWidth ? [`page: ${page.scrollWidth} x ${page.scrollHeight}`] : [];
              // The list of fields alone may be longer than its place: it holds every number of the scenario.
              for (const part of document.querySelectorAll('.numbers, .figures, figure, #tabs, #decision, header, figcaption')) {
                if (part.checkVisibility() && (part.scrollHeight > part.clientHeight + 1 || part.scrollWidth > part.clientWidth + 1))
                  found.push(`${part.id || part.className || part.tagName}: ${part.scrollWidth} x ${part.scrollHeight} in ${part.clientWidth} x ${part.clientHeight}`);
              }
              for (const svg of document.querySelectorAll('.plot > svg')) {
                const box = svg.getBoundingClientRect();
                if (svg.checkVisibility() && (box.width < 150 || box.height < 90)) found.push(`${svg.closest('figure').id} is drawn ${box.width} x ${box.height}`);
              }
              return found;
            })()
            """);
        Assert.Empty(beyond!.AsArray().Select(part => (string)part!));
    });

    [Fact]
    public Task Dark_page_is_dark() => browser.Show("bump-then-corner.json", async page =>
    {
        const string Paper = "getComputedStyle(document.body).backgroundColor";
        var light = await page.Browser.EvaluateAsync(Paper);
        await page.Browser.SetMediaAsync("screen", isDark: true);
        await page.Browser.FrameAsync();
        static int Sum(string colour) => Regex.Matches(colour, @"\d+").Sum(part => int.Parse(part.Value, CultureInfo.InvariantCulture));
        Assert.Equal(3 * 255, Sum((string)light!));
        Assert.InRange(Sum((string)(await page.Browser.EvaluateAsync(Paper))!), 0, 3 * 40);
    });

    [Theory]
    [InlineData("bump-then-corner.json")]
    [InlineData("placement.json")]
    public Task Print_is_one_landscape_page_with_figures_numbers_and_changes(string scenario) => browser.Show(scenario, async page =>
    {
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "66.5");
        var pdf = Encoding.Latin1.GetString(await page.Browser.PrintAsync());
        var box = Assert.Single(Regex.Matches(pdf, @"/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]"));
        Assert.True(double.Parse(box.Groups[1].Value, CultureInfo.InvariantCulture) > double.Parse(box.Groups[2].Value, CultureInfo.InvariantCulture), "The page stands upright.");

        await page.Browser.SetMediaAsync("print", isDark: true);
        Assert.True((bool)(await page.Browser.EvaluateAsync("[...document.querySelectorAll('.numbers table, #drawing svg, #roll svg, #decision, #changes li')].every(part => part.checkVisibility())"))!);
        Assert.Equal("", (string)(await page.Browser.EvaluateAsync("[...document.querySelectorAll('.tools, .fields, .handles')].filter(part => getComputedStyle(part).display !== 'none').map(part => part.getAttribute('class')).join()"))!);
        Assert.Contains("vehicle.springs.rate_N_per_mm: 62 → 66.5", await page.TextAsync("#changes"), StringComparison.Ordinal);
        // Ink on white, however dark the screen.
        Assert.Equal("rgb(255, 255, 255)", (string)(await page.Browser.EvaluateAsync("getComputedStyle(document.body).backgroundColor"))!);
    });

    [Fact]
    public async Task Readme_shows_the_page()
    {
        var path = Shipped.PathOf("docs", "images", Picture);
        if (Environment.GetEnvironmentVariable("ROLLRIDE_UPDATE_DOCS") == "1")
        {
            await browser.Show("bump-then-corner.json", async page =>
            {
                // The inboard dampers on their way out, over the layouts as the file has them.
                await page.Browser.ClickAsync("#tabs input[value='Inboard of the rail']");
                const string AxleEnd = "layouts[1].placement.mounts.axleEnd_mm1";
                await page.Browser.WaitForAsync($"document.querySelector(\"{LivePage.Selector(AxleEnd)}\")");
                await page.DragAcrossAsync(AxleEnd, 540);
                await page.DecisionAsync();
                await File.WriteAllBytesAsync(path, await page.Browser.PictureAsync(), TestContext.Current.CancellationToken);
            });
        }

        // No two versions of a browser draw the same bytes: it is looked at when it is written.
        var picture = await File.ReadAllBytesAsync(path, TestContext.Current.CancellationToken);
        Assert.Equal((1400, 900), (BinaryPrimitives.ReadInt32BigEndian(picture.AsSpan(16)), BinaryPrimitives.ReadInt32BigEndian(picture.AsSpan(20))));
        Assert.Contains($"docs/images/{Picture}", Document.Read("README.md").RelativeLinks);
    }
}
