using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json.Nodes;
using RollRide.Live.Answers;

namespace RollRide.Live;

/// <summary>
/// The live page's server: a process of its own, started by the command <c>live</c> with the scenario and the port (0 for a free one). Its first line
/// of output is the page's address. It ends when its standard input does, so that it never outlives the command.
/// </summary>
internal static class Program
{
    // The commands' exit codes.
    private const int Done = 0;
    private const int BadInput = 2;
    private const int Internal = 70;
    private const int Terminated = 143;

    // With the command's own end, two seconds.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.5);

    // A run computes on the thread that asked for it; requests and file watching go on beside four of them.
    private const int Threads = 16;

    private static async Task<int> Main(string[] arguments)
    {
        if (arguments is not [var scenario, var number] || !ushort.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var port))
        {
            await Console.Error.WriteLineAsync("This is the server of rollride live, which starts it.");
            return BadInput;
        }

        ThreadPool.GetMinThreads(out _, out var ports);
        ThreadPool.SetMinThreads(Threads, ports);
        var terminated = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        using var term = PosixSignalRegistration.Create(PosixSignal.SIGTERM, signal => signal.Cancel = terminated.TrySetResult());

        // Ctrl-C reaches both processes; the command answers it and then ends this one.
        using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, signal => signal.Cancel = true);
        try
        {
            var shown = new LiveScenario(scenario);
            await using var server = await LiveServer.StartAsync(shown, port, LiveServer.UsualTick);
            await Console.Out.WriteLineAsync(server.Address.AbsoluteUri);
            _ = Task.Run(() => WarmUp(shown));
            var ended = await Task.WhenAny(server.Ended, EndOfInput(), terminated.Task);
            await ended;
            using var patience = new CancellationTokenSource(Patience);
            await server.StopAsync(patience.Token);
            return ended == terminated.Task ? Terminated : Done;
        }
        catch (PortException e)
        {
            await Console.Error.WriteLineAsync(e.Message);
            return BadInput;
        }
#pragma warning disable CA1031 // The last line of defence: whatever happens, no stack trace reaches the user.
        catch (Exception e)
        {
            await Console.Error.WriteLineAsync($"A fault of RollRide itself, not of your input ({e.GetType().Name}: {e.Message}). Please report it with the scenario.");
            return Internal;
        }
#pragma warning restore CA1031
    }

    /// <summary>While the browser opens, answers what the page will ask first: then it is compiled. A fault here comes again where it is told.</summary>
    private static void WarmUp(LiveScenario scenario)
    {
        scenario.Start();
        var asInTheFile = new JsonObject { ["id"] = 0, ["state"] = new JsonObject { ["edits"] = new JsonArray(), ["files"] = new JsonArray() } };
        scenario.Answer(asInTheFile);
        scenario.Window(asInTheFile);
    }

    private static Task EndOfInput() => Task.Factory.StartNew(
        () =>
        {
            using var input = Console.OpenStandardInput();
            while (input.ReadByte() >= 0)
            {
            }
        },
        CancellationToken.None,
        TaskCreationOptions.LongRunning,
        TaskScheduler.Default);
}
