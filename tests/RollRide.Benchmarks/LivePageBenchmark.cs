using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Tests.Live;

namespace RollRide.Benchmarks;

/// <summary>How closely the live page follows the hand: the built program, its server and a browser without a window.</summary>
/// <remarks>
/// <code>dotnet run -c Release --project tests/RollRide.Benchmarks -- live [scenario] [moves] [OTHER/RollRide.Cli.dll]</code>
/// The times are wall clock: run it on a machine that does nothing else. A move is drawn when the frame that shows its answer has been handed to the
/// compositor: what the page and its server can do something about. Putting it into pixels and on the screen follows.
/// </remarks>
internal static class LivePageBenchmark
{
    private const int Starts = 7;
    private const int HandMoves = 500;
    private const int SingleMoves = 40;
    private const int Checkpoints = 5;

    // As often as a screen is drawn, and a mouse is asked.
    private static readonly TimeSpan Pace = TimeSpan.FromMilliseconds(16);
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(400);

    // Whoever opens a page looks at it, and comes with the pointer, before dragging something.
    private static readonly TimeSpan FirstLook = TimeSpan.FromSeconds(3);

    /// <summary>Notes when the first number of the table is drawn, since the page was asked for.</summary>
    private const string NoteFirst =
        """
        addEventListener('DOMContentLoaded', () => new MutationObserver((_, observer) => {
          if (!document.querySelector('.numbers td')?.textContent) return;
          observer.disconnect();
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => { window.firstDrawn = performance.now(); };
          requestAnimationFrame(() => port2.postMessage(null));
        }).observe(document.getElementById('rows'), { childList: true, subtree: true, characterData: true }));
        """;

    /// <summary>Notes for each move of the pointer when an answer to it, or to a newer one, is drawn.</summary>
    private const string NoteMoves =
        """
        (() => {
          const { app } = rollride;
          const { measure } = app;
          const noted = window.noted = { moves: [], windows: [], last: 0, faulty: 0 };
          const waiting = [];
          noted.painted = act => { const { port1, port2 } = new MessageChannel(); port1.onmessage = () => { act(performance.now()); port1.close(); }; port2.postMessage(null); };
          addEventListener('pointermove', event => {
            for (const move of event.getCoalescedEvents()) waiting.push(move.timeStamp);
            noted.last = event.timeStamp;
          }, { capture: true });
          const drawn = measure.drawn.bind(measure);
          measure.drawn = since => {
            drawn(since);
            if (app.faults.length > 0) noted.faulty++;
            noted.painted(now => { while (waiting.length && waiting[0] <= since) noted.moves.push(now - waiting.shift()); });
          };
        })()
        """;

    /// <summary>Notes when the setting window is drawn after the last move. It looks for it in every frame, and so stands apart from what times moves.</summary>
    private const string NoteWindows =
        """
        (() => {
          let { window: shown } = rollride.app;
          const look = () => {
            const asked = noted.last;
            if (rollride.app.window !== shown) noted.painted(now => noted.windows.push(now - asked));
            shown = rollride.app.window;
            noted.looking = requestAnimationFrame(look);
          };
          look();
        })()
        """;

    /// <summary>Measures and prints a table.</summary>
    /// <param name="args">The scenario (the main shipped one), how many moves the memory is watched over (10 000), and the program (that of this build).</param>
    /// <param name="output">Where the table goes.</param>
    public static async Task Write(string[] args, TextWriter output)
    {
        var scenario = args.Length > 0 ? args[0] : CommandBenchmarks.ShippedScenario;
        var moves = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 10_000;
        var program = args.Length > 2 ? args[2] : CommandBenchmarks.Program;
        var chromium = Chromium.Path ?? throw new InvalidOperationException(Chromium.IsMissing);
        var profile = Directory.CreateTempSubdirectory("rollride-live-");
        try
        {
            await using var browser = await BrowserProcess.StartAsync(chromium, Path.Combine(profile.FullName, "profile"));
            var load = await File.ReadAllTextAsync("/proc/loadavg");
            output.WriteLine($"{Path.GetFileName(scenario)}, load of the machine {load.Split(' ')[0]}, {Environment.ProcessorCount} cores");
            var (starts, first) = (new List<double>(), new List<double>());
            for (var i = 0; i < Starts; i++)
            {
                await using var live = await ServedLive.StartAsync(program, scenario);
                starts.Add(live.Start.TotalMilliseconds);
                await using var page = await OpenAsync(browser, live);
                first.Add((double)(await page.EvaluateAsync("firstDrawn"))!);
            }

            Row(output, "start of the command until the address is printed", starts);
            Row(output, "first answer drawn, after the page was asked for", first);
            await using (var live = await ServedLive.StartAsync(program, scenario))
            {
                await using var page = await OpenAsync(browser, live);
                var hand = await Hand.OfAsync(page);
                await page.EvaluateAsync(NoteMoves);
                await hand.MoveAsync(HandMoves, Pace);
                await Task.Delay(Rest);
                Row(output, $"{HandMoves} moves, one each {Pace.TotalMilliseconds:F0} ms: until all figures are drawn", await NotedAsync(page, "moves"));
                if ((int)(await page.EvaluateAsync("noted.faulty"))! is > 0 and var faulty)
                    output.WriteLine($"{faulty} of the answers were none but faults, which take less time");
                Row(output, "of these the newest that an answer covers, as the page counts it", Times(await page.EvaluateAsync("rollride.times")));
                await page.EvaluateAsync(NoteWindows);
                await hand.MoveAsync(SingleMoves, Rest);
                Row(output, "one move: until the setting window is drawn", await NotedAsync(page, "windows"));
                await page.EvaluateAsync("cancelAnimationFrame(noted.looking)");
                output.WriteLine("moves      server, MB   script of the page, MB");
                for (var i = 0; i <= Checkpoints; i++)
                {
                    if (i > 0)
                        await hand.MoveAsync(moves / Checkpoints, Pace);
                    await Task.Delay(Rest);
                    await page.EvaluateAsync("noted.moves = [], noted.windows = []"); // of the measuring itself
                    var heap = await page.HeapAsync();
                    output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i * moves / Checkpoints,6}   {live.ServerMegabytes,10:F0}   {heap / 1e6,10:F2}"));
                }

                var counts = (await page.EvaluateAsync("rollride.counts"))!;
                output.WriteLine($"asked {counts["sent"]} times, {counts["dropped"]} older moves never sent, {page.Complaints.Count} complaints of the browser");
            }
        }
        finally
        {
            profile.Delete(recursive: true);
        }
    }

    private static async Task<BrowserPage> OpenAsync(BrowserProcess browser, ServedLive live)
    {
        var page = await browser.OpenAsync(live.Address, 1400, 900, NoteFirst);
        await page.WaitForAsync("window.firstDrawn && Object.values(rollride.app.requests).every(request => request.isIdle)");
        return page;
    }

    private static async Task<List<double>> NotedAsync(BrowserPage page, string what) => Times(await page.EvaluateAsync($"noted.{what}"));

    private static List<double> Times(JsonNode? times) => [.. ((JsonArray)times!).Select(time => (double)time!)];

    private static void Row(TextWriter output, string what, List<double> times)
    {
        times.Sort();
        double At(double share) => times[(int)Math.Ceiling(share * times.Count) - 1];
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-75} {times.Count,5} times: median {At(0.5):F0}, 95 % {At(0.95):F0}, most {times[^1]:F0} ms"));
    }

    /// <summary>The pointer that holds the axle end of the first damper and moves it to and fro.</summary>
    private sealed class Hand(BrowserPage page, double x, double y)
    {
        // Within what the shipped dampers reach: a place that is at fault is answered in a fraction of the time.
        private const double Reach = 40;
        private const int MovesPerTurn = 120;

        private int _moves;

        // It comes over the page. Thereby this process compiles how it moves, which would else take a core from the program in the first second of the drag.
        public static async Task<Hand> OfAsync(BrowserPage page)
        {
            var (x, y) = await page.MiddleOfAsync("#drawing [data-handle]");
            var steps = (int)(FirstLook / Pace);
            await MoveAsync(steps, Pace, step => page.HoverAsync(x * step / steps, y * step / steps));
            await page.PressAsync(x, y);
            return new Hand(page, x, y);
        }

        public Task MoveAsync(int count, TimeSpan pace) => MoveAsync(count, pace, _ =>
        {
            var turn = 2 * Math.PI * ++_moves / MovesPerTurn;
            return page.MoveAsync(x + (Reach * Math.Sin(turn)), y + (Reach / 4 * Math.Sin(2 * turn)));
        });

        // As a mouse does: a move does not wait until the page has taken the one before.
        private static async Task MoveAsync(int count, TimeSpan pace, Func<int, Task> move)
        {
            var begin = Stopwatch.GetTimestamp();
            var taken = new Queue<Task>();
            for (var i = 1; i <= count; i++)
            {
                taken.Enqueue(move(i));
                while (taken.TryPeek(out var first) && first.IsCompleted)
                    await taken.Dequeue();
                if (i * pace - Stopwatch.GetElapsedTime(begin) is { } left && left > TimeSpan.Zero)
                    await Task.Delay(left);
            }

            await Task.WhenAll(taken);
        }
    }

    /// <summary>The command live in a process of its own.</summary>
    private sealed class ServedLive : IAsyncDisposable
    {
        private readonly Process _command;

        private ServedLive(Process command, string address, TimeSpan start) => (_command, Address, Start) = (command, address, start);

        public string Address { get; }

        public TimeSpan Start { get; }

        /// <summary>Memory that the server's process holds.</summary>
        public double ServerMegabytes
        {
            get
            {
                var child = Directory.EnumerateDirectories($"/proc/{_command.Id}/task").SelectMany(thread => File.ReadAllText($"{thread}/children").Split(' ', StringSplitOptions.RemoveEmptyEntries)).Single();
                using var server = Process.GetProcessById(int.Parse(child, CultureInfo.InvariantCulture));
                return server.WorkingSet64 / 1e6;
            }
        }

        public static async Task<ServedLive> StartAsync(string program, string scenario)
        {
            var begin = Stopwatch.GetTimestamp();
            var command = Process.Start(new ProcessStartInfo("dotnet", [program, "live", scenario, "--no-browser"]) { RedirectStandardOutput = true })!;
            while (await command.StandardOutput.ReadLineAsync() is { } line)
            {
                if (line.StartsWith("http://", StringComparison.Ordinal))
                    return new ServedLive(command, line, Stopwatch.GetElapsedTime(begin));
            }

            throw new InvalidOperationException($"'live {scenario}' printed no address.");
        }

        public async ValueTask DisposeAsync()
        {
            _command.Kill(entireProcessTree: true);
            await _command.WaitForExitAsync();
            _command.Dispose();
        }
    }
}
