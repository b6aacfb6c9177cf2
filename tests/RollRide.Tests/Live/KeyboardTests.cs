namespace RollRide.Tests.Live;

/// <summary>The live page by keys alone, in a real browser.</summary>
[Collection(nameof(LiveBrowser))]
public sealed class KeyboardTests(LiveBrowser browser)
{
    private const int MostStops = 200;
    private const string AxleEnd = "layouts[0].placement.mounts.axleEnd_mm1";

    [Fact]
    public Task Mount_is_moved_and_the_scenario_saved_by_keys_alone() => browser.Show("bump-then-corner.json", async page =>
    {
        await TabToAsync(page, LivePage.Selector(AxleEnd));
        var before = await page.NumbersOfAsync(AxleEnd);
        // Left in the picture is the vehicle's left, where y grows.
        await page.Browser.KeyAsync("ArrowLeft");
        await page.Browser.KeyAsync("ArrowUp", withShift: true);
        await page.SettleAsync();
        Assert.Equal([before[0] + 1, before[1] + 10], await page.NumbersOfAsync(AxleEnd));
        Assert.True((bool)(await page.Browser.EvaluateAsync("document.activeElement.matches('[data-handle]')"))!, "The handle must keep the focus while it moves.");
        await page.Browser.KeyAsync("z", withControl: true);
        await page.SettleAsync();
        Assert.Equal([before[0] + 1, before[1]], await page.NumbersOfAsync(AxleEnd));

        await TabToAsync(page, LivePage.Field("vehicle.springs.rate_N_per_mm"));
        await page.Browser.KeyAsync("ArrowUp");
        await page.SettleAsync();
        var rate = double.Parse((string)(await page.Browser.EvaluateAsync("document.activeElement.value"))!, System.Globalization.CultureInfo.InvariantCulture);
        Assert.True(rate > 62);

        await TabToAsync(page, "#save");
        await page.Browser.KeyAsync("Enter");
        await page.Browser.WaitForAsync("document.getElementById('saveDialog').open");
        await TabToAsync(page, "#saveName");
        await page.Browser.KeyAsync("a", withControl: true);
        await page.Browser.EvaluateAsync("document.activeElement.select()");
        await page.Browser.TypeAsync("by-keys.json");
        Assert.StartsWith("Saved", await page.SubmitSaveAsync(), StringComparison.Ordinal);
        var saved = RollRide.Scenarios.ScenarioReader.Read(page.Folder["by-keys.json"]).Study;
        Assert.Equal(rate, Assert.IsType<RollRide.Vehicle.LinearSpring>(saved.Vehicle.Spring.Characteristic).Rate / 1000, 1e-12);
        Assert.Contains("[-120, 640, 300]", await File.ReadAllTextAsync(page.Folder["by-keys.json"], TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.NotEqual("BODY", (string)(await page.Browser.EvaluateAsync("document.activeElement.tagName"))!);
    });

    [Fact]
    public Task Focus_moves_in_the_order_of_sight_and_is_always_seen() => browser.Show("bump-then-corner.json", async page =>
    {
        List<(string Block, string What, double X, double Y, bool IsMarked)> stops = [];
        for (var i = 0; i < MostStops; i++)
        {
            await page.Browser.KeyAsync("Tab");
            // Marked: an outline, or another stroke than without the focus.
            var stop = await page.Browser.EvaluateAsync(
                """
                (() => {
                  const e = document.activeElement;
                  if (e === document.body) return null;
                  const block = e.closest('.tools, #tabs, .fields, #drawing, #curve, .numbers');
                  const box = e.getBoundingClientRect();
                  const style = getComputedStyle(e);
                  const drawn = [style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 1, style.strokeWidth];
                  const what = e.id || e.dataset.handle || e.dataset.path;
                  e.blur();
                  const without = getComputedStyle(e).strokeWidth;
                  e.focus({ focusVisible: true });
                  return [block ? block.id || block.className : '', what, box.x, box.y, drawn[0] || drawn[1] !== without];
                })()
                """);
            if (stop is null)
                break;
            stops.Add(((string)stop[0]!, (string?)stop[1] ?? "", (double)stop[2]!, (double)stop[3]!, (bool)stop[4]!));
            if (stops.Count > 1 && stops[^1].What == stops[0].What)
            {
                stops.RemoveAt(stops.Count - 1);
                break;
            }
        }

        Assert.InRange(stops.Count, 20, MostStops - 1);
        Assert.All(stops, stop => Assert.True(stop.IsMarked, $"{stop.What} does not show that it has the focus"));
        // Block after block, none left and entered again, in the order in which they stand: down the page, and from left to right.
        string[] blocks = [.. stops.Select(stop => stop.Block).Aggregate(new List<string>(), (seen, block) =>
        {
            if (seen.LastOrDefault() != block)
                seen.Add(block);
            return seen;
        })];
        Assert.Equal(["tools", "tabs", "fields", "drawing", "curve"], blocks.Where(block => block is not ("" or "numbers")));
        Assert.All(["tools", "tabs"], block =>
        {
            var row = stops.Where(stop => stop.Block == block).ToArray();
            Assert.Equal(row.OrderBy(stop => stop.X), row);
        });
        var fields = stops.Where(stop => stop.Block == "fields" && stop.What.StartsWith("field", StringComparison.Ordinal)).ToArray();
        var places = await page.Browser.EvaluateAsync("[...document.querySelectorAll('#fieldList :is(input, select)')].map(field => field.id)");
        Assert.Equal(places!.AsArray().Select(place => (string)place!), fields.Select(field => field.What));
    });

    private static async Task TabToAsync(LivePage page, string selector)
    {
        var isThere = $"document.activeElement.matches({BrowserPage.Quoted(selector)})";
        for (var i = 0; i < MostStops; i++)
        {
            if ((bool)(await page.Browser.EvaluateAsync(isThere))!)
                return;
            await page.Browser.KeyAsync("Tab");
        }

        Assert.Fail($"The Tab key does not lead to {selector}.");
    }
}
