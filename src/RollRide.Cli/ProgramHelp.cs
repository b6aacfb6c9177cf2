using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using RollRide.Cli.Terminals;

namespace RollRide.Cli;

/// <summary>The library's help with the program's own name, where the library takes that of the host process, and as wide as tables are.</summary>
/// <param name="help">The library's help.</param>
/// <param name="name">The program's name.</param>
internal sealed class ProgramHelp(HelpAction help, string name) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool Terminating => help.Terminating;

    /// <inheritdoc/>
    public override bool ClearsParseErrors => help.ClearsParseErrors;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        var configuration = parseResult.InvocationConfiguration;
        var output = configuration.Output;
        using var text = new StringWriter();
        configuration.Output = text;
        help.MaxWidth = output is TerminalWriter terminal ? terminal.Width : TextTable.UsualWidth;
        var exitCode = help.Invoke(parseResult);
        configuration.Output = output;

        // Only in the line of usage, which is indented and begins with the name.
        output.Write(text.ToString().Replace($"\n  {RootCommand.ExecutableName} ", $"\n  {name} ", StringComparison.Ordinal));
        return exitCode;
    }
}
