using System.Diagnostics;
using RollRide.Cli;
using RollRide.Cli.Terminals;

namespace RollRide.Fuzz;

/// <summary>Runs command lines in a folder of its own, in this process, with the time limited.</summary>
internal sealed class CaseRunner : IDisposable
{
    // How long a command may take to end once it is told to stop.
    private static readonly TimeSpan ToStop = TimeSpan.FromSeconds(5);

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
        using var stop = new CancellationTokenSource(_limit);
        var watch = Stopwatch.StartNew();
        var run = Task.Run(() => CommandLine.RunAsync([.. input.Words], new Terminal(TextWriter.Synchronized(output), TextWriter.Synchronized(error), ShowsProgress: false, TimeProvider.System), stop.Token));
        try
        {
            return run.Wait(_limit + ToStop)
                ? new Outcome(run.Result, output.ToString(), error.ToString(), watch.Elapsed, null, false)
                : new Outcome(null, "", "", watch.Elapsed, null, true);
        }
        catch (AggregateException e)
        {
            return new Outcome(null, output.ToString(), error.ToString(), watch.Elapsed, e.InnerException, false);
        }
    }

    public void Dispose()
    {
        Directory.SetCurrentDirectory(Path.GetTempPath());
        Directory.Delete(Folder, recursive: true);
    }
}
