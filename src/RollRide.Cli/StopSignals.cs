using System.Runtime.InteropServices;
using RollRide.Cli.Terminals;

namespace RollRide.Cli;

/// <summary>
/// Ctrl-C and SIGTERM ask the work to stop and to clean up behind itself. Work that does not is left behind, so that the program ends within
/// two seconds in any case; a second signal ends it at once.
/// </summary>
internal sealed class StopSignals : IDisposable
{
    // With the time that the process takes to end, two seconds.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1.2);

    private readonly CancellationTokenSource _stop = new();
    private readonly TaskCompletionSource<int> _given = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly PosixSignalRegistration[] _registrations;

    /// <summary>Begins to listen.</summary>
    public StopSignals() => _registrations =
    [
        PosixSignalRegistration.Create(PosixSignal.SIGINT, signal => Stop(signal, ExitCode.Cancelled)),
        PosixSignalRegistration.Create(PosixSignal.SIGTERM, signal => Stop(signal, ExitCode.Terminated)),
    ];

    /// <summary>Does work until it ends or a signal comes.</summary>
    /// <param name="work">The work, which returns an exit code.</param>
    /// <param name="abandoned">Is called where the work is left behind.</param>
    /// <returns>The exit code: that of the signal where the work was stopped by one.</returns>
    public async Task<int> Run(Func<CancellationToken, Task<int>> work, Action abandoned)
    {
        var working = Task.Run(() => work(_stop.Token));
        if (await Task.WhenAny(working, _given.Task) != working && await Task.WhenAny(working, Task.Delay(Patience)) != working)
        {
            abandoned();
            return await _given.Task;
        }

        var code = await working;
        return code == ExitCode.Cancelled && _given.Task.IsCompleted ? await _given.Task : code;
    }

    /// <summary>Listens no more.</summary>
    public void Dispose()
    {
        foreach (var registration in _registrations)
            registration.Dispose();
        _stop.Dispose();
    }

    private void Stop(PosixSignalContext signal, int exitCode)
    {
        signal.Cancel = _given.TrySetResult(exitCode);
        _stop.Cancel();
    }
}
