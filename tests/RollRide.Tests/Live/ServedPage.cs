using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using RollRide.Live;
using RollRide.Live.Answers;

namespace RollRide.Tests.Live;

/// <summary>A server with one client, which sends what a browser would.</summary>
internal sealed class ServedPage : IAsyncDisposable
{
    // Far more than any answer takes; a test that hangs ends with it.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(60);

    private readonly LiveServer _server;
    private readonly HttpClient _client;

    private ServedPage(LiveServer server) => (_server, _client) = (server, new HttpClient { BaseAddress = server.Address, Timeout = Longest });

    /// <summary>The page's address.</summary>
    public Uri Address => _server.Address;

    /// <summary>Ends when the server does.</summary>
    public Task Ended => _server.Ended.WaitAsync(Longest);

    /// <summary>Starts a server whose files are looked at every few milliseconds.</summary>
    public static async Task<ServedPage> StartAsync(ILiveScenario? scenario = null) =>
        new(await LiveServer.StartAsync(scenario ?? new ScenarioStub(), 0, TimeSpan.FromMilliseconds(5)));

    public async Task<HttpResponseMessage> Send(HttpMethod method, string path, string? json = null, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, path);
        if (json is not null)
            request.Content = new StringContent(json, Encoding.UTF8, "application/json");
        foreach (var (name, value) in headers)
            request.Headers.TryAddWithoutValidation(name, value);
        return await _client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
    }

    public Task<HttpResponseMessage> Get(string path, params (string Name, string Value)[] headers) => Send(HttpMethod.Get, path, null, headers);

    public Task<HttpResponseMessage> Post(string path, string json, params (string Name, string Value)[] headers) => Send(HttpMethod.Post, path, json, headers);

    public async Task<HttpResponseMessage> PostAs(string path, string type, byte[] body)
    {
        using var content = new ByteArrayContent(body);
        if (type.Length > 0)
            content.Headers.ContentType = MediaTypeHeaderValue.Parse(type);
        return await _client.PostAsync(path, content);
    }

    /// <summary>Asserts that a request is refused in the server's own words.</summary>
    public static async Task Refused(HttpStatusCode expected, HttpResponseMessage response)
    {
        using (response)
        {
            Assert.Equal(expected, response.StatusCode);
            var told = JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
            Assert.NotEmpty(told["error"]!.GetValue<string>());
        }
    }

    /// <summary>Opens the stream of events.</summary>
    public async Task<EventReader> Open(params (string Name, string Value)[] headers)
    {
        var response = await Get("events", headers);
        Assert.Equal("text/event-stream", response.Content.Headers.ContentType?.MediaType);
        return new EventReader(response, await response.Content.ReadAsStreamAsync(), Longest);
    }

    /// <summary>Sends bytes as they are, and gives back what came until the server closed the line.</summary>
    /// <param name="bytes">What is sent.</param>
    /// <param name="silence">After so long without an answer the sender ends, for a server that waits for more; a slow answer is lost by that. None to wait.</param>
    public async Task<string> Raw(byte[] bytes, TimeSpan? silence = null)
    {
        using var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
        await socket.ConnectAsync(IPAddress.Loopback, Address.Port);
        using var stop = new CancellationTokenSource(Longest);
        var answer = new StringBuilder();
        try
        {
            await socket.SendAsync(bytes, stop.Token);
            if (silence is { } patience)
            {
                using var silent = CancellationTokenSource.CreateLinkedTokenSource(stop.Token);
                silent.CancelAfter(patience);
                await Receive(silent.Token);
                socket.Shutdown(SocketShutdown.Send);
            }

            while (await Receive(stop.Token))
            {
            }
        }
        catch (SocketException)
        {
            // The server has closed in the middle.
        }

        return answer.ToString();

        async Task<bool> Receive(CancellationToken cancellation)
        {
            var buffer = new byte[4096];
            try
            {
                var count = await socket.ReceiveAsync(buffer, cancellation);
                answer.Append(Encoding.Latin1.GetString(buffer, 0, count));
                return count > 0;
            }
            catch (OperationCanceledException)
            {
                return false;
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        await _server.DisposeAsync();
    }
}
