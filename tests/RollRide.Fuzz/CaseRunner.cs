using System.Diagnostics;
using RollRide.Cli;
using RollRide.Cli.Terminals;

namespace RollRide.Fuzz;

/// <summary>Runs command lines in a folder of its own, in this process, with the time limited: that of the processor, so that a busy machine finds no more than a quiet one.</summary>
internal sealed class CaseRunner : IDisposable
{
    // How long a command may take to end once it is told to stop.
    private static readonly TimeSpan ToStop = TimeSpan.FromSeconds(5);

    // Of time on the clock, as a multiple of the limit: a command that waits for ever uses no processor.
    private const int MostWaiting = 10;
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(0.2);

    private readonly TimeSpan _limit;

    public CaseRunner(TimeSpan limit)
    {
        _limit = limit;
        Folder = Directory.CreateTempSubdirectory("rollride-fuzz-").FullName;
        Directory.SetCurrentDirectory(Folder);
    }

    /// <summary>The folder in which the cases run.</summary>
    public string Folder { get; }

    /// <summary>The files that the last command left in its output folder.</summary>
    public static IEnumerable<string> Written => Directory.Exists("out") ? Directory.EnumerateFiles("out", "*", SearchOption.AllDirectories) : [];

    /// <summary>Runs one case.</summary>
    public Outcome Run(CaseInput input)
    {
        foreach (var file in Directory.EnumerateFiles(Folder))
            File.Delete(file);
        foreach (var folder in Directory.EnumerateDirectories(Folder))
            Directory.Delete(folder, recursive: true);
        File.WriteAllText(CaseInput.ScenarioName, input.ScenarioText);
        foreach (var (name, text) in input.Tables)
            File.WriteAllText(name, text);

        using var output = new StringWriter();
        using var error = new StringWriter();
        using var stop = new CancellationTokenSource(_limit * MostWaiting);
        var begun = ProcessorTime();
        TimeSpan Used() => ProcessorTime() - begun;
        var run = Task.Run(() => CommandLine.RunAsync([.. input.Words], new Terminal(TextWriter.Synchronized(output), TextWriter.Synchronized(error), ShowsProgress: false, TimeProvider.System), stop.Token));
        try
        {
            while (!stop.IsCancellationRequested)
            {
                if (run.Wait(Look))
                    return new Outcome(run.Result, output.ToString(), error.ToString(), Used(), null, false);
                if (Used() > _limit)
                    stop.Cancel();
            }

            return run.Wait(ToStop)
                ? new Outcome(run.Result, output.ToString(), error.ToString(), Used() > _limit ? Used() : _limit * MostWaiting, null, false)
                : new Outcome(null, "", "", Used(), null, true);
        }
        catch (AggregateException e)
        {
            return new Outcome(null, output.ToString(), error.ToString(), Used(), e.InnerException, false);
        }
    }

    private static TimeSpan ProcessorTime()
    {
        using var process = Process.GetCurrentProcess();
        return process.TotalProcessorTime;
    }

    public void Dispose()
    {
        Directory.SetCurrentDirectory(Path.GetTempPath());
        Directory.Delete(Folder, recursive: true);
    }
}
