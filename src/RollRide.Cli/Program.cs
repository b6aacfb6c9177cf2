using RollRide.Cli;
using RollRide.Cli.Terminals;

var error = new TerminalWriter(() => Console.Error, mustBeHeard: false);
var output = new TerminalWriter(() => Console.Out, mustBeHeard: true) { Width = WidthOfTerminal(), BreaksLines = !Console.IsOutputRedirected };
var terminal = new Terminal(output, error, ShowsProgress: !Console.IsErrorRedirected, TimeProvider.System);
using var signals = new StopSignals();
return await signals.Run(
    cancellation => CommandLine.RunAsync(args, terminal, cancellation),
    abandoned: () => error.WriteLine("Stopped; unfinished results are discarded."));

// A file or a pipe has no width, and some terminals tell 0.
static int WidthOfTerminal() => !Console.IsOutputRedirected && Console.WindowWidth is > 0 and var width ? Math.Min(width, TextTable.UsualWidth) : TextTable.NarrowWidth;
