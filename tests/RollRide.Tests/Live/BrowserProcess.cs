using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net.WebSockets;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace RollRide.Tests.Live;

/// <summary>A browser without a window, which opens pages and takes commands for them over its debugging protocol.</summary>
/// <remarks>The protocol is Chromium's own (Chrome DevTools Protocol, stable domains). Only what the tests and the benchmark need of it is here.</remarks>
internal sealed class BrowserProcess : IAsyncDisposable
{
    /// <summary>Far longer than any answer takes; what hangs ends with it.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Process _browser;
    private readonly ClientWebSocket _socket = new();
    private readonly SemaphoreSlim _sending = new(1);
    private readonly ConcurrentDictionary<int, TaskCompletionSource<JsonNode?>> _asked = new();
    private readonly ConcurrentDictionary<string, Action<string, JsonNode>> _listeners = new();
    private readonly CancellationTokenSource _closing = new();
    private Task _receiving = Task.CompletedTask;
    private int _last;

    private BrowserProcess(Process browser) => _browser = browser;

    /// <summary>Starts a browser.</summary>
    /// <param name="program">The browser's program.</param>
    /// <param name="profile">A folder for the browser's own files.</param>
    public static async Task<BrowserProcess> StartAsync(string program, string profile)
    {
        // Pages behind the newest one are drawn as it is.
        var start = new ProcessStartInfo(
            program,
            [.. Chromium.Arguments(profile, 1400, 900), "--disable-renderer-backgrounding", "--disable-backgrounding-occluded-windows", "--disable-background-timer-throttling", "--remote-debugging-port=0", "about:blank"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        var process = Process.Start(start)!;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        var browser = new BrowserProcess(process);
        try
        {
            await browser.ConnectAsync(Path.Combine(profile, "DevToolsActivePort"));
            return browser;
        }
        catch
        {
            await browser.DisposeAsync();
            throw;
        }
    }

    /// <summary>Opens a page in a window of its own.</summary>
    /// <param name="address">The page's address.</param>
    /// <param name="width">Width of the page, pixels.</param>
    /// <param name="height">Height of the page, pixels.</param>
    /// <param name="script">A script that runs before the page's own.</param>
    public async Task<BrowserPage> OpenAsync(string address, int width, int height, string? script = null)
    {
        var target = (string)(await SendAsync("Target.createTarget", new JsonObject { ["url"] = "about:blank", ["newWindow"] = true }))!["targetId"]!;
        var session = (string)(await SendAsync("Target.attachToTarget", new JsonObject { ["targetId"] = target, ["flatten"] = true }))!["sessionId"]!;
        var page = new BrowserPage(this, target, session);
        _listeners[session] = page.Hear;
        await page.PrepareAsync(width, height, script);
        await page.GoToAsync(address);
        return page;
    }

    /// <summary>Closes a page.</summary>
    public async Task CloseAsync(string target, string session)
    {
        await SendAsync("Target.closeTarget", new JsonObject { ["targetId"] = target });
        _listeners.TryRemove(session, out _);
    }

    /// <summary>Sends a command of the protocol, to a page if its session is given, and gives back the result.</summary>
    /// <exception cref="InvalidOperationException">The browser refused it.</exception>
    public async Task<JsonNode?> SendAsync(string method, JsonObject? parameters = null, string? session = null)
    {
        var id = Interlocked.Increment(ref _last);
        var message = new JsonObject { ["id"] = id, ["method"] = method, ["params"] = parameters ?? [] };
        if (session is not null)
            message["sessionId"] = session;
        var answer = _asked[id] = new TaskCompletionSource<JsonNode?>(TaskCreationOptions.RunContinuationsAsynchronously);
        await _sending.WaitAsync(_closing.Token);
        try
        {
            await _socket.SendAsync(JsonSerializer.SerializeToUtf8Bytes(message), WebSocketMessageType.Text, endOfMessage: true, _closing.Token);
        }
        finally
        {
            _sending.Release();
        }

        return await answer.Task.WaitAsync(Patience);
    }

    /// <summary>Ends the browser.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_socket.State == WebSocketState.Open)
        {
            try
            {
                // Closed in its own way it leaves no process that still writes into its folder.
                await SendAsync("Browser.close");
                await _browser.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(10));
            }
            catch (Exception e) when (e is InvalidOperationException or TimeoutException or WebSocketException)
            {
                // It is killed below.
            }
        }

        await _closing.CancelAsync();
        if (!_browser.HasExited)
            _browser.Kill(entireProcessTree: true);
        await _browser.WaitForExitAsync();
        await _receiving;
        _browser.Dispose();
        _socket.Dispose();
        _sending.Dispose();
        _closing.Dispose();
    }

    /// <summary>The browser writes its port and the path of its socket into a file of its profile once it listens.</summary>
    private async Task ConnectAsync(string portFile)
    {
        string[] lines = [];
        for (var waited = Stopwatch.StartNew(); lines.Length < 2; await Task.Delay(20))
        {
            if (_browser.HasExited || waited.Elapsed > Patience)
                throw new TimeoutException("The browser does not listen for commands.");
            if (File.Exists(portFile))
                lines = await File.ReadAllLinesAsync(portFile);
        }

        await _socket.ConnectAsync(new Uri(string.Create(CultureInfo.InvariantCulture, $"ws://127.0.0.1:{lines[0]}{lines[1]}")), _closing.Token);
        _receiving = ReceiveAsync();
    }

    private async Task ReceiveAsync()
    {
        var buffer = new byte[1 << 16];
        using var message = new MemoryStream();
        try
        {
            while (true)
            {
                message.SetLength(0);
                ValueWebSocketReceiveResult part;
                do
                {
                    part = await _socket.ReceiveAsync(buffer.AsMemory(), _closing.Token);
                    message.Write(buffer, 0, part.Count);
                }
                while (!part.EndOfMessage);
                if (part.MessageType == WebSocketMessageType.Close)
                    break;
                Take(JsonNode.Parse(message.ToArray())!);
            }
        }
        catch (Exception e) when (e is WebSocketException or OperationCanceledException)
        {
            // The browser has gone; whoever still waits is told below.
        }

        foreach (var waiting in _asked.Values)
            waiting.TrySetException(new InvalidOperationException("The browser has gone."));
    }

    private void Take(JsonNode message)
    {
        if ((int?)message["id"] is not { } id)
        {
            if ((string?)message["sessionId"] is { } session && _listeners.TryGetValue(session, out var listener))
                listener((string)message["method"]!, message["params"]!);
            return;
        }

        if (!_asked.TryRemove(id, out var waiting))
            return;
        if (message["error"] is { } error)
            waiting.TrySetException(new InvalidOperationException(error.ToJsonString()));
        else
            waiting.TrySetResult(message["result"]);
    }
}
