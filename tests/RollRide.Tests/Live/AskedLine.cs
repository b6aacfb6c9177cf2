using System.Net.WebSockets;
using System.Text;
using System.Text.Json.Nodes;

namespace RollRide.Tests.Live;

/// <summary>A line to the server that stays open, as a page has it.</summary>
internal sealed class AskedLine : IDisposable
{
    // Far more than any answer takes; a test that hangs ends with it.
    private readonly CancellationTokenSource _longest = new(TimeSpan.FromSeconds(60));
    private readonly ClientWebSocket _socket = new();
    private int _last;

    private AskedLine()
    {
    }

    /// <summary>Opens a line to a page's server.</summary>
    /// <exception cref="WebSocketException">It is refused.</exception>
    public static async Task<AskedLine> OpenAsync(Uri page, params (string Name, string Value)[] headers)
    {
        var line = new AskedLine();
        foreach (var (name, value) in headers)
            line._socket.Options.SetRequestHeader(name, value);
        await line._socket.ConnectAsync(new UriBuilder(new Uri(page, "line")) { Scheme = "ws" }.Uri, line._longest.Token);
        return line;
    }

    /// <summary>Sends a question.</summary>
    /// <returns>Its number.</returns>
    public async Task<int> SendAsync(string ask, string request)
    {
        await SendAsync(Encoding.UTF8.GetBytes($$"""{"number":{{++_last}},"ask":"{{ask}}","request":{{request}}}"""));
        return _last;
    }

    /// <summary>Sends a message as it is.</summary>
    public Task SendAsync(byte[] message, WebSocketMessageType type = WebSocketMessageType.Text) => _socket.SendAsync(message, type, endOfMessage: true, _longest.Token);

    /// <summary>The next message; null once the server has closed the line.</summary>
    public async Task<JsonObject?> ReceiveAsync()
    {
        using var message = new MemoryStream();
        var buffer = new byte[1 << 16];
        try
        {
            WebSocketReceiveResult part;
            do
            {
                part = await _socket.ReceiveAsync(buffer, _longest.Token);
                message.Write(buffer, 0, part.Count);
            }
            while (!part.EndOfMessage);
            return part.MessageType == WebSocketMessageType.Close ? null : (JsonObject)JsonNode.Parse(message.ToArray())!;
        }
        catch (WebSocketException)
        {
            return null;
        }
    }

    /// <summary>Asks, and waits for the answer.</summary>
    public async Task<JsonObject> AskAsync(string ask, string request)
    {
        var number = await SendAsync(ask, request);
        var answer = (await ReceiveAsync())!;
        Assert.Equal(number, (int)answer["number"]!);
        return answer;
    }

    public void Dispose()
    {
        _socket.Dispose();
        _longest.Dispose();
    }
}
