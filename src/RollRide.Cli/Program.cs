using System.Runtime.InteropServices;
using RollRide.Cli;

// Ctrl-C asks the work to stop and to clean up behind itself; a second one ends the program at once.
using var stop = new CancellationTokenSource();
void Stop(PosixSignalContext signal)
{
    signal.Cancel = !stop.IsCancellationRequested;
    stop.Cancel();
}

using var interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
using var terminated = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
return await CommandLine.RunAsync(args, new Terminal(Console.Out, Console.Error, ShowsProgress: !Console.IsErrorRedirected, TimeProvider.System), stop.Token);
