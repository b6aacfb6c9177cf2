using System.Globalization;
using System.Net;
using System.Text;
using RollRide.Live.Answers;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Live;

/// <summary>
/// The server survives whatever is sent to it. A share of the requests each time; ROLLRIDE_REQUESTS says how many more, of which continuous integration
/// sends 10,000.
/// </summary>
public class MalformedRequestsTests
{
    // Half of the lines that the server takes.
    private const int AtOnce = 32;

    // Many of the requests end too early: the server waits for their rest.
    private static readonly TimeSpan Silence = TimeSpan.FromSeconds(0.25);

    private static readonly int Count = int.Parse(Environment.GetEnvironmentVariable("ROLLRIDE_REQUESTS") ?? "300", CultureInfo.InvariantCulture);

    [Fact]
    public async Task Server_answers_after_any_number_of_malformed_requests_and_none_is_its_own_fault()
    {
        using var folder = new TemporaryFolder();
        foreach (var name in (string[])["bump-then-corner.json", "valley-damper-dyno.csv"])
            File.Copy(Shipped.Scenario(name), folder[name]);
        var before = folder.Entries;
        await using var page = await ServedPage.StartAsync(new LiveScenario(folder["bump-then-corner.json"]));
        var requests = new MalformedRequests(page.Address, seed: 1);
        var faults = new List<string>();
        var answered = 0;
        foreach (var batch in Enumerable.Range(0, Count).Select(_ => requests.Next()).Chunk(AtOnce))
        {
            foreach (var (request, answer) in batch.Zip(await Task.WhenAll(batch.Select(request => page.Raw(request, Silence)))))
            {
                answered += answer.StartsWith("HTTP/1.1 ", StringComparison.Ordinal) ? 1 : 0;
                if (answer.StartsWith("HTTP/1.1 500", StringComparison.Ordinal) || answer.Contains("   at ", StringComparison.Ordinal))
                    faults.Add($"{Encoding.Latin1.GetString(request)}\n→ {answer}");
            }
        }

        Assert.True(faults.Count == 0, string.Join("\n\n", faults.Take(5)));
        Assert.InRange(answered, Count / 2, Count);
        Assert.Equal(HttpStatusCode.OK, (await page.Get("start")).StatusCode);
        Assert.Equal(before, folder.Entries);
    }

    [Fact]
    public async Task Open_line_answers_each_malformed_message_and_none_is_its_own_fault()
    {
        using var folder = new TemporaryFolder();
        foreach (var name in (string[])["bump-then-corner.json", "valley-damper-dyno.csv"])
            File.Copy(Shipped.Scenario(name), folder[name]);
        var before = folder.Entries;
        await using var page = await ServedPage.StartAsync(new LiveScenario(folder["bump-then-corner.json"]));
        using var line = await AskedLine.OpenAsync(page.Address);
        var messages = new MalformedRequests(page.Address, seed: 2);
        for (var i = 0; i < Count; i++)
        {
            var message = messages.NextMessage();
            await line.SendAsync(message, System.Net.WebSockets.WebSocketMessageType.Binary);
            var told = await line.ReceiveAsync();
            Assert.True((int)told!["status"]! is not 500, $"{Encoding.Latin1.GetString(message)}\n→ {told.ToJsonString()}");
        }

        Assert.Equal(200, (int)(await line.AskAsync("answer", "{}"))["status"]!);
        Assert.Equal(before, folder.Entries);
    }
}
