namespace RollRide.Tests.Live;

/// <summary>The scenario is changed on disk while its live page is open in a real browser.</summary>
[Collection(nameof(OtherLiveBrowser))]
public sealed class ChangesOnDiskTests(LiveBrowser browser)
{
    private const string Spring = "vehicle.springs.rate_N_per_mm";

    [Fact]
    public Task Value_out_of_limits_is_told_where_it_stands_until_it_is_mended() => browser.Show("bump-then-corner.json", async page =>
    {
        var (text, given) = (await ReadAsync(page), await page.NumbersAsync());
        Replace(page, text.Replace("\"rate_N_per_mm\": 62,", "\"rate_N_per_mm\": -62,", StringComparison.Ordinal));
        await page.Browser.WaitForAsync("document.getElementById('faults').checkVisibility()");
        await page.SettleAsync();
        var line = text.Split('\n').TakeWhile(row => !row.Contains("\"rate_N_per_mm\": 62,", StringComparison.Ordinal)).Count() + 1;
        var said = await page.TextAsync("#faults");
        Assert.Contains($"line {line}: {Spring}", said, StringComparison.Ordinal);
        Assert.Contains("a number from 0.01 to 100000 is expected", said, StringComparison.Ordinal);
        Assert.Contains("a number from 0.01 to 100000 is expected", await page.TextAsync($".field:has({LivePage.Field(Spring)}) .fault"), StringComparison.Ordinal);
        Assert.Equal(given, await page.NumbersAsync()); // the last good figures, marked as such
        Assert.Contains("last state that could be computed", await page.TextAsync("#status"), StringComparison.Ordinal);

        Replace(page, text.Replace("\"rate_N_per_mm\": 62,", "\"rate_N_per_mm\": 64,", StringComparison.Ordinal));
        await page.Browser.WaitForAsync("!document.getElementById('faults').checkVisibility() && document.getElementById('status').textContent === 'Up to date'");
        await page.SettleAsync();
        Assert.True(await page.NumberAsync("Outboard", "heaveNaturalFrequency_Hz") > given[("Outboard", "heaveNaturalFrequency_Hz")].Value);
    });

    [Fact]
    public async Task Answer_asked_for_before_the_file_was_at_fault_leaves_the_fault_told()
    {
        // The answer comes when the test lets it.
        const string LateAnswers =
            """
            {
              const { send } = WebSocket.prototype;
              const asked = new Set();
              WebSocket.prototype.send = function (text) {
                const { number, ask } = JSON.parse(text);
                if (window.held && ask === 'answer') asked.add(number);
                send.call(this, text);
              };
              WebSocket.prototype.addEventListener = function (type, listener) {
                EventTarget.prototype.addEventListener.call(this, type, event => {
                  if (type === 'message' && asked.delete(JSON.parse(event.data).number)) held.push(() => listener(event));
                  else listener(event);
                });
              };
            }
            """;
        await using var served = await ServedScenario.StartAsync("bump-then-corner.json");
        await using var page = await LivePage.OpenAsync(await browser.StartedAsync(), served, script: LateAnswers);
        var text = await ReadAsync(page);
        await page.WriteAsync("vehicle.body.mass_kg", "1360");
        await page.Browser.EvaluateAsync("(window.held = []).length");
        await page.Browser.ClickAsync("#undo");
        await page.Browser.WaitForAsync("held.length === 1");

        Replace(page, text.Replace("\"rate_N_per_mm\": 62,", "\"rate_N_per_mm\": -62,", StringComparison.Ordinal));
        await page.Browser.WaitForAsync("document.getElementById('faults').checkVisibility()");
        await page.Browser.EvaluateAsync("{ const late = held; held = null; late.forEach(come => come()); }");
        await page.SettleAsync();

        Assert.Contains("a number from 0.01 to 100000 is expected", await page.TextAsync("#faults"), StringComparison.Ordinal);
        Assert.Empty(page.Browser.Complaints);
    }

    [Fact]
    public Task Text_that_is_no_JSON_is_told_with_its_line_until_it_is_mended() => browser.Show("bump-then-corner.json", async page =>
    {
        var (text, given) = (await ReadAsync(page), await page.NumbersAsync());
        await page.WriteAsync(Spring, "70");
        var changed = await page.NumbersAsync();
        Replace(page, text.Replace("\"track_mm\": 1660,", "\"track_mm\" 1660,", StringComparison.Ordinal));
        await page.Browser.WaitForAsync("document.getElementById('faults').checkVisibility()");
        var line = text.Split('\n').TakeWhile(row => !row.Contains("\"track_mm\": 1660,", StringComparison.Ordinal)).Count() + 1;
        Assert.Contains($"line {line}", await page.TextAsync("#faults"), StringComparison.Ordinal);

        // What was changed on the page is still there.
        Replace(page, text);
        await page.Browser.WaitForAsync("!document.getElementById('faults').checkVisibility() && document.getElementById('status').textContent === 'Up to date'");
        await page.SettleAsync();
        Assert.Equal(changed.OrderBy(number => number.Key), (await page.NumbersAsync()).OrderBy(number => number.Key));
        Assert.NotEqual(given[("Outboard", "heaveNaturalFrequency_Hz")], changed[("Outboard", "heaveNaturalFrequency_Hz")]);
    });

    [Fact]
    public Task Scenario_at_fault_when_the_page_opens_shows_its_line_and_recovers_when_it_is_mended() => browser.Show("bump-then-corner.json", async page =>
    {
        var text = await ReadAsync(page);
        Replace(page, text.Replace("\"rate_N_per_mm\": 62,", "\"rate_N_per_mm\": -62,", StringComparison.Ordinal));
        await page.Browser.WaitForAsync("document.getElementById('faults').checkVisibility()");
        await page.Browser.GoToAsync(page.Served.Address.AbsoluteUri);
        await page.Browser.WaitForAsync("document.querySelector('.excerpt')?.checkVisibility()");
        Assert.Contains("\"rate_N_per_mm\": -62,", await page.TextAsync(".excerpt .faulty code"), StringComparison.Ordinal);
        Assert.Contains("a number from 0.01 to 100000 is expected", await page.TextAsync(".excerpt .fault"), StringComparison.Ordinal);

        Replace(page, text);
        await page.SettleAsync();
        Assert.Equal("", await page.TextAsync("#faultyText"));
        Assert.Equal(62, (double)(await page.Browser.EvaluateAsync($"Number(document.querySelector(\"{LivePage.Field(Spring)}\").value)"))!);
        Assert.NotEmpty(await page.NumbersAsync());
    });

    [Fact]
    public Task Changes_of_a_layout_that_the_file_has_no_longer_go_with_it_and_that_is_said() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.DragAcrossAsync("layouts[0].placement.mounts.axleEnd_mm1", 580);
        Replace(page, (await ReadAsync(page)).Replace("\"name\": \"Outboard\"", "\"name\": \"Outer\"", StringComparison.Ordinal).Replace("[-120, 639, 750]", "[-120, 640, 750]", StringComparison.Ordinal));
        await page.Browser.WaitForAsync("document.getElementById('said').textContent.includes('no layout “Outboard” any more')");
        await page.SettleAsync();
        Assert.Empty((await page.StateAsync())["edits"]!.AsArray());
        Assert.Equal("", await page.TextAsync("#faults"));
        Assert.Contains("Outer", await page.TextAsync("#tabs"), StringComparison.Ordinal);
    });

    [Fact]
    public Task Changes_follow_a_layout_that_is_renamed_in_the_file() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.DragAcrossAsync("layouts[0].placement.mounts.axleEnd_mm1", 580);
        var (moved, state) = (await page.NumberAsync("Outboard", "rollRatio"), (await page.StateAsync()).ToJsonString());
        Replace(page, (await ReadAsync(page)).Replace("\"name\": \"Outboard\"", "\"name\": \"Outer\"", StringComparison.Ordinal));
        await page.Browser.WaitForAsync("rollride.app.selectedLayout().name === 'Outer'");
        await page.SettleAsync();
        Assert.Equal((moved, state), (await page.NumberAsync("Outer", "rollRatio"), (await page.StateAsync()).ToJsonString()));
        Assert.Equal("", await page.TextAsync("#said"));
        Assert.Equal(["Outer", "Inboard of the rail", "At the centre"], (await page.NumbersAsync()).Keys.Select(number => number.Layout).Where(layout => layout != "given").Distinct());
    });

    [Fact]
    public async Task Browser_without_shared_workers_hears_of_a_change_too()
    {
        await using var served = await ServedScenario.StartAsync("bump-then-corner.json");
        await using var page = await LivePage.OpenAsync(await browser.StartedAsync(), served, script: "delete window.SharedWorker");
        Assert.False((bool)(await page.Browser.EvaluateAsync("'SharedWorker' in window"))!);
        Replace(page, (await ReadAsync(page)).Replace("\"mass_kg\": 1350,", "\"mass_kg\": 1300,", StringComparison.Ordinal));
        await page.Browser.WaitForAsync($"document.querySelector(\"{LivePage.Field("vehicle.body.mass_kg")}\").value === '1300'");
        Assert.Empty(page.Browser.Complaints);
    }

    [Fact]
    public Task Curve_in_a_file_is_read_anew_when_it_changes() => browser.Show("bump-then-corner.json", async page =>
    {
        var before = await page.NumberAsync("Outboard", "rollDampingRatioAtTargets");
        var path = page.Folder["valley-damper-dyno.csv"];
        var lines = await File.ReadAllLinesAsync(path, TestContext.Current.CancellationToken);
        await File.WriteAllLinesAsync(path, lines.Select(Halved), TestContext.Current.CancellationToken);
        await page.Browser.WaitForAsync($"Number(document.querySelector(\"td[data-key=rollDampingRatioAtTargets][data-layout=Outboard]\").dataset.value) < {before:F3} * 0.8");

        static string Halved(string line)
        {
            var parts = line.Split(',');
            return parts.Length == 2 && double.TryParse(parts[1], System.Globalization.CultureInfo.InvariantCulture, out var force)
                ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{parts[0]},{force / 2}")
                : line;
        }
    });

    private static Task<string> ReadAsync(LivePage page) => File.ReadAllTextAsync(page.Served.File, TestContext.Current.CancellationToken);

    // As an editor does that replaces a file whole.
    private static void Replace(LivePage page, string text)
    {
        var beside = page.Folder.Write("being-written", text);
        File.Move(beside, page.Served.File, overwrite: true);
    }
}
