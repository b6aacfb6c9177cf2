using System.Net;
using RollRide.Live;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Live;

/// <summary>Several requests at once, requests given up, pages that come and go, and files that change.</summary>
public sealed class LiveRequestsTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Request_that_its_page_gives_up_is_stopped()
    {
        var (begun, stopped) = (new TaskCompletionSource(), new TaskCompletionSource());
        await using var page = await ServedPage.StartAsync(ScenarioStub.Endless(begun, stopped));
        using (var client = new HttpClient { BaseAddress = page.Address })
        {
            using var giveUp = new CancellationTokenSource();
            using var body = JsonOf("{}");
            var answer = client.PostAsync("answer", body, giveUp.Token);
            await begun.Task;
            await giveUp.CancelAsync();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => answer);
        }

        await stopped.Task.WaitAsync(TimeSpan.FromSeconds(60));
        Assert.Equal(HttpStatusCode.OK, (await page.Get("start")).StatusCode);
    }

    [Fact]
    public async Task One_request_too_many_at_once_is_refused_and_served_when_a_place_is_free()
    {
        using var go = new ManualResetEventSlim();
        using var begun = new CountdownEvent(LiveApplication.MostComputing);
        await using var page = await ServedPage.StartAsync(ScenarioStub.Held(begun, go));
        var answers = Enumerable.Range(0, LiveApplication.MostComputing).Select(i => Task.Run(() => page.Post("answer", $$"""{"id":{{i}}}"""))).ToArray();
        await Task.Run(begun.Wait);

        await ServedPage.Refused(HttpStatusCode.TooManyRequests, await page.Get("start"));
        using (var file = await page.Get(""))
            Assert.Equal(HttpStatusCode.OK, file.StatusCode);

        go.Set();
        for (var i = 0; i < answers.Length; i++)
            Assert.Equal($$"""{"id":{{i}}}""", await (await answers[i]).Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.OK, (await page.Get("start")).StatusCode);
    }

    [Fact]
    public async Task Two_pages_are_each_told_of_a_change()
    {
        var path = _folder.Write("van.json", "{}");
        var scenario = new ScenarioStub(path);
        await using var page = await ServedPage.StartAsync(scenario);
        using var first = await page.Open();
        using var second = await page.Open();
        await first.Expect("id: 0");
        await second.Expect("id: 0");

        _folder.Replace("van.json", """{ "name": "changed" }""");

        await first.Expect("event: changed");
        await second.Expect("event: changed");
        Assert.Equal(1, scenario.Reloads);
    }

    [Theory]
    [InlineData("replaced")]
    [InlineData("removed and written")]
    [InlineData("a data file")]
    [InlineData("a link's target")]
    public async Task Change_is_told_however_it_is_made(string how)
    {
        var (scenario, data) = (_folder.Write("van.json", "{}"), _folder.Write("damper.csv", "0,0"));
        if (how == "a link's target")
        {
            Assert.SkipWhen(OperatingSystem.IsWindows(), "A link needs a right there.");
            scenario = File.CreateSymbolicLink(_folder["link.json"], scenario).FullName;
        }

        await using var page = await ServedPage.StartAsync(new ScenarioStub(scenario, data));
        using var events = await page.Open();
        await events.Expect("id: 0");
        switch (how)
        {
            case "replaced":
                _folder.Replace("van.json", "[]");
                break;
            case "removed and written":
                File.Delete(scenario);
                await events.Expect("event: changed");
                _folder.Write("van.json", "{}");
                break;
            case "a data file":
                _folder.Write("damper.csv", "0,1,2");
                break;
            default:
                _folder.Write("van.json", "{ }");
                break;
        }

        await events.Expect("event: changed");
    }

    [Fact]
    public async Task Page_that_comes_back_is_told_of_the_change_that_it_missed()
    {
        var path = _folder.Write("van.json", "{}");
        await using var page = await ServedPage.StartAsync(new ScenarioStub(path));
        using (var events = await page.Open())
        {
            await events.Expect("id: 0");
            _folder.Replace("van.json", "{ }");
            await events.Expect("event: changed");
        }

        using (var again = await page.Open(("Last-Event-ID", "0")))
        {
            await again.Expect("id: 0");
            await again.Expect("id: 1");
            await again.Expect("event: changed");
        }
    }

    [Fact]
    public async Task Server_ends_when_the_last_page_has_closed_and_not_before()
    {
        await using var page = await ServedPage.StartAsync();
        var first = await page.Open();
        var second = await page.Open();
        first.Dispose();
        await Task.Delay(TimeSpan.FromSeconds(1)); // Three times as long as the ticks last after which it would end.
        Assert.False(page.Ended.IsCompleted);
        second.Dispose();
        await page.Ended;
    }

    private static StringContent JsonOf(string text) => new(text, System.Text.Encoding.UTF8, "application/json");
}
