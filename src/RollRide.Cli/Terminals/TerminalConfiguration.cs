using System.CommandLine;

namespace RollRide.Cli.Terminals;

/// <summary>Hands the terminal to the commands.</summary>
internal sealed class TerminalConfiguration : InvocationConfiguration
{
    /// <summary>Makes the configuration. Faults and Ctrl-C are handled by <see cref="CommandLine"/> and the program, not by the library.</summary>
    public TerminalConfiguration(Terminal terminal)
    {
        Terminal = terminal;
        Output = terminal.Output;
        Error = terminal.Error;
        EnableDefaultExceptionHandler = false;
        ProcessTerminationTimeout = null;
    }

    /// <summary>The terminal.</summary>
    public Terminal Terminal { get; }
}
