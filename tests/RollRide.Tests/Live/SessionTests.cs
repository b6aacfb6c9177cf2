namespace RollRide.Tests.Live;

/// <summary>Undo, redo, kept layouts and two pages at once, on the live page in a real browser.</summary>
[Collection(nameof(OtherLiveBrowser))]
public sealed class SessionTests(LiveBrowser browser)
{
    private const string AxleEnd = "layouts[0].placement.mounts.axleEnd_mm1";

    [Fact]
    public Task Undo_and_redo_go_through_the_whole_session() => browser.Show("bump-then-corner.json", async page =>
    {
        List<(string State, IReadOnlyDictionary<(string, string), (string, double?)> Numbers)> seen = [];
        async Task See()
        {
            await page.SettleAsync();
            seen.Add(((await page.StateAsync()).ToJsonString(), await page.NumbersAsync()));
        }

        await See();
        await page.DragAcrossAsync(AxleEnd, 580);
        await See();
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "70");
        await See();
        await page.DragAcrossAsync(AxleEnd, 520);
        await See();
        await KeepAsync(page, "Mine");
        await See();
        await page.Browser.ClickAsync("#back");
        await See();

        // One gesture is one step, however many moves it had; going back to the file is a step as well.
        for (var i = seen.Count - 2; i >= 0; i--)
            await StepAsync("z", seen[i]);
        Assert.True((bool)(await page.Browser.EvaluateAsync("document.getElementById('undo').disabled"))!);
        for (var i = 1; i < seen.Count; i++)
            await StepAsync("y", seen[i]);
        Assert.True((bool)(await page.Browser.EvaluateAsync("document.getElementById('redo').disabled"))!);

        async Task StepAsync(string key, (string State, IReadOnlyDictionary<(string Layout, string), (string, double?)> Numbers) wanted)
        {
            await page.Browser.KeyAsync(key, withControl: true);
            await page.SettleAsync();
            Assert.Equal(wanted.State, (await page.StateAsync()).ToJsonString());
            var numbers = await page.NumbersAsync();
            foreach (var (place, number) in wanted.Numbers.Where(number => number.Key.Layout is "Outboard" or "At the centre"))
                Assert.Equal(number, numbers[place]);
        }
    });

    [Fact]
    public Task Back_to_the_file_shows_what_the_file_says_and_can_be_undone() => browser.Show("bump-then-corner.json", async page =>
    {
        var given = await page.NumbersAsync();
        await page.DragAcrossAsync(AxleEnd, 500);
        var moved = await page.NumberAsync("Outboard", "rollRatio");
        Assert.Equal(given[("Outboard", "rollRatio")].Text, (await page.NumbersAsync())[("given", "rollRatio")].Text);

        await page.Browser.ClickAsync("#back");
        await page.SettleAsync();
        Assert.Equal(given, await page.NumbersAsync());

        await page.Browser.ClickAsync("#undo");
        await page.SettleAsync();
        Assert.Equal(moved, await page.NumberAsync("Outboard", "rollRatio"));
    });

    [Fact]
    public Task Kept_layout_stands_beside_the_others_and_gives_its_own_back() => browser.Show("bump-then-corner.json", async page =>
    {
        var given = await page.NumberAsync("Outboard", "rollRatio");
        await page.DragAcrossAsync(AxleEnd, 560);
        var moved = await page.NumberAsync("Outboard", "rollRatio");
        await KeepAsync(page, "Between");

        Assert.Equal((given, moved), (await page.NumberAsync("Outboard", "rollRatio"), await page.NumberAsync("Between", "rollRatio")));
        Assert.StartsWith("Saved", await page.SaveAsync("kept.json"), StringComparison.Ordinal);
        var kept = RollRide.Scenarios.ScenarioReader.Read(page.Folder["kept.json"]).Study.Layouts;
        Assert.Equal(["Outboard", "Inboard of the rail", "At the centre", "Between"], kept.Select(layout => layout.Name));

        // A name is taken once.
        await page.Browser.ClickAsync("#keep");
        await page.Browser.EvaluateAsync("document.getElementById('keepName').select()");
        await page.Browser.TypeAsync("at the centre");
        await page.Browser.KeyAsync("Enter");
        Assert.Contains("At the centre", await page.TextAsync("#keepMessage"), StringComparison.OrdinalIgnoreCase);
    });

    [Fact]
    public Task What_was_saved_into_the_file_itself_is_no_change_any_more() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.DragAcrossAsync(AxleEnd, 560);
        await KeepAsync(page, "Between");
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "70");
        Assert.Contains("already", await page.SaveAsync("bump-then-corner.json"), StringComparison.Ordinal);
        Assert.StartsWith("Saved", await page.SubmitSaveAsync(), StringComparison.Ordinal);
        await page.Browser.WaitForAsync("document.getElementById('back').disabled");
        await page.SettleAsync();
        Assert.Equal("", await page.TextAsync("#faults"));
        Assert.Equal("Outboard,Inboard of the rail,At the centre,Between", (string)(await page.Browser.EvaluateAsync("rollride.app.document.layouts.map(layout => layout.name).join()"))!);
    });

    [Fact]
    public Task Changes_follow_their_layout_where_the_file_has_a_new_one_before_it() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.DragAcrossAsync(AxleEnd, 560);
        await KeepAsync(page, "Between");
        await page.DragAcrossAsync("layouts[3].placement.mounts.axleEnd_mm1", 540);
        var moved = await page.NumberAsync("Between", "rollRatio");
        var path = page.Folder["bump-then-corner.json"];
        var text = await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        const string First = "\"layouts\": [";
        Assert.Contains(First, text, StringComparison.Ordinal);
        await File.WriteAllTextAsync(path, text.Replace(First, First + """ { "name": "New", "placement": { "motionRatios": { "heave": 0.9, "roll": 0.5 } }, "damper": "valley" },""", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        await page.Browser.WaitForAsync("rollride.app.document.layouts.length === 5");
        await page.SettleAsync();
        Assert.Equal("", await page.TextAsync("#faults"));
        Assert.Equal(moved, await page.NumberAsync("Between", "rollRatio"));
        Assert.Equal("layouts[4]", (string)(await page.StateAsync())["edits"]![0]!["path"]!);
    });

    [Fact]
    public Task Two_pages_do_not_disturb_each_other() => browser.Show("bump-then-corner.json", async page =>
    {
        await using var other = await LivePage.OpenAsync(await browser.StartedAsync(), page.Served);
        var given = await other.NumbersAsync();
        await page.DragAcrossAsync(AxleEnd, 560);
        await other.WriteAsync("vehicle.springs.rate_N_per_mm", "75");

        Assert.Equal(given[("Outboard", "rollRatio")], (await other.NumbersAsync())[("Outboard", "rollRatio")]);
        Assert.Equal(given[("At the centre", "heaveNaturalFrequency_Hz")], (await page.NumbersAsync())[("At the centre", "heaveNaturalFrequency_Hz")]);
        Assert.StartsWith("Saved", await page.SaveAsync("first.json"), StringComparison.Ordinal);
        await other.SettleAsync();
        Assert.Equal("75", (string)(await other.Browser.EvaluateAsync($"document.querySelector(\"{LivePage.Field("vehicle.springs.rate_N_per_mm")}\").value"))!);

        // The second one is asked before it replaces what the first has saved.
        Assert.Contains("first.json", await other.SaveAsync("first.json"), StringComparison.Ordinal);
        Assert.DoesNotContain("\"rate_N_per_mm\": 75,", await File.ReadAllTextAsync(page.Folder["first.json"], TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.StartsWith("Saved", await other.SubmitSaveAsync(), StringComparison.Ordinal);
        Assert.Contains("\"rate_N_per_mm\": 75,", await File.ReadAllTextAsync(page.Folder["first.json"], TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Empty(other.Browser.Complaints);
    });

    private static async Task KeepAsync(LivePage page, string name)
    {
        await page.Browser.ClickAsync("#keep");
        await page.Browser.EvaluateAsync("document.getElementById('keepName').select()");
        await page.Browser.TypeAsync(name);
        await page.Browser.KeyAsync("Enter");
        await page.SettleAsync();
    }

    [Theory]
    [InlineData("")]
    [InlineData("delete window.SharedWorker;")]
    public async Task Ten_pages_of_one_browser_all_follow_hand_and_file(string without)
    {
        var started = await browser.StartedAsync();
        await using var served = await ServedScenario.StartAsync("bump-then-corner.json");
        var pages = new List<LivePage>();
        try
        {
            // A browser has six connections to a server: each of these pages would hold one if it heard of changes by itself.
            for (var i = 0; i < 10; i++)
                pages.Add(await LivePage.OpenAsync(started, served, script: without));
            await pages[^1].WriteAsync("vehicle.springs.rate_N_per_mm", "70");
            var text = await File.ReadAllTextAsync(served.File, TestContext.Current.CancellationToken);
            await File.WriteAllTextAsync(served.File, text.Replace("\"mass_kg\": 1350,", "\"mass_kg\": 1300,", StringComparison.Ordinal), TestContext.Current.CancellationToken);
            foreach (var page in pages)
                await page.Browser.WaitForAsync($"document.querySelector(\"{LivePage.Field("vehicle.body.mass_kg")}\").value === '1300'");
            Assert.All(pages, page => Assert.Empty(page.Browser.Complaints));

            // The first one heard the server for all, where one page does.
            await pages[0].DisposeAsync();
            pages.RemoveAt(0);
            await File.WriteAllTextAsync(served.File, text.Replace("\"mass_kg\": 1350,", "\"mass_kg\": 1250,", StringComparison.Ordinal), TestContext.Current.CancellationToken);
            foreach (var page in pages)
                await page.Browser.WaitForAsync($"document.querySelector(\"{LivePage.Field("vehicle.body.mass_kg")}\").value === '1250'");
        }
        finally
        {
            foreach (var page in pages)
                await page.DisposeAsync();
        }
    }
}
