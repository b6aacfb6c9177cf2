using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace RollRide.Tests.Live;

/// <summary>A page from elsewhere, open in the same browser, that even knows the live page's address.</summary>
[Collection(nameof(OtherLiveBrowser))]
public sealed class ForeignPageTests(LiveBrowser browser)
{
    [Theory]
    [InlineData("127.0.0.1")]
    [InlineData("localhost")]
    public Task Foreign_page_can_neither_read_nor_write(string host) => browser.Show("bump-then-corner.json", async page =>
    {
        var files = page.Folder.Entries;
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        using var stop = new CancellationTokenSource();
        var serving = ServeAsync(listener, stop.Token);
        var address = string.Create(CultureInfo.InvariantCulture, $"http://{host}:{((IPEndPoint)listener.LocalEndpoint).Port}/");
        await using var foreign = await (await browser.StartedAsync()).OpenAsync(address, 800, 600);
        var live = BrowserPage.Quoted(page.Served.Address.AbsoluteUri);
        var got = await foreign.EvaluateAsync(
            $$"""
            (async () => {
              const live = {{live}};
              const told = {};
              const attempt = async (name, work) => { try { told[name] = await work(); } catch { told[name] = 'refused'; } };
              const save = JSON.stringify({ state: { edits: [], files: [] }, name: 'stolen.json', overwrite: true });
              const read = async response => response.type === 'opaque' ? 'refused' : await response.text();
              await attempt('start', async () => read(await fetch(live + 'start')));
              await attempt('opaque', async () => read(await fetch(live + 'start', { mode: 'no-cors' })));
              await attempt('save', async () => read(await fetch(live + 'save', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: save })));
              await attempt('plain', async () => read(await fetch(live + 'save', { method: 'POST', mode: 'no-cors', body: save })));
              await attempt('beacon', async () => { navigator.sendBeacon(live + 'save', new Blob([save], { type: 'text/plain' })); return 'refused'; });
              const loaded = (tag, from) => new Promise(done => {
                const e = document.createElement(tag);
                e.onload = () => done(tag === 'iframe' ? 'framed' : 'loaded');
                e.onerror = () => done('refused');
                if (tag === 'link') { e.rel = 'stylesheet'; e.href = live + from; } else e.src = live + from;
                document.body.append(e);
              });
              await attempt('script', () => loaded('script', 'page/live.js'));
              await attempt('style', () => loaded('link', 'page/live.css'));
              await attempt('events', () => new Promise(done => {
                const events = new EventSource(live + 'events');
                events.onopen = () => done('open');
                events.onerror = () => { events.close(); done('refused'); };
              }));
              await attempt('line', () => new Promise(done => {
                const line = new WebSocket(live.replace('http', 'ws') + 'line');
                line.onopen = () => done('open');
                line.onerror = () => done('refused');
              }));
              await attempt('frame', async () => { await loaded('iframe', ''); try { return frames[0].document.body.textContent.includes('RollRide') ? 'read' : 'refused'; } catch { return 'refused'; } });
              return told;
            })()
            """);
        foreach (var (what, told) in got!.AsObject())
            Assert.True((string)told! == "refused", $"{what}: {told}");

        // A form sent into a frame needs no permission to be sent; nothing comes of it.
        await foreign.EvaluateAsync(
            $$"""
            (async () => {
              const form = document.createElement('form');
              Object.assign(form, { method: 'post', enctype: 'text/plain', action: {{live}} + 'save', target: 'sink' });
              const [sink, input] = [document.createElement('iframe'), document.createElement('input')];
              sink.name = 'sink';
              Object.assign(input, { name: '{"state":{"edits":[],"files":[]},"name":"stolen.json","overwrite":true,"x":"', value: '"}' });
              form.append(input);
              document.body.append(sink, form);
              const sent = new Promise(done => { sink.onload = done; });
              form.submit();
              await sent;
            })()
            """);
        await page.SettleAsync();
        Assert.Equal(files, page.Folder.Entries);
        // The page itself is let in as before.
        await page.WriteAsync("vehicle.springs.rate_N_per_mm", "66.5");
        Assert.Equal("Up to date", await page.TextAsync("#status"));
        await stop.CancelAsync();
        await serving;
    });

    /// <summary>An empty page at every address.</summary>
    private static async Task ServeAsync(TcpListener listener, CancellationToken stop)
    {
        List<Task> answers = [];
        try
        {
            while (true)
                answers.Add(AnswerAsync(await listener.AcceptTcpClientAsync(stop), stop));
        }
        catch (OperationCanceledException)
        {
            await Task.WhenAll(answers);
        }
    }

    private static async Task AnswerAsync(TcpClient client, CancellationToken stop)
    {
        const string Page = "<!DOCTYPE html><title>Elsewhere</title><p>Elsewhere";
        using (client)
        {
            try
            {
                await using var stream = client.GetStream();
                // A browser opens connections ahead of its requests.
                if (await stream.ReadAsync(new byte[8192], stop) > 0)
                    await stream.WriteAsync(Encoding.ASCII.GetBytes($"HTTP/1.1 200 OK\r\nContent-Type: text/html\r\nContent-Length: {Page.Length}\r\nConnection: close\r\n\r\n{Page}"), stop);
            }
            catch (Exception e) when (e is OperationCanceledException or IOException)
            {
                // The test is over, or the browser has closed first.
            }
        }
    }
}
