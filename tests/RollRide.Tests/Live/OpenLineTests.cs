using System.Net;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json.Nodes;
using RollRide.Live;
using RollRide.Live.Answers;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Live;

/// <summary>The line that stays open between page and server.</summary>
public sealed class OpenLineTests
{
    [Fact]
    public async Task Question_on_the_line_has_the_answer_of_a_request()
    {
        await using var page = await ServedPage.StartAsync(new LiveScenario(Shipped.Scenario("bump-then-corner.json")));
        using var line = await AskedLine.OpenAsync(page.Address, ("Origin", page.Address.GetLeftPart(UriPartial.Authority)));
        foreach (var ask in (string[])["answer", "window", "verdict"])
        {
            using var requested = await page.Post(ask, """{"id":3}""");
            var answer = await line.AskAsync(ask, """{"id":3}""");
            Assert.Equal(200, (int)answer["status"]!);
            Assert.Equal(JsonNode.Parse(await requested.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!.ToJsonString(), answer["answer"]!.ToJsonString());
        }
    }

    [Theory]
    [InlineData("no JSON", 400)]
    [InlineData("[]", 400)]
    [InlineData("{}", 400)]
    [InlineData("""{"number":1,"ask":"answer"}""", 400)]
    [InlineData("""{"number":1,"ask":"answer","request":[]}""", 400)]
    [InlineData("""{"number":1,"ask":"answer","request":{"a":1,"a":2}}""", 400)]
    [InlineData("""{"number":1,"ask":"nothing","request":{}}""", 404)]
    [InlineData("""{"number":1,"ask":"window","request":{}}""", 400)]
    [InlineData("""{"number":1,"ask":"verdict","request":{}}""", 500)]
    public async Task Message_that_cannot_be_answered_is_told_and_the_line_goes_on(string message, int status)
    {
        await using var page = await ServedPage.StartAsync();
        using var line = await AskedLine.OpenAsync(page.Address);
        await line.SendAsync(Encoding.UTF8.GetBytes(message));
        var told = (await line.ReceiveAsync())!;
        Assert.Equal(status, (int)told["status"]!);
        Assert.NotEmpty((string)told["error"]!);
        Assert.Equal(7, (int)(await line.AskAsync("answer", """{"id":7}"""))["answer"]!["id"]!);
    }

    [Fact]
    public async Task Message_longer_than_a_request_may_be_closes_the_line()
    {
        await using var page = await ServedPage.StartAsync();
        using var line = await AskedLine.OpenAsync(page.Address);
        Assert.Equal(200, (int)(await line.AskAsync("answer", $$"""{"a":"{{new string('x', LiveServer.LargestRequest - 1000)}}"}"""))["status"]!);
        await line.SendAsync("answer", $$"""{"a":"{{new string('x', LiveServer.LargestRequest)}}"}""");
        Assert.Null(await line.ReceiveAsync());
        Assert.Equal(HttpStatusCode.OK, (await page.Get("start")).StatusCode);
    }

    [Fact]
    public async Task Questions_of_one_line_are_answered_as_they_are_ready()
    {
        using var go = new ManualResetEventSlim();
        await using var page = await ServedPage.StartAsync(new ScenarioStub
        {
            Answering = (request, cancellation) =>
            {
                if (request.ContainsKey("slow"))
                    go.Wait(cancellation);
                return (JsonObject)request.DeepClone();
            },
        });
        using var line = await AskedLine.OpenAsync(page.Address);
        var slow = await line.SendAsync("answer", """{"slow":true}""");
        await line.AskAsync("answer", "{}");
        go.Set();
        Assert.Equal(slow, (int)(await line.ReceiveAsync())!["number"]!);
    }

    [Fact]
    public async Task Work_for_a_page_that_has_gone_is_stopped()
    {
        var (begun, stopped) = (new TaskCompletionSource(), new TaskCompletionSource());
        await using var page = await ServedPage.StartAsync(ScenarioStub.Endless(begun, stopped));
        using (var line = await AskedLine.OpenAsync(page.Address))
        {
            await line.SendAsync("answer", "{}");
            await begun.Task.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);
        }

        await stopped.Task.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task One_question_too_many_at_once_is_refused()
    {
        using var go = new ManualResetEventSlim();
        using var begun = new CountdownEvent(LiveApplication.MostComputing);
        await using var page = await ServedPage.StartAsync(ScenarioStub.Held(begun, go));
        using var line = await AskedLine.OpenAsync(page.Address);
        for (var i = 0; i < LiveApplication.MostComputing; i++)
            await line.SendAsync("answer", "{}");
        await Task.Run(begun.Wait, TestContext.Current.CancellationToken);
        Assert.Equal(429, (int)(await line.AskAsync("answer", "{}"))["status"]!);
        go.Set();
        for (var i = 0; i < LiveApplication.MostComputing; i++)
            Assert.Equal(200, (int)(await line.ReceiveAsync())!["status"]!);
    }

    [Fact]
    public async Task One_line_too_many_is_refused_and_its_page_asks_by_requests()
    {
        await using var page = await ServedPage.StartAsync();
        var lines = new List<AskedLine>();
        try
        {
            for (var i = 0; i < LiveServer.MostLines; i++)
                lines.Add(await AskedLine.OpenAsync(page.Address));
            var refused = await Assert.ThrowsAsync<WebSocketException>(() => AskedLine.OpenAsync(page.Address));
            Assert.Contains("503", refused.Message, StringComparison.Ordinal);
            Assert.Equal(HttpStatusCode.OK, (await page.Post("answer", "{}")).StatusCode);
        }
        finally
        {
            lines.ForEach(line => line.Dispose());
        }
    }

    [Fact]
    public async Task Line_is_open_to_the_page_alone()
    {
        await using var page = await ServedPage.StartAsync();
        await ServedPage.Refused(HttpStatusCode.UpgradeRequired, await page.Get("line"));
        await Assert.ThrowsAsync<WebSocketException>(() => AskedLine.OpenAsync(page.Address, ("Origin", "http://evil.example")));
        await Assert.ThrowsAsync<WebSocketException>(() => AskedLine.OpenAsync(page.Address, ("Host", "evil.example")));
        await Assert.ThrowsAsync<WebSocketException>(() => AskedLine.OpenAsync(new Uri(page.Address, "/0123456789abcdef0123456789abcdef/")));
    }
}
