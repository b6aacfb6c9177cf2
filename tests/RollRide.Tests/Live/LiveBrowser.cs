using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Live;

/// <summary>One browser for all tests of the live page, started by the first that needs it.</summary>
public sealed class LiveBrowser : IAsyncLifetime
{
    private TemporaryFolder? _profile;
    private BrowserProcess? _browser;

    /// <inheritdoc/>
    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    /// <summary>Opens the live page of a copy of a shipped scenario, lets a test work on it, and asserts that nothing on it failed meanwhile.</summary>
    /// <param name="scenario">The scenario's file name.</param>
    /// <param name="test">What is done on the page.</param>
    /// <param name="isRehearsed">Whether the page rehearses a drag.</param>
    internal async Task Show(string scenario, Func<LivePage, Task> test, bool isRehearsed = false)
    {
        var browser = await StartedAsync();
        await using var served = await ServedScenario.StartAsync(scenario);
        await using var page = await LivePage.OpenAsync(browser, served, isRehearsed: isRehearsed);
        await test(page);
        Assert.Empty(page.Browser.Complaints);
    }

    /// <summary>The browser; the test is skipped where there is none.</summary>
    internal async Task<BrowserProcess> StartedAsync()
    {
        Assert.SkipWhen(Chromium.Path is null, Chromium.IsMissing);
        _profile ??= new TemporaryFolder();
        return _browser ??= await BrowserProcess.StartAsync(Chromium.Path, _profile["profile"]);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
            await _browser.DisposeAsync();
        _profile?.Dispose();
    }
}

/// <summary>The tests of what one sees on the page and does there share one browser; they run one after the other.</summary>
[CollectionDefinition(nameof(LiveBrowser))]
public sealed class OneLiveBrowser : ICollectionFixture<LiveBrowser>;

/// <summary>So do the tests of what goes on between page, server and disk, in another one: half the tests at a time take half as long.</summary>
[CollectionDefinition(nameof(OtherLiveBrowser))]
public sealed class OtherLiveBrowser : ICollectionFixture<LiveBrowser>;
