using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Live;

/// <summary>The live page as its reader sees and handles it.</summary>
internal sealed class LivePage : IAsyncDisposable
{
    /// <summary>Leaves the page's rehearsal of a drag out: it takes as much processor time as most tests, and changes nothing.</summary>
    private const string Unrehearsed =
        "{ const { request } = LockManager.prototype; LockManager.prototype.request = function (name, ...more) { return name === 'rehearsal' ? Promise.resolve() : request.call(this, name, ...more); }; }\n";

    private const double FirstStep = 20;
    private const int Steps = 5;

    private LivePage(BrowserPage browser, ServedScenario served) => (Browser, Served) = (browser, served);

    /// <summary>The page in its browser.</summary>
    public BrowserPage Browser { get; }

    /// <summary>What is shown.</summary>
    public ServedScenario Served { get; }

    /// <summary>The scenario's folder.</summary>
    public TemporaryFolder Folder => Served.Folder;

    /// <summary>Opens the page and waits for its first figures.</summary>
    /// <param name="browser">Where it is opened.</param>
    /// <param name="served">What is shown.</param>
    /// <param name="address">The page's address, if it is not that of what is served.</param>
    /// <param name="script">A script that runs before the page's own.</param>
    /// <param name="isRehearsed">Whether the page rehearses a drag, as it does for its reader.</param>
    public static async Task<LivePage> OpenAsync(BrowserProcess browser, ServedScenario served, Uri? address = null, string script = "", bool isRehearsed = false)
    {
        var page = new LivePage(await browser.OpenAsync((address ?? served.Address).AbsoluteUri, 1400, 900, isRehearsed ? script : Unrehearsed + script), served);
        await page.SettleAsync();
        return page;
    }

    /// <summary>Waits until the figures answer the newest state and are drawn.</summary>
    public async Task SettleAsync()
    {
        await Browser.WaitForAsync("window.rollride?.app.start && !rollride.app.isBehind && Object.values(rollride.app.requests).every(request => request.isIdle)");
        await Browser.FrameAsync();
    }

    /// <summary>Waits until the verdict answers the newest state, too.</summary>
    public async Task<string> DecisionAsync()
    {
        // It waits for the hand to rest.
        await Task.Delay(200);
        await SettleAsync();
        return await TextAsync("#decision");
    }

    /// <summary>The text of an element; empty where it is hidden.</summary>
    public async Task<string> TextAsync(string selector) =>
        (string)(await Browser.EvaluateAsync($"(() => {{ const e = document.querySelector({BrowserPage.Quoted(selector)}); return e.checkVisibility() ? e.textContent : ''; }})()"))!;

    /// <summary>Every number of the table: as it is written, and in full.</summary>
    public async Task<IReadOnlyDictionary<(string Layout, string Key), (string Text, double? Value)>> NumbersAsync()
    {
        var cells = await Browser.EvaluateAsync("[...document.querySelectorAll('.numbers td')].map(cell => [cell.dataset.layout, cell.dataset.key, cell.textContent, cell.dataset.value])");
        return cells!.AsArray().ToDictionary(
            cell => ((string)cell![0]!, (string)cell[1]!),
            cell => ((string)cell![2]!, double.TryParse((string?)cell[3], CultureInfo.InvariantCulture, out var value) ? value : (double?)null));
    }

    /// <summary>The full value of one number.</summary>
    public async Task<double> NumberAsync(string layout, string key) => (await NumbersAsync())[(layout, key)].Value!.Value;

    /// <summary>What the page has changed.</summary>
    public async Task<JsonNode> StateAsync() => (await Browser.EvaluateAsync("rollride.app.session.state"))!;

    /// <summary>The numbers that a handle tells: its place in the view across and up, or its force.</summary>
    public async Task<double[]> NumbersOfAsync(string handle)
    {
        var text = (string)(await Browser.EvaluateAsync($"document.querySelector({BrowserPage.Quoted(Selector(handle))}).getAttribute('aria-valuetext')"))!;
        return [.. Regex.Matches(text.Replace('−', '-'), @"-?\d+(\.\d+)?").Select(number => double.Parse(number.Value, CultureInfo.InvariantCulture))];
    }

    /// <summary>Drags an end of a damper sideways, as a hand does, until it stands at about a value.</summary>
    public Task DragAcrossAsync(string handle, double value) => DragAsync(handle, 0, value, 1, 0);

    /// <summary>Drags an end of a damper up or down until it stands at about a height.</summary>
    public Task DragUpAsync(string handle, double value) => DragAsync(handle, 1, value, 0, 1);

    /// <summary>Drags a point of a curve up or down until it stands at about a force.</summary>
    public Task DragForceAsync(string handle, double value) => DragAsync(handle, 0, value, 0, 1);

    /// <summary>Writes a number into a field.</summary>
    public async Task WriteAsync(string path, string text)
    {
        var field = Field(path);
        await Browser.ClickAsync(field);
        await Browser.EvaluateAsync($"document.querySelector({BrowserPage.Quoted(field)}).select()");
        await Browser.TypeAsync(text);
        await SettleAsync();
    }

    /// <summary>Saves under a name.</summary>
    /// <returns>What the page said of it.</returns>
    public async Task<string> SaveAsync(string name)
    {
        await Browser.ClickAsync("#save");
        await Browser.EvaluateAsync("document.getElementById('saveName').select()");
        await Browser.TypeAsync(name);
        return await SubmitSaveAsync();
    }

    /// <summary>Answers the dialog that saves.</summary>
    public async Task<string> SubmitSaveAsync()
    {
        await Browser.EvaluateAsync("document.getElementById('said').textContent = document.getElementById('saveMessage').textContent = ''");
        await Browser.KeyAsync("Enter");
        await Browser.WaitForAsync("document.getElementById('said').textContent || document.getElementById('saveMessage').textContent");
        await SettleAsync();
        return (string)(await Browser.EvaluateAsync("document.getElementById('said').textContent || document.getElementById('saveMessage').textContent"))!;
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => Browser.DisposeAsync();

    /// <summary>Where a handle stands in the page.</summary>
    public static string Selector(string handle) => $"[data-handle='{handle}']";

    /// <summary>Where a field stands in the page.</summary>
    public static string Field(string path) => $"input[data-path='{path}']";

    /// <summary>Drags a handle, and asserts that it stands where it was to be within a step of the hand.</summary>
    private async Task DragAsync(string handle, int number, double value, int across, int up)
    {
        var (x, y) = await Browser.MiddleOfAsync(Selector(handle));
        Task MoveAsync(double pixels) => Browser.MoveAsync(x + (across * pixels), y - (up * pixels));
        async Task<double> ValueAsync() => (await NumbersOfAsync(handle))[number];
        var before = await ValueAsync();
        await Browser.PressAsync(x, y);
        await MoveAsync(FirstStep);
        await Browser.FrameAsync();
        var perPixel = (await ValueAsync() - before) / FirstStep;
        var pixels = (value - before) / perPixel;
        for (var i = 1; i <= Steps; i++)
            await MoveAsync(FirstStep + ((pixels - FirstStep) * i / Steps));
        await Browser.FrameAsync();
        // The first step is rounded as every step is, to a millimetre or 10 N, and the rest is as many times as long.
        Assert.Equal(value, await ValueAsync(), 1 + Math.Abs(perPixel) + Math.Abs(0.1 * (value - before)));
        await Browser.ReleaseAsync(x + (across * pixels), y - (up * pixels));
        await SettleAsync();
    }
}
