using RollRide.Cli;

var error = new TerminalWriter(() => Console.Error, mustBeHeard: false);
var terminal = new Terminal(new TerminalWriter(() => Console.Out, mustBeHeard: true), error, ShowsProgress: !Console.IsErrorRedirected, TimeProvider.System);
using var signals = new StopSignals();
return await signals.Run(
    cancellation => CommandLine.RunAsync(args, terminal, cancellation),
    abandoned: () => error.WriteLine("Stopped; what was not finished is thrown away."));
