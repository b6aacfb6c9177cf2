using System.Diagnostics;
using System.Globalization;
using RollRide.Cli;

namespace RollRide.Tests.Live;

/// <summary>The command in a process of its own, and the server that it has started.</summary>
internal sealed class StartedLive : IDisposable
{
    // Far more than any of these takes; a test that hangs ends with it.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(60);

    private StartedLive(Process process, Uri address, int server) => (Process, Address, Server) = (process, address, server);

    /// <summary>The command.</summary>
    public Process Process { get; }

    /// <summary>The page's address, which it has printed.</summary>
    public Uri Address { get; }

    /// <summary>The server's number among the processes.</summary>
    public int Server { get; }

    /// <summary>The lines up to the address.</summary>
    public required IReadOnlyList<string> Printed { get; init; }

    /// <summary>Starts the command live.</summary>
    public static async Task<StartedLive> Of(string[] environment, params string[] arguments)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Signals and the table of processes are those of Linux.");
        var start = new ProcessStartInfo("dotnet", [typeof(CommandLine).Assembly.Location, "live", .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var variable in environment)
            start.Environment[variable.Split('=')[0]] = variable.Split('=')[1];
        var process = Process.Start(start)!;
        var printed = new List<string>();
        string? line;
        do
        {
            line = await process.StandardOutput.ReadLineAsync().WaitAsync(Longest);
            Assert.NotNull(line);
            printed.Add(line);
        }
        while (!line.StartsWith("http://", StringComparison.Ordinal));
        var server = Directory.EnumerateDirectories($"/proc/{process.Id}/task").SelectMany(thread => Told($"{thread}/children").Split(' ', StringSplitOptions.RemoveEmptyEntries))
            .Single(child => Told($"/proc/{child}/cmdline").Contains("RollRide.Live", StringComparison.Ordinal));
        return new StartedLive(process, new Uri(line), int.Parse(server, CultureInfo.InvariantCulture)) { Printed = printed };
    }

    /// <summary>What the system tells of a thread or a process; nothing of one that has ended, as the program that opens an address soon does.</summary>
    private static string Told(string file)
    {
        try
        {
            return File.ReadAllText(file);
        }
        catch (IOException)
        {
            return "";
        }
    }

    /// <summary>Sends a signal to a process.</summary>
    public static async Task Signal(string signal, int process)
    {
        using var kill = Process.Start("kill", [$"-{signal}", $"{process}"]);
        await kill.WaitForExitAsync();
        Assert.Equal(0, kill.ExitCode);
    }

    /// <summary>Waits until the server is gone.</summary>
    public async Task ServerEnds()
    {
        var waited = Stopwatch.StartNew();
        while (IsRunning() && waited.Elapsed < Longest)
            await Task.Delay(20);
        Assert.False(IsRunning(), "The server did not end.");
    }

    public void Dispose()
    {
        if (IsRunning())
        {
            using var server = Process.GetProcessById(Server);
            server.Kill();
        }

        if (!Process.HasExited)
            Process.Kill();
        Process.Dispose();
    }

    // A process that has ended and is waited for by nobody is still listed, as a zombie, without a command line.
    private bool IsRunning()
    {
        try
        {
            return File.ReadAllText($"/proc/{Server}/cmdline").Contains("RollRide.Live", StringComparison.Ordinal);
        }
        catch (IOException)
        {
            return false;
        }
    }
}
