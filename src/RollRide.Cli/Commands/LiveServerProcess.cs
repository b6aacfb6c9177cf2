using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using RollRide.Cli.Terminals;

namespace RollRide.Cli.Commands;

/// <summary>The server of the live page, in a process of its own: it alone needs the web part of .NET. It ends when its standard input does, so with this process.</summary>
internal sealed class LiveServerProcess : IDisposable
{
    private const string Server = "RollRide.Live.dll";

    // The code with which the host of .NET ends where a framework is missing (0x80008096, of which Unix keeps the last byte).
    private const int FrameworkMissing = unchecked((int)0x80008096);

    // The server ends within half a second; then it is ended.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.8);

    private readonly Process _process;
    private readonly Task<string> _told;

    private LiveServerProcess(Process process) => (_process, _told) = (process, process.StandardError.ReadToEndAsync());

    /// <summary>Starts the server.</summary>
    /// <param name="scenario">The scenario's file.</param>
    /// <param name="port">The port; 0 for a free one.</param>
    /// <exception cref="IOException">It cannot be started.</exception>
    public static LiveServerProcess Start(string scenario, int port)
    {
        var start = new ProcessStartInfo(Host(), [Path.Combine(AppContext.BaseDirectory, Server), scenario, port.ToString(CultureInfo.InvariantCulture)])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        try
        {
            return new LiveServerProcess(Process.Start(start)!);
        }
        catch (Win32Exception e)
        {
            throw new IOException($"The page needs the command dotnet, which cannot be started: {e.Message}. Every other command works without it.", e);
        }
    }

    /// <summary>The page's address; null where the server has ended instead.</summary>
    public async Task<string?> Address(CancellationToken cancellation) => await _process.StandardOutput.ReadLineAsync(cancellation);

    /// <summary>Waits until the server has ended and passes on what it said.</summary>
    /// <param name="error">Where faults go.</param>
    /// <param name="cancellation">Ends the server.</param>
    /// <returns>The exit code.</returns>
    public async Task<int> End(TextWriter error, CancellationToken cancellation)
    {
        await _process.WaitForExitAsync(cancellation);
        if (_process.ExitCode is FrameworkMissing or (FrameworkMissing & 0xFF))
        {
            error.WriteLine($"The page needs the ASP.NET Core Runtime {Environment.Version.Major}.{Environment.Version.Minor}, which is not installed here; the .NET SDK brings it. Every other command works without it.");
            return ExitCode.BadInput;
        }

        foreach (var line in (await _told).Split('\n', StringSplitOptions.RemoveEmptyEntries))
            error.WriteLine(line);
        return _process.ExitCode is ExitCode.Done or ExitCode.BadInput or ExitCode.Terminated ? _process.ExitCode : ExitCode.Internal;
    }

    /// <summary>Ends the server if it still runs.</summary>
    public void Dispose()
    {
        _process.StandardInput.Dispose();
        if (!_process.WaitForExit(Patience))
            _process.Kill();
        _process.Dispose();
    }

    /// <summary>The program that runs this process, or that of the command line where the runtime came with the program.</summary>
    private static string Host()
    {
        var name = OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet";
        var host = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", name));
        return File.Exists(host) ? host : name;
    }
}
