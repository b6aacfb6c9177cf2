using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Live;

/// <summary>The server's process is stopped and goes on while its page is open in a real browser.</summary>
[Collection(nameof(OtherLiveBrowser))]
public sealed class SilentServerTests(LiveBrowser browser)
{
    private const string Spring = "vehicle.springs.rate_N_per_mm";

    [Theory]
    [InlineData("")]
    [InlineData("delete window.SharedWorker;")]
    public async Task Page_tells_that_the_server_is_silent_and_goes_on_with_it(string without)
    {
        var started = await browser.StartedAsync();
        using var live = await StartedLive.Of([], Shipped.Scenario("bump-then-corner.json"), "--no-browser");
        await using var page = await started.OpenAsync(live.Address.AbsoluteUri, 1400, 900, without);
        const string UpToDate = "document.getElementById('status').textContent === 'Up to date' && !rollride.app.isBehind";
        await page.WaitForAsync($"document.querySelector('.numbers td') && {UpToDate}");
        const string Frequency = "document.querySelector('.numbers td[data-layout=Outboard][data-key=heaveNaturalFrequency_Hz]').dataset.value";
        var before = (string)(await page.EvaluateAsync(Frequency))!;

        await StartedLive.Signal("STOP", live.Server);
        var field = LivePage.Field(Spring);
        await page.ClickAsync(field);
        await page.EvaluateAsync($"document.querySelector({BrowserPage.Quoted(field)}).select()");
        await page.TypeAsync("70");
        await page.WaitForAsync("document.getElementById('status').textContent.startsWith('The server is silent')");
        Assert.Equal(before, (string)(await page.EvaluateAsync(Frequency))!);

        await StartedLive.Signal("CONT", live.Server);
        await page.WaitForAsync(UpToDate);
        Assert.NotEqual(before, (string)(await page.EvaluateAsync(Frequency))!);
        Assert.Empty(page.Complaints);
    }
}
