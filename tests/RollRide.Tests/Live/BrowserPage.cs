using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net.WebSockets;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace RollRide.Tests.Live;

/// <summary>A page in a browser without a window, driven by real pointer and key events over the browser's debugging protocol.</summary>
/// <remarks>The protocol is Chromium's own (Chrome DevTools Protocol, stable domains). Only what the tests and the benchmark need of it is here.</remarks>
internal sealed class BrowserPage : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Process _browser;
    private readonly ClientWebSocket _socket = new();
    private readonly SemaphoreSlim _sending = new(1);
    private readonly ConcurrentDictionary<int, TaskCompletionSource<JsonNode?>> _asked = new();
    private readonly ConcurrentQueue<string> _complaints = new();
    private readonly CancellationTokenSource _closing = new();
    private Task _receiving = Task.CompletedTask;
    private string? _session;
    private int _last;

    private BrowserPage(Process browser) => _browser = browser;

    /// <summary>What the browser complained of: scripts that failed, errors on the console, what the page's security policy refused.</summary>
    public IReadOnlyCollection<string> Complaints => _complaints;

    /// <summary>Starts a browser and opens a page in it.</summary>
    /// <param name="browser">The browser's program.</param>
    /// <param name="address">The page's address.</param>
    /// <param name="profile">A folder for the browser's own files.</param>
    /// <param name="width">Width of the page, pixels.</param>
    /// <param name="height">Height of the page, pixels.</param>
    /// <param name="cancellation">Stops waiting.</param>
    public static async Task<BrowserPage> OpenAsync(string browser, string address, string profile, int width, int height, CancellationToken cancellation)
    {
        var start = new ProcessStartInfo(browser) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in (string[])
        [
            "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
            "--disable-sync", "--remote-debugging-port=0", $"--window-size={width},{height}", $"--user-data-dir={profile}", "about:blank",
        ])
        {
            start.ArgumentList.Add(argument);
        }

        var process = Process.Start(start)!;
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        var page = new BrowserPage(process);
        try
        {
            await page.ConnectAsync(Path.Combine(profile, "DevToolsActivePort"), cancellation);
            var target = await page.SendAsync("Target.createTarget", new JsonObject { ["url"] = "about:blank" });
            var attached = await page.SendAsync("Target.attachToTarget", new JsonObject { ["targetId"] = (string)target!["targetId"]!, ["flatten"] = true });
            page._session = (string)attached!["sessionId"]!;
            foreach (var domain in (string[])["Page", "Runtime", "Log", "Accessibility", "DOM"])
                await page.SendAsync($"{domain}.enable");
            await page.SetSizeAsync(width, height);
            await page.GoToAsync(address, cancellation);
            return page;
        }
        catch
        {
            await page.DisposeAsync();
            throw;
        }
    }

    /// <summary>Opens another address, or the same one anew.</summary>
    public async Task GoToAsync(string address, CancellationToken cancellation)
    {
        await SendAsync("Page.navigate", new JsonObject { ["url"] = address });
        await WaitForAsync("document.readyState === 'complete' && location.href !== 'about:blank'", cancellation);
    }

    /// <summary>The size of the page, pixels.</summary>
    public Task SetSizeAsync(int width, int height) => SendAsync("Emulation.setDeviceMetricsOverride", new JsonObject
    {
        ["width"] = width,
        ["height"] = height,
        ["deviceScaleFactor"] = 1,
        ["mobile"] = false,
    });

    /// <summary>What the page is shown on: <c>screen</c> or <c>print</c>, and light or dark.</summary>
    public Task SetMediaAsync(string media, bool isDark) => SendAsync("Emulation.setEmulatedMedia", new JsonObject
    {
        ["media"] = media,
        ["features"] = new JsonArray(new JsonObject { ["name"] = "prefers-color-scheme", ["value"] = isDark ? "dark" : "light" }),
    });

    /// <summary>The value of an expression of the page's script, awaited if it is a promise.</summary>
    /// <exception cref="InvalidOperationException">The script failed; the message says how.</exception>
    public async Task<JsonNode?> EvaluateAsync(string expression)
    {
        var answer = await SendAsync("Runtime.evaluate", new JsonObject { ["expression"] = expression, ["awaitPromise"] = true, ["returnByValue"] = true });
        return answer!["exceptionDetails"] is { } failed
            ? throw new InvalidOperationException($"{expression}: {failed["exception"]?["description"] ?? failed["text"]}")
            : answer["result"]!["value"];
    }

    /// <summary>Waits until an expression is true.</summary>
    /// <exception cref="TimeoutException">It did not become true.</exception>
    public async Task WaitForAsync(string expression, CancellationToken cancellation)
    {
        for (var waited = Stopwatch.StartNew(); waited.Elapsed < Patience; await Task.Delay(20, cancellation))
        {
            if (await EvaluateAsync($"!!({expression})") is JsonValue value && value.GetValueKind() == JsonValueKind.True)
                return;
        }

        throw new TimeoutException($"The page did not come to: {expression}. Complaints: {string.Join("; ", Complaints)}");
    }

    /// <summary>The middle of an element in the page's view, pixels.</summary>
    public async Task<(double X, double Y)> MiddleOfAsync(string selector)
    {
        var box = await EvaluateAsync($"(() => {{ const e = document.querySelector({Quoted(selector)}); const b = e.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; }})()");
        return ((double)box![0]!, (double)box[1]!);
    }

    /// <summary>Clicks the middle of an element.</summary>
    public async Task ClickAsync(string selector)
    {
        var (x, y) = await MiddleOfAsync(selector);
        await PointerAsync("mouseMoved", x, y, isDown: false);
        await PointerAsync("mousePressed", x, y, isDown: true);
        await PointerAsync("mouseReleased", x, y, isDown: false);
    }

    /// <summary>Drags an element by its middle, in equal steps.</summary>
    public async Task DragAsync(string selector, double right, double down, int steps)
    {
        var (x, y) = await MiddleOfAsync(selector);
        await PressAsync(x, y);
        for (var i = 1; i <= steps; i++)
            await MoveAsync(x + right * i / steps, y + down * i / steps);
        await ReleaseAsync(x + right, y + down);
    }

    /// <summary>Presses the pointer's button.</summary>
    public async Task PressAsync(double x, double y)
    {
        await PointerAsync("mouseMoved", x, y, isDown: false);
        await PointerAsync("mousePressed", x, y, isDown: true);
    }

    /// <summary>Moves the pointer with its button held down.</summary>
    public Task MoveAsync(double x, double y) => PointerAsync("mouseMoved", x, y, isDown: true);

    /// <summary>Lets go of the pointer's button.</summary>
    public Task ReleaseAsync(double x, double y) => PointerAsync("mouseReleased", x, y, isDown: false);

    private Task PointerAsync(string type, double x, double y, bool isDown) => SendAsync("Input.dispatchMouseEvent", new JsonObject
    {
        ["type"] = type,
        ["x"] = x,
        ["y"] = y,
        ["button"] = type == "mouseMoved" && !isDown ? "none" : "left",
        ["buttons"] = isDown ? 1 : 0,
        ["clickCount"] = 1,
    });

    /// <summary>Presses a key and lets it go.</summary>
    /// <param name="key">Its name, such as <c>ArrowLeft</c>, <c>Tab</c>, <c>Enter</c> or <c>z</c>.</param>
    /// <param name="withControl">With the control key.</param>
    /// <param name="withShift">With the shift key.</param>
    public async Task KeyAsync(string key, bool withControl = false, bool withShift = false)
    {
        var modifiers = (withControl ? 2 : 0) + (withShift ? 8 : 0);
        foreach (var type in (string[])["keyDown", "keyUp"])
        {
            var pressed = new JsonObject { ["type"] = type, ["key"] = key, ["code"] = CodeOf(key), ["windowsVirtualKeyCode"] = NumberOf(key), ["modifiers"] = modifiers };
            if (type == "keyDown" && TextOf(key) is { } text && !withControl)
                pressed["text"] = text;
            await SendAsync("Input.dispatchKeyEvent", pressed);
        }
    }

    /// <summary>Types a text where the focus is.</summary>
    public Task TypeAsync(string text) => SendAsync("Input.insertText", new JsonObject { ["text"] = text });

    private static string CodeOf(string key) => key.Length > 1 ? key : char.IsAsciiLetter(key[0]) ? $"Key{char.ToUpperInvariant(key[0])}" : key == " " ? "Space" : $"Digit{key}";

    private static string? TextOf(string key) => key.Length == 1 ? key : key == "Enter" ? "\r" : null;

    private static int NumberOf(string key) => key switch
    {
        "Tab" => 9,
        "Enter" => 13,
        "Escape" => 27,
        "PageUp" => 33,
        "PageDown" => 34,
        "End" => 35,
        "Home" => 36,
        "ArrowLeft" => 37,
        "ArrowUp" => 38,
        "ArrowRight" => 39,
        "ArrowDown" => 40,
        "Delete" => 46,
        _ when key.Length == 1 => char.ToUpperInvariant(key[0]),
        _ => throw new ArgumentOutOfRangeException(nameof(key), key, "The tests press no such key yet."),
    };

    /// <summary>The page as the accessibility interface of the operating system is given it: role and name of each element that is not left out.</summary>
    public async Task<IReadOnlyList<(string Role, string Name, bool CanHaveFocus)>> AccessibilityAsync()
    {
        var tree = await SendAsync("Accessibility.getFullAXTree");
        return [.. tree!["nodes"]!.AsArray()
            .Where(node => !(bool)node!["ignored"]!)
            .Select(node => (
                (string?)node!["role"]?["value"] ?? "",
                (string?)node["name"]?["value"] ?? "",
                node["properties"]?.AsArray().Any(property => (string?)property!["name"] == "focusable" && (bool)property["value"]!["value"]!) ?? false))];
    }

    /// <summary>A picture of the page, PNG.</summary>
    public async Task<byte[]> PictureAsync() =>
        Convert.FromBase64String((string)(await SendAsync("Page.captureScreenshot", new JsonObject { ["format"] = "png" }))!["data"]!);

    /// <summary>The page as it prints, PDF.</summary>
    public async Task<byte[]> PrintAsync() =>
        Convert.FromBase64String((string)(await SendAsync("Page.printToPDF", new JsonObject { ["landscape"] = true, ["preferCSSPageSize"] = true }))!["data"]!);

    /// <summary>Memory that the page's script holds after its garbage was collected, bytes.</summary>
    public async Task<double> HeapAsync()
    {
        await SendAsync("HeapProfiler.collectGarbage");
        return (double)(await SendAsync("Runtime.getHeapUsage"))!["usedSize"]!;
    }

    /// <summary>Sends a command of the protocol and gives back its result.</summary>
    /// <exception cref="InvalidOperationException">The browser refused it.</exception>
    public async Task<JsonNode?> SendAsync(string method, JsonObject? parameters = null)
    {
        var id = Interlocked.Increment(ref _last);
        var message = new JsonObject { ["id"] = id, ["method"] = method, ["params"] = parameters ?? [] };
        if (_session is not null)
            message["sessionId"] = _session;
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
        await _closing.CancelAsync();
        _browser.Kill(entireProcessTree: true);
        await _browser.WaitForExitAsync();
        await _receiving;
        _browser.Dispose();
        _socket.Dispose();
        _sending.Dispose();
        _closing.Dispose();
    }

    /// <summary>The browser writes its port and the path of its socket into a file of its profile once it listens.</summary>
    private async Task ConnectAsync(string portFile, CancellationToken cancellation)
    {
        string[] lines = [];
        for (var waited = Stopwatch.StartNew(); lines.Length < 2; await Task.Delay(20, cancellation))
        {
            if (_browser.HasExited || waited.Elapsed > Patience)
                throw new TimeoutException("The browser does not listen for commands.");
            if (File.Exists(portFile))
                lines = await File.ReadAllLinesAsync(portFile, cancellation);
        }

        await _socket.ConnectAsync(new Uri(string.Create(CultureInfo.InvariantCulture, $"ws://127.0.0.1:{lines[0]}{lines[1]}")), cancellation);
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
        if ((int?)message["id"] is { } id)
        {
            if (!_asked.TryRemove(id, out var waiting))
                return;
            if (message["error"] is { } error)
                waiting.TrySetException(new InvalidOperationException(error.ToJsonString()));
            else
                waiting.TrySetResult(message["result"]);
            return;
        }

        switch ((string?)message["method"])
        {
            case "Runtime.exceptionThrown":
                var details = message["params"]!["exceptionDetails"]!;
                _complaints.Enqueue($"{details["exception"]?["description"] ?? details["text"]}");
                break;
            case "Runtime.consoleAPICalled" when (string?)message["params"]!["type"] is "error" or "assert":
                _complaints.Enqueue($"console: {message["params"]!["args"]!.ToJsonString()}");
                break;
            case "Log.entryAdded" when (string?)message["params"]!["entry"]!["level"] == "error":
                _complaints.Enqueue($"log: {message["params"]!["entry"]!["text"]} {message["params"]!["entry"]!["url"]}");
                break;
        }
    }

    private static string Quoted(string text) => JsonSerializer.Serialize(text);
}
