using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace RollRide.Tests.Live;

/// <summary>A page in a browser, driven by real pointer and key events.</summary>
/// <param name="browser">The browser that shows it.</param>
/// <param name="target">What the browser calls the page.</param>
/// <param name="session">What the browser calls the connection to the page.</param>
internal sealed class BrowserPage(BrowserProcess browser, string target, string session) : IAsyncDisposable
{
    private readonly ConcurrentQueue<string> _complaints = new();

    /// <summary>What the browser complained of: scripts that failed, errors on the console, what the page's security policy refused.</summary>
    public IReadOnlyCollection<string> Complaints => _complaints;

    /// <summary>Readies a page that was just made.</summary>
    public async Task PrepareAsync(int width, int height, string? script)
    {
        foreach (var domain in (string[])["Page", "Runtime", "Log"])
            await SendAsync($"{domain}.enable");

        // Keys and focus as in the foremost window, whichever that is.
        await SendAsync("Emulation.setFocusEmulationEnabled", new JsonObject { ["enabled"] = true });
        await SetSizeAsync(width, height);
        await SetMediaAsync("", isDark: false);
        if (script is not null)
            await SendAsync("Page.addScriptToEvaluateOnNewDocument", new JsonObject { ["source"] = script });
    }

    /// <summary>Opens another address, or the same one anew.</summary>
    public async Task GoToAsync(string address)
    {
        await SendAsync("Page.navigate", new JsonObject { ["url"] = address });
        await WaitForAsync("document.readyState === 'complete' && location.href !== 'about:blank'");
    }

    /// <summary>The size of the page, pixels.</summary>
    public Task SetSizeAsync(int width, int height) => SendAsync("Emulation.setDeviceMetricsOverride", new JsonObject
    {
        ["width"] = width,
        ["height"] = height,
        ["deviceScaleFactor"] = 1,
        ["mobile"] = false,
    });

    /// <summary>What the page is shown on: <c>screen</c>, <c>print</c>, or either as it is used if empty; and light or dark.</summary>
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
    public async Task WaitForAsync(string expression)
    {
        for (var waited = Stopwatch.StartNew(); waited.Elapsed < BrowserProcess.Patience; await Task.Delay(10))
        {
            if (await EvaluateAsync($"!!({expression})") is JsonValue value && value.GetValueKind() == JsonValueKind.True)
                return;
        }

        throw new TimeoutException($"The page did not come to: {expression}. Complaints: {string.Join("; ", Complaints)}");
    }

    /// <summary>Waits until what has changed is drawn.</summary>
    public Task FrameAsync() => EvaluateAsync("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))");

    /// <summary>The middle of an element in the page's view, pixels.</summary>
    public async Task<(double X, double Y)> MiddleOfAsync(string selector)
    {
        var box = await EvaluateAsync($"(() => {{ const b = document.querySelector({Quoted(selector)}).getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; }})()");
        return ((double)box![0]!, (double)box[1]!);
    }

    /// <summary>Clicks the middle of an element.</summary>
    public async Task ClickAsync(string selector)
    {
        var (x, y) = await MiddleOfAsync(selector);
        await PressAsync(x, y);
        await ReleaseAsync(x, y);
    }

    /// <summary>Presses the pointer's button.</summary>
    public async Task PressAsync(double x, double y)
    {
        await HoverAsync(x, y);
        await PointerAsync("mousePressed", x, y, isDown: true);
    }

    /// <summary>Moves the pointer over the middle of an element.</summary>
    public async Task HoverAsync(string selector)
    {
        var (x, y) = await MiddleOfAsync(selector);
        await HoverAsync(x, y);
    }

    /// <summary>Moves the pointer over the page, with no button held.</summary>
    public Task HoverAsync(double x, double y) => PointerAsync("mouseMoved", x, y, isDown: false);

    /// <summary>Moves the pointer with its button held down.</summary>
    public Task MoveAsync(double x, double y) => PointerAsync("mouseMoved", x, y, isDown: true);

    /// <summary>Lets go of the pointer's button.</summary>
    public Task ReleaseAsync(double x, double y) => PointerAsync("mouseReleased", x, y, isDown: false);

    /// <summary>Presses a key and lets it go.</summary>
    /// <param name="key">Its name, such as <c>ArrowLeft</c>, <c>Tab</c>, <c>Enter</c> or <c>z</c>.</param>
    /// <param name="withControl">With the control key.</param>
    /// <param name="withShift">With the shift key.</param>
    public async Task KeyAsync(string key, bool withControl = false, bool withShift = false)
    {
        foreach (var type in (string[])["keyDown", "keyUp"])
        {
            var pressed = new JsonObject
            {
                ["type"] = type,
                ["key"] = key,
                ["code"] = key.Length == 1 ? $"Key{char.ToUpperInvariant(key[0])}" : key,
                ["windowsVirtualKeyCode"] = NumberOf(key),
                ["modifiers"] = (withControl ? 2 : 0) + (withShift ? 8 : 0),
            };
            if (type == "keyDown" && key == "Enter")
                pressed["text"] = "\r";
            await SendAsync("Input.dispatchKeyEvent", pressed);
        }
    }

    /// <summary>Types a text where the focus is.</summary>
    public Task TypeAsync(string text) => SendAsync("Input.insertText", new JsonObject { ["text"] = text });

    /// <summary>The page as the accessibility interface of the operating system is given it: role and name of each element that can have the focus.</summary>
    public async Task<IReadOnlyList<(string Role, string Name)>> FocusableAsync()
    {
        // Only for this: a browser that keeps the tree up to date takes longer for every change of the page.
        await SendAsync("Accessibility.enable");
        var tree = await SendAsync("Accessibility.getFullAXTree");
        await SendAsync("Accessibility.disable");
        return [.. tree!["nodes"]!.AsArray()
            .Where(node => !(bool)node!["ignored"]! && node["properties"]?.AsArray().Any(property => (string?)property!["name"] == "focusable" && (bool)property["value"]!["value"]!) == true)
            .Select(node => ((string?)node!["role"]?["value"] ?? "", (string?)node["name"]?["value"] ?? ""))];
    }

    /// <summary>A picture of the page, PNG.</summary>
    public async Task<byte[]> PictureAsync() =>
        Convert.FromBase64String((string)(await SendAsync("Page.captureScreenshot", new JsonObject { ["format"] = "png" }))!["data"]!);

    /// <summary>The page as it prints, PDF.</summary>
    public async Task<byte[]> PrintAsync() =>
        Convert.FromBase64String((string)(await SendAsync("Page.printToPDF", new JsonObject { ["preferCSSPageSize"] = true }))!["data"]!);

    /// <summary>Memory that the page's script holds after its garbage was collected, bytes.</summary>
    public async Task<double> HeapAsync()
    {
        await SendAsync("HeapProfiler.collectGarbage");
        return (double)(await SendAsync("Runtime.getHeapUsage"))!["usedSize"]!;
    }

    /// <summary>Closes the page.</summary>
    public async ValueTask DisposeAsync() => await browser.CloseAsync(target, session);

    /// <summary>Takes what the browser tells of the page.</summary>
    public void Hear(string method, JsonNode parameters)
    {
        switch (method)
        {
            case "Runtime.exceptionThrown":
                var details = parameters["exceptionDetails"]!;
                _complaints.Enqueue($"{details["exception"]?["description"] ?? details["text"]}");
                break;
            case "Runtime.consoleAPICalled" when (string?)parameters["type"] is "error" or "warning" or "assert":
                _complaints.Enqueue($"console: {parameters["args"]!.ToJsonString()}");
                break;
            case "Log.entryAdded" when (string?)parameters["entry"]!["level"] is "error" or "warning":
                _complaints.Enqueue($"log: {parameters["entry"]!["text"]} {parameters["entry"]!["url"]}");
                break;
        }
    }

    internal static string Quoted(string text) => JsonSerializer.Serialize(text);

    private Task<JsonNode?> SendAsync(string method, JsonObject? parameters = null) => browser.SendAsync(method, parameters, session);

    private Task<JsonNode?> PointerAsync(string type, double x, double y, bool isDown) => SendAsync("Input.dispatchMouseEvent", new JsonObject
    {
        ["type"] = type,
        ["x"] = x,
        ["y"] = y,
        ["button"] = type == "mouseMoved" && !isDown ? "none" : "left",
        ["buttons"] = isDown ? 1 : 0,
        ["clickCount"] = 1,
    });

    private static int NumberOf(string key) => key switch
    {
        "Tab" => 9,
        "Enter" => 13,
        "Escape" => 27,
        "ArrowLeft" => 37,
        "ArrowUp" => 38,
        "ArrowRight" => 39,
        "ArrowDown" => 40,
        _ when key.Length == 1 => char.ToUpperInvariant(key[0]),
        _ => throw new ArgumentOutOfRangeException(nameof(key), key, "The tests press no such key yet."),
    };
}
