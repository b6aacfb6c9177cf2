namespace RollRide.Tests.Live;

/// <summary>The drag that the page rehearses while its reader takes a first look.</summary>
[Collection(nameof(OtherLiveBrowser))]
public sealed class RehearsalTests(LiveBrowser browser)
{
    private const int Rounds = 40;

    [Fact]
    public Task Rehearsal_asks_and_draws_and_changes_nothing() => browser.Show("bump-then-corner.json", async page =>
    {
        var given = await page.NumbersAsync();
        var title = await page.TextAsync("#name");
        await page.Browser.WaitForAsync($"rollride.counts.sent > {Rounds} && rollride.counts.verdicts > {Rounds}");
        await page.SettleAsync();
        Assert.Equal(given, await page.NumbersAsync());
        Assert.Equal(title, await page.TextAsync("#name"));
        Assert.Empty((await page.StateAsync())["edits"]!.AsArray());
        Assert.True((bool)(await page.Browser.EvaluateAsync("document.getElementById('undo').disabled"))!);

        // It has an end.
        var sent = (int)(await page.Browser.EvaluateAsync("rollride.counts.sent"))!;
        await Task.Delay(500, TestContext.Current.CancellationToken);
        Assert.Equal(sent, (int)(await page.Browser.EvaluateAsync("rollride.counts.sent"))!);
    }, isRehearsed: true);

    [Fact]
    public Task Rehearsal_ends_when_the_hand_comes() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "70");
        var sent = (int)(await page.Browser.EvaluateAsync("rollride.counts.sent"))!;
        Assert.InRange(sent, 1, Rounds);
        await Task.Delay(500, TestContext.Current.CancellationToken);
        Assert.Equal(sent, (int)(await page.Browser.EvaluateAsync("rollride.counts.sent"))!);
    }, isRehearsed: true);

    [Fact]
    public Task Hand_that_comes_in_a_rest_of_the_rehearsal_ends_it_before_the_file_is_asked_for() => browser.Show("bump-then-corner.json", async page =>
    {
        await page.Browser.WaitForAsync($"rollride.counts.sent > {Rounds}");
        var asked = await page.Browser.EvaluateAsync("""
            (async () => {
              const { rehearse } = await import(new URL('page/rehearsal.js', location.href));
              let asked = 0;
              const app = { session: { isChanged: false }, faults: [], isAtRest: true, rehearse() { asked++; } };
              const end = rehearse(app);
              await new Promise(resolve => setTimeout(resolve, 5));
              app.session.isChanged = true;
              await end;
              return asked;
            })()
            """);
        Assert.Equal(0, (int)asked!);
    }, isRehearsed: true);
}
